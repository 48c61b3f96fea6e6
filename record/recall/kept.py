"""A site as it was kept, read as far as it is asked about; what is not of today is not taken."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from record.index.own import unsealed
from record.recall.kept_form import (
    NO_TEXT,
    REST,
    Family,
    Rest,
    Row,
    bound_to,
    file_of,
    key_of,
)
from record.recall.values import Came, Copy, Done, LotOf, Notice, Piece, Told

if TYPE_CHECKING:
    from record.secret import Vault


class Spoiled(Exception):
    """Pieces are not those that their row tells of."""


_row = msgspec.msgpack.Decoder(Row).decode
_pieces = msgspec.msgpack.Decoder(tuple[Piece, ...]).decode
_rest = msgspec.msgpack.Decoder(Rest).decode
_stand_in = lru_cache(maxsize=100_000)(msgspec.msgpack.Decoder(Piece).decode)


@lru_cache(maxsize=1000)  # the same few are looked for on every site
def _between(name: str) -> bytes:
    return f"\n{name}\n".encode(errors="surrogatepass")


def forget(at: Path, place: str) -> None:
    """Take away what is kept of the record at ``place``."""
    for what in ("names", "pieces"):
        with suppress(OSError):
            file_of(at, place, what).unlink()


def kept(at: Path, place: str, mark: str, made_by: str, vault: Vault | None = None) -> Kept | None:
    """Return what is kept of the record at ``place`` while its state is ``mark``, or None."""
    body = unsealed(file_of(at, place, "names"), vault) if mark else None
    if body is None:
        return None
    try:
        row = _row(body)
    except (msgspec.MsgspecError, ValueError):
        return None
    if (row.made_by, row.place, row.mark) != (made_by, place, mark):
        return None
    return Kept(row, file_of(at, place, "pieces"), vault)


class Kept:
    """A site that is read from what is kept, as far as it is asked about."""

    def __init__(self, row: Row, path: Path, vault: Vault | None = None) -> None:
        self._row, self._path, self._vault = row, path, vault
        self.site, self.name = row.site, row.name
        self.notices: Sequence[Notice] = row.notices
        self.unread, self.missing = row.unread, row.missing
        self._read_of: dict[str, tuple[Piece, ...]] = {}
        self._known: dict[frozenset[str], list[Piece]] = {}

    def bears(self, names: Iterable[str]) -> bool:
        """Return whether anything on this site bears one of these names, or bore it once."""
        return any(_between(name) in self._row.names for name in names)

    def _bearing(self, names: Iterable[str]) -> set[str]:
        """Return the parts in which one of these names stands."""
        keys, said, found = [*self._row.parts], self._row.names, set()
        for needle in map(_between, names):
            at = said.find(needle)
            while at >= 0:
                found.add(keys[said.count(NO_TEXT, 0, at)])
                at = said.find(needle, at + 1)
        return found

    def whole(self) -> bool:
        """Return whether all pieces are those that the row tells of."""
        try:
            for key in self._row.parts:
                self._part(key)
        except Spoiled:
            return False
        return True

    def families(self) -> set[Family]:
        return {(kind, slot) for key in self._row.parts if key for kind, _, slot in [_split(key)]}

    def of(self, families: Iterable[Family]) -> Iterator[Piece]:
        """Yield the pieces of some families."""
        for family in families:
            if key_of(family) in self._row.parts:
                yield from self._family(key_of(family))

    def count(
        self, names: Iterable[str], families: Iterable[Family], all_are: Callable[[Piece], bool]
    ) -> int | None:
        """
        Return how many pieces of some families there are, where ``all_are`` holds of every one.

        None where one of them is otherwise, or where the row cannot tell, as one may be named.
        """
        if self.bears(names):
            return None
        wanted, found = set(families), 0
        for packed, count in self._row.alike.items():
            stand_in = _stand_in(packed)
            if stand_in.family in wanted:
                if not all_are(stand_in):
                    return None
                found += count
        return found

    def _family(self, key: str) -> tuple[Piece, ...]:
        if key not in self._read_of:
            self._read_of[key] = _pieces(self._part(key))
        return self._read_of[key]

    def _part(self, key: str) -> bytes:
        """Return a part of the pieces. Raises Spoiled."""
        first, length, digest = self._row.parts[key]
        data = b""
        with suppress(OSError), self._path.open("rb") as file:
            file.seek(first)
            data = file.read(length)
        if hashlib.sha256(data).digest() != digest:
            raise Spoiled(self._row.place)
        shown = data if self._vault is None else self._vault.shown_cache(bound_to(key), data)
        if shown is None:
            raise Spoiled(self._row.place)
        return shown

    def known(self, names: set[str]) -> list[Piece]:
        """Return the pieces that bear one of these names, or bore it once."""
        if not self.bears(names):
            return []
        asked = frozenset(names)
        if asked not in self._known:
            bearing = self._bearing(names) - {REST}
            keys = (key for key in self._row.parts if key in bearing)
            self._known[asked] = [
                piece for key in keys for piece in self._family(key) if piece.bears(names)
            ]
        return self._known[asked]

    def came_as(self, lots: set[str]) -> list[Came]:
        return [one for one in self._named(lots).came if lots & {*one.names}]

    def lots_called(self, lots: set[str]) -> list[LotOf]:
        return [one for one in self._named(lots).lots if lots & {*one.names}]

    def _named(self, names: set[str]) -> Rest:
        return self._rest if self.bears(names) else _NOTHING

    @cached_property
    def _rest(self) -> Rest:
        return _rest(self._part(REST))

    @property
    def told(self) -> tuple[Told, ...]:
        return self._rest.told

    @property
    def done(self) -> tuple[Done, ...]:
        return self._rest.done

    @property
    def copies(self) -> tuple[Copy, ...]:
        return self._rest.copies


_NOTHING = Rest((), (), (), (), ())


def _split(key: str) -> tuple[str, str, str]:
    return key.partition("\n")
