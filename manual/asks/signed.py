"""What changed since the edition that somebody last signed for."""

from __future__ import annotations

from dataclasses import dataclass

from manual.bound.book import Book
from manual.bound.editions import QUIET, editions, since
from record.entry import Entry


@dataclass(frozen=True, slots=True)
class Signed:
    """The last hand-over that was signed: its edition, day and name, and the entries since."""

    edition: int
    on: str
    by: str
    number: str
    entries: tuple[Entry, ...]


def last_signed(book: Book) -> Signed | None:
    """Return it, or None where no signed hand-over of an edition is recorded in this copy."""
    built = book.view.built
    issued = {one.number: one for one in editions(built.entries)}
    for handed in reversed(list(built.happened("copy handed over"))):
        number, by = handed.count("edition"), handed.text("signed_by")
        if number in issued and by:
            later = [e for e in since(built.entries, issued[number]) if _tells(e)]
            return Signed(number, handed.on, by, handed.entry.number, tuple(later))
    return None


def _tells(entry: Entry) -> bool:
    return entry.content is not None and entry.content.kind not in QUIET
