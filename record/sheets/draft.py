"""What a sheet says, before it is sealed: drafts of entries, each with the place it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from record.facts import Kind, Sort
from record.facts.values import Value, in_words
from record.sheets.lines import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """
    One entry to be: what it says, and the lines it came from.

    ``key`` tells it apart from the sheet's other drafts of the same kind and tag, so that a
    sheet posted again is compared entry by entry.
    """

    kind: Kind
    about: str
    body: Mapping[str, Value]
    at: str | None = None
    did: str | None = None
    saw: str | None = None
    by: str | None = None
    readers: tuple[str, ...] | None = None
    mends: tuple[str, ...] = ()
    because: str | None = None
    key: str = ""
    heading: Piece
    lines: tuple[int, ...]
    spots: Mapping[str, Piece] = field(default_factory=dict)

    def spot(self, name: str) -> Piece:
        """Return where a field stands; the block's heading where it does not."""
        return self.spots.get(name, self.heading)


def first_words(kind: Kind, body: Mapping[str, Value], mends: tuple[str, ...]) -> str:
    """Return what tells a happening apart from another of the same kind about the same thing."""
    if kind.sort is Sort.HAPPENING:
        for field in kind.fields:
            if field.name in body:
                return in_words(body[field.name])
    return "mends " + ", ".join(mends) if mends else ""
