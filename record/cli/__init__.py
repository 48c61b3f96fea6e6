"""The command line of the record: one command a file; each reads its words, calls, prints."""

from __future__ import annotations

# Each import mounts its command, in the order that help shows them.
from record.cli import entries, history, init, post, ready, say, show, verify
from record.cli.app import Refused, app, run

__all__ = [
    "Refused",
    "app",
    "behind",
    "due",
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
