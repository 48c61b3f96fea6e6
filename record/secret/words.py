"""Who is asked for the passphrase of an encrypted record: once for each record, and once in all.

Whoever runs commands says how to ask (:func:`asking`); whoever opens a record asks. Words that
opened one record are tried on the next, for most fleets have one passphrase.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextvars import ContextVar
from dataclasses import dataclass, field
from pathlib import Path

NOBODY = "nobody was there to ask"


@dataclass(slots=True, repr=False)
class Words:
    """
    Passphrases as they are asked for, and the keys that were worked out from them so far.

    ``ask`` yields what may open the record in a folder, one after the other. ``how`` says, for
    whoever reads a refusal, how a passphrase is given. ``opening`` is told of each record that is
    opened. ``keys`` are by the salt of a database.
    """

    ask: Callable[[Path], Iterator[str]]
    how: str = NOBODY
    opening: Callable[[Path], None] = lambda _: None
    opened: list[str] = field(default_factory=list)
    keys: dict[bytes, bytes] = field(default_factory=dict)

    def offered(self, record: Path) -> Iterator[str]:
        """Yield each passphrase that may open a record, those that opened another first."""
        tried: set[str] = set()
        for words in self.opened.copy():
            tried.add(words)
            yield words
        for words in self.ask(record):
            if words not in tried:
                yield words

    def opens(self, words: str) -> None:
        """Keep in mind a passphrase that opened a record."""
        if words not in self.opened:
            self.opened.append(words)


def _nobody(_: Path) -> Iterator[str]:
    return iter(())


_ASKED: ContextVar[Words | None] = ContextVar("words", default=None)


def asking(words: Words | None) -> None:
    """Say how passphrases are asked for from here on; None, that nobody is asked."""
    _ASKED.set(words)


def asked() -> Words:
    """Return how passphrases are asked for; nobody is, where nothing was said."""
    return _ASKED.get() or Words(_nobody)
