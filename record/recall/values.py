"""What a record says of lots and makers' parts, as plain values that can be kept."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from record.facts.faults import plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Was:
    """What a piece was once said to be, and the entry that has stood in its place since."""

    said: str
    names: tuple[str, ...]
    on: str
    entry: str
    since: str  # day of what took its place
    by: str  # that entry
    mended: bool  # it was never so: a slip that was put right


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """
    One place that one lot goes in: a valve, a seal about a pipe, a coat on a seam.

    ``names`` are all the lots it can be called by, ``parts`` all makers' parts; ``lot_absent``
    and ``part_absent`` say which absence it is where nothing, or nothing settled, is stated.
    """

    tag: str
    kind: str
    type: str  # "" where the kind has none or it is not recorded
    slot: str
    words: str
    where: str
    lot: str
    names: tuple[str, ...]
    lot_absent: str
    part: str
    parts: tuple[str, ...]
    part_absent: str
    entries: tuple[str, ...]
    before: tuple[Was, ...] = ()
    gone: str = ""  # how it is known to be there no longer
    doing: bool = False  # something that was done, which may have used up nothing
    moved: str = ""  # taken out since, and nothing says what is there now

    @property
    def family(self) -> tuple[str, str]:
        """What may be of one make: the kind of thing, and which of its lots."""
        return self.kind, self.slot

    def bears(self, names: set[str]) -> bool:
        """Return whether it bears one of these names of lots or parts, or bore it once."""
        return not (
            names.isdisjoint(self.names)
            and names.isdisjoint(self.parts)
            and all(names.isdisjoint(was.names) for was in self.before)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """A lot that was delivered or sent back."""

    what: str
    names: tuple[str, ...]
    back: bool
    on: str
    entry: str
    used_for: tuple[str, ...] = ()  # tags that it was delivered for


@dataclass(frozen=True, slots=True, kw_only=True)
class LotOf:
    """A lot that has an entry of its own, which may say what make it is."""

    names: tuple[str, ...]
    parts: tuple[str, ...]
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    notice: str
    words: str
    lots: tuple[str, ...]
    parts: tuple[str, ...]
    on: str
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    notice: str
    who: str
    on: str
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    notice: str
    tag: str
    done: str
    found: str
    on: str
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """An edition that somebody may hold; ``knows`` are the recall entries it had seen."""

    edition: str
    reader: str
    holder: str
    knows: tuple[str, ...]
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What one record says of lots, as one reader sees it."""

    site: str
    name: str
    pieces: tuple[Piece, ...]
    came: tuple[Came, ...]
    lots: tuple[LotOf, ...]
    notices: tuple[Notice, ...] = ()
    told: tuple[Told, ...] = ()
    done: tuple[Done, ...] = ()
    copies: tuple[Copy, ...] = ()
    unread: tuple[str, ...] = ()  # tags of which something cannot be read by this version
    missing: int = 0  # entries whose content is in no place here: the copy was stripped

    def families(self) -> set[tuple[str, str]]:
        return {piece.family for piece in self.pieces}

    def of(self, families: Iterable[tuple[str, str]]) -> Iterator[Piece]:
        """Yield the pieces of some families, one family after the other."""
        for family in families:
            yield from (piece for piece in self.pieces if piece.family == family)

    def known(self, names: set[str]) -> list[Piece]:
        """Return the pieces that bear one of these names, or bore it once."""
        return [piece for piece in self.pieces if piece.bears(names)]

    def came_as(self, lots: set[str]) -> list[Came]:
        return [one for one in self.came if lots & {*one.names}]

    def lots_called(self, lots: set[str]) -> list[LotOf]:
        return [one for one in self.lots if lots & {*one.names}]


def names_in(text: str) -> tuple[str, ...]:
    """
    Return every name that words may mean: each piece between commas, and each word of it.

    >>> names_in("E-501, E-502 (part B)")
    ('e-501', 'e-502 (part b)', 'e-502', 'part', 'b')
    """
    found: dict[str, None] = {}
    for piece in re.split(r"[,;]", text):
        found[plain(piece)] = None
        found.update(dict.fromkeys(word.strip(".:()[]\"'") for word in plain(piece).split()))
    return tuple(name for name in found if name)


def listed(text: str) -> tuple[str, ...]:
    """
    Return what is listed with commas between, each as a whole.

    >>> listed("V-0291, OP 160")
    ('v-0291', 'op 160')
    """
    return tuple(dict.fromkeys(filter(None, (plain(one) for one in re.split(r"[,;]", text)))))
