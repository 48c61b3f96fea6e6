"""What many records say of lots, kept beside them: derived, deletable, this person's own.

A site is taken from it only while its mark is that of today: in a folder the state of the
database's file, in a database the newest row of what came in. Of what is kept only the families of
things that are asked about are read; whether a name is among them is seen from their bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import Any

import msgspec

from record.recall.pieces import Site
from record.recall.values import Came, Copy, Done, LotOf, Notice, Piece, Told

NAME = "recall.cache"
FORM = 1  # raised whenever the meaning of what is kept changes


class Bundle(msgspec.Struct, array_like=True):
    """One site as it is kept: its pieces by family, packed; so is what few questions need."""

    mark: str
    site: str
    name: str
    pieces: dict[str, bytes]
    came: bytes
    lots: bytes
    rest: bytes
    notices: list[Notice]
    unread: tuple[str, ...]
    missing: int


class Rest(msgspec.Struct, array_like=True):
    told: tuple[Told, ...]
    done: tuple[Done, ...]
    copies: tuple[Copy, ...]


class Whole(msgspec.Struct, array_like=True):
    """All sites of one folder or database, by the place each is at."""

    made_by: str
    sites: dict[str, Bundle]


_pack = msgspec.msgpack.encode
_pieces = msgspec.msgpack.Decoder(tuple[Piece, ...]).decode
_came = msgspec.msgpack.Decoder(tuple[Came, ...]).decode
_lots = msgspec.msgpack.Decoder(tuple[LotOf, ...]).decode
_rest = msgspec.msgpack.Decoder(Rest).decode
Family = tuple[str, str]


def bundle(mark: str, site: Site) -> Bundle:
    """Return a site packed; ``mark`` is of the record as it was read."""
    by_family: dict[str, list[Piece]] = {}
    for piece in site.pieces:
        by_family.setdefault(_key(piece.family), []).append(piece)
    return Bundle(
        mark=mark,
        site=site.site,
        name=site.name,
        pieces={key: _pack(pieces) for key, pieces in by_family.items()},
        came=_pack(site.came),
        lots=_pack(site.lots),
        rest=_pack(Rest(site.told, site.done, site.copies)),
        notices=list(site.notices),
        unread=site.unread,
        missing=site.missing,
    )


def _key(family: Family) -> str:
    return "\n".join(family)


class Kept:
    """A site that is read from what is kept, as far as it is asked about."""

    def __init__(self, of: Bundle) -> None:
        self._of = of
        self.site, self.name = of.site, of.name
        self.notices: Sequence[Notice] = of.notices
        self.unread, self.missing = of.unread, of.missing
        self._read_of: dict[str, tuple[Piece, ...]] = {}
        self._known: dict[frozenset[str], list[Piece]] = {}

    def families(self) -> set[Family]:
        return {(kind, slot) for key in self._of.pieces for kind, _, slot in [key.partition("\n")]}

    def of(self, families: Iterable[Family]) -> Iterator[Piece]:
        """Yield the pieces of some families."""
        for family in families:
            if _key(family) in self._of.pieces:
                yield from self._family(_key(family))

    def _family(self, key: str) -> tuple[Piece, ...]:
        if key not in self._read_of:
            self._read_of[key] = _pieces(self._of.pieces[key])
        return self._read_of[key]

    def known(self, names: set[str]) -> list[Piece]:
        """Return the pieces that bear one of these names, or bore it once."""
        asked = frozenset(names)
        if asked not in self._known:
            wanted = [name.encode() for name in names]
            self._known[asked] = [
                piece
                for key, packed in self._of.pieces.items()
                if any(name in packed for name in wanted)
                for piece in self._family(key)
                if piece.bears(names)
            ]
        return self._known[asked]

    def came_as(self, lots: set[str]) -> list[Came]:
        return [one for one in self._read(_came, self._of.came, lots) if lots & {*one.names}]

    def lots_called(self, lots: set[str]) -> list[LotOf]:
        return [one for one in self._read(_lots, self._of.lots, lots) if lots & {*one.names}]

    def _read(self, decode: Any, packed: bytes, names: set[str]) -> tuple[Any, ...]:
        found = any(name.encode() in packed for name in names)
        return tuple(decode(packed)) if found else ()

    @cached_property
    def _rest(self) -> Rest:
        return _rest(self._of.rest)

    @property
    def told(self) -> tuple[Told, ...]:
        return self._rest.told

    @property
    def done(self) -> tuple[Done, ...]:
        return self._rest.done

    @property
    def copies(self) -> tuple[Copy, ...]:
        return self._rest.copies
