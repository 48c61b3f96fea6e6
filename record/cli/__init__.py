"""The command line of the record: one command a file; each reads its words, calls, prints."""

from __future__ import annotations

from record.cli import init, post, say, verify  # each mounts its command
from record.cli.app import Refused, app, run

__all__ = ["Refused", "app", "init", "post", "run", "say", "verify"]
