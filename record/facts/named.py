"""Fields that name something else of the record: the tag of a thing, the number of an entry."""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.facts.faults import ValueFault, with_article
from record.facts.values import Value

TAG = re.compile(r"[A-Za-z][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")
BETWEEN = re.compile(r",\s*and\s|[,;&+]|\sand\s", re.IGNORECASE)  # what tags stand between
ENTRY = re.compile(r"[a-z][a-z0-9]{0,15}-[1-9][0-9]{0,8}(?:/[0-9a-f]{4,64})?")
CLOCK = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9]")


@dataclass(frozen=True, slots=True)
class TagOf:
    """The tag of one thing, of one of these kinds (any kind if none is named)."""

    kinds: tuple[str, ...] = ()

    @property
    def says(self) -> str:
        if not self.kinds:
            return "a tag"
        first, *more = self.kinds
        return "the tag of " + " or ".join((with_article(first), *more))

    def read(self, text: str, unit: str | None = None) -> Value:
        if not TAG.fullmatch(text):
            raise ValueFault(f'"{text}" is not a tag', "Write one tag, such as AIR-IN.")
        return text


@dataclass(frozen=True, slots=True)
class TagsOf:
    """Tags of several things, with commas between."""

    kinds: tuple[str, ...] = ()

    says = "tags with commas between"

    def read(self, text: str, unit: str | None = None) -> Value:
        tags, at = [], 0
        for end in (*BETWEEN.finditer(text), None):
            piece = text[at : end.start() if end else len(text)]
            tag = piece.strip()
            if not TAG.fullmatch(tag):
                start = at + len(piece) - len(piece.lstrip())
                raise ValueFault(
                    f'"{tag}" is not a tag',
                    "Write tags with commas between, such as AIR-IN, D-1.",
                    start,
                    max(start + len(tag), start + 1),
                )
            tags.append(tag)
            at = end.end() if end else at
        return tuple(tags)


@dataclass(frozen=True, slots=True)
class EntryOf:
    """
    The number of an earlier entry of one of these kinds, or of several with commas between.

    What was written on the very same sheet has no number yet: it is named by its time of day.
    ``words``: any words may stand here too; only what is an entry number alone is asked after.
    """

    kinds: tuple[str, ...]
    words: bool = False

    says = "an entry number, such as ld-88, or its time on this sheet, such as 07:10"

    def read(self, text: str, unit: str | None = None) -> Value:
        pieces = [piece.strip() for piece in text.split(",")]
        if self.words or all(ENTRY.fullmatch(p) or CLOCK.fullmatch(p) for p in pieces):
            return ", ".join(pieces) if not self.words else text
        raise ValueFault(
            f'"{text}" is no entry number',
            "Write it as it is shown, such as ld-88; of the same sheet, its time, such as 07:10.",
        )

    def named(self, said: str) -> tuple[str, ...]:
        """Return the numbers and times that ``said`` names; none where it is words."""
        pieces = tuple(piece.strip() for piece in said.split(","))
        plain = all(ENTRY.fullmatch(p) or CLOCK.fullmatch(p) for p in pieces)
        return pieces if plain else ()
