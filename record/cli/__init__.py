"""The command line of the record: one command a file; each reads its words, calls, prints."""

from __future__ import annotations

# Each import mounts its command, in the order that help shows them.
from record.cli import init, post, say, entries, show, history, ready, verify  # noqa: I001
from record.cli.app import Refused, app, run

__all__ = [
    "Refused",
    "app",
    "entries",
    "history",
    "init",
    "post",
    "ready",
    "run",
    "say",
    "show",
    "verify",
]
