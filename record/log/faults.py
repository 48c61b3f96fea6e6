"""What a database or a disk refuses, in a person's words."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager

NO_TABLE = "it has no table of entries"
NO_DATABASE = "the file is not a database"


class LogFault(Exception):
    """The log could not be read or written; the text says why in a person's words."""


class Locked(LogFault):
    """An encrypted record was not opened: the text says why."""


class NoWords(Locked):
    """Nobody was there to ask for the passphrase of an encrypted record."""


class NotARecord(Exception):
    """What was named as a record is not one; ``remedy`` says what to type instead, if known."""

    def __init__(self, text: str, remedy: str = "") -> None:
        super().__init__(text)
        self.remedy = remedy


class RecordTooNew(Exception):
    """The record was made by a newer version of this program."""


@contextmanager
def said_plainly(what: str) -> Iterator[None]:
    """Turn a database's refusal into words; a full or write-protected disk is not a bug."""
    try:
        yield
    except Exception as fault:
        if not _of_a_database(fault):
            raise
        raise LogFault(f"{what}: {reason(fault)}") from fault


def _of_a_database(fault: Exception) -> bool:
    """Return whether a database refused; who has not started SQLAlchemy was not refused by it."""
    alchemy = sys.modules.get("sqlalchemy")
    mine = isinstance(fault, sqlite3.Error)
    return mine or (alchemy is not None and isinstance(fault, alchemy.exc.SQLAlchemyError))


_WORDS = (
    ("disk is full", "the disk is full"),
    ("readonly", "the record cannot be written (read-only disk, or not your file)"),
    ("read-only", "the record cannot be written (read-only disk, or not your file)"),
    ("locked", "another program holds the record; try again in a moment"),
    ("no such table", NO_TABLE),
    ("not a database", NO_DATABASE),
    ("malformed", "the file is damaged; restore a copy, then run `asburied verify` on it"),
    ("too big", "an entry of it is longer than any line may be; it was changed"),
    ("unable to open", "the file cannot be opened"),
    ("disk i/o error", "the disk reported a fault, or is full"),
    ("connection refused", "the database does not answer"),
    ("connection timeout", "the database does not answer"),
    ("name or service not known", "no such host is known"),
    ("password authentication failed", "the password was not accepted"),
    ("no password supplied", "it asks for a password; put it into a file that $PGPASSFILE names"),
    ("permission denied", "this login may not do that"),
    ("what was recorded is never changed", "what was recorded is never changed"),
)


def reason(fault: BaseException) -> str:
    text = str(getattr(fault, "orig", None) or fault)
    return next((words for mark, words in _WORDS if mark in text.lower()), text.strip())
