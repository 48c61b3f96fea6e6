"""A kind of fact: the word we chose for it, what it may say, and who may see it by default."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from record.facts.fields import Count, Field, OneOf, Text
from record.facts.named import TagOf
from record.facts.sizes import length

OWNER = "owner"
TECHNICIAN = "technician"
TRADE = "trade"
RESPONDER = "responder"
READERS = (OWNER, TECHNICIAN, TRADE, RESPONDER)
EVERYONE = frozenset(READERS)
WORKERS = frozenset({OWNER, TECHNICIAN, TRADE})
SERVICE = frozenset({OWNER, TECHNICIAN})
OWNER_ONLY = frozenset({OWNER})
OWNER_AND_RESPONDER = frozenset({OWNER, RESPONDER})


class Sort(StrEnum):
    """A thing has a tag and a present state; a happening only adds to a history."""

    THING = "thing"
    HAPPENING = "happening"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """
    One kind of fact.

    ``word`` is written in day sheets, with spaces; in entry lines the spaces are hyphens. It is
    chosen once and never renamed. ``rows`` is the kind of a table's rows, each an entry of its
    own: parts of the thing (stations of a run), or the same happening several times (coats).
    A kind that names no reader is the owner's alone.
    """

    word: str
    says: str
    sort: Sort
    fields: tuple[Field, ...]
    version: int = 1
    about: tuple[str, ...] = ()  # a happening: kinds of thing it may be about; none is any
    tagless: bool = False  # a happening that may be about the site as a whole
    rows: Kind | None = None
    key: str = ""  # of a row kind: the heading of its first column
    readers: frozenset[str] = OWNER_ONLY

    @property
    def stored(self) -> str:
        return self.word.replace(" ", "-")

    def field(self, key: str) -> Field | None:
        """Return the field a key names, in the crew's spelling or the stored one."""
        name = key.replace(" ", "_")
        return next((field for field in self.fields if field.name == name), None)


#: Where a thing is: on the site grid, or inside a hull, along its length and across it.
#: Levels are on the site datum; "above floor" is above the walking floor.
WHERE = (
    Field("x", length),
    Field("y", length),
    Field("hull", TagOf(("hull",))),
    Field("from near", length),
    Field("from left", length),
    Field("bottom", length),
    Field("above floor", length),
)
#: By length along a run, from its first station or one that is named (less than nought: back
#: toward the first); the side is that of one who looks from the first station to the last.
BY_LENGTH = (
    Field("along run", length),
    Field("along from", Text()),
    Field("beside", length),
    Field("side", OneOf(("left", "right"))),
)
ABOVE_PIPE = Field("above pipe", length)
#: How large it is there: along the hull, across it, and upward.
EXTENT = (
    Field("along", length),
    Field("across", length),
    Field("height", length),
)


def row_number(key: str) -> Field:
    return Field(key, Count(), needed=True)
