"""What many records say of lots, kept beside them: derived, deletable, this person's own.

Each site has two files. In ``.names`` is one small row: the names it bears, and how many pieces
of each make it has; it is read whole, at every asking. In ``.pieces`` are the pieces by family,
read only where a row does not answer. The row is sealed and names its place, the state of the
record it was read from and the hash of every part of the pieces: what was changed, or put in
from elsewhere, is not taken. Of an encrypted record both lie in it, encrypted by its vault.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from record.index.own import seal, unsealed, write
from record.recall.values import Came, Copy, Done, LotOf, Notice, Piece, Site, Told

if TYPE_CHECKING:
    from record.secret import Vault

NAME = "recall.kept"
FORM = 4  # raised whenever the meaning of what is kept changes
Family = tuple[str, str]
Where = tuple[int, int, bytes]  # first byte, how many, their SHA-256


class Spoiled(Exception):
    """Pieces are not those that their row tells of."""


class Row(msgspec.Struct, array_like=True):
    """
    One site in short.

    ``names`` stand between line feeds, which no name holds; those of each part, in the order of
    ``parts``, between bytes that no text holds.
    """

    made_by: str
    place: str
    mark: str
    site: str
    name: str
    unread: tuple[str, ...]
    missing: int
    notices: tuple[Notice, ...]
    names: bytes
    alike: dict[bytes, int]  # a piece that stands for others, packed → how many
    parts: dict[str, Where]


class Rest(msgspec.Struct, array_like=True):
    """What is asked of few sites."""

    came: tuple[Came, ...]
    lots: tuple[LotOf, ...]
    told: tuple[Told, ...]
    done: tuple[Done, ...]
    copies: tuple[Copy, ...]


_pack = msgspec.msgpack.encode
_row = msgspec.msgpack.Decoder(Row).decode
_pieces = msgspec.msgpack.Decoder(tuple[Piece, ...]).decode
_rest = msgspec.msgpack.Decoder(Rest).decode
_stand_in = lru_cache(maxsize=100_000)(msgspec.msgpack.Decoder(Piece).decode)
REST = ""  # no family is called so
NO_TEXT = b"\xff"  # stands in no UTF-8


def alike(piece: Piece) -> Piece:
    """
    Return what stands for a piece where a question names none of its names.

    Two pieces with the same stand-in are then in the same list: only their make, whether a lot is
    stated, and whether it was something done with nothing used, is asked of them.
    """
    settled = bool(piece.names) and not piece.lot_absent
    none = piece.doing and piece.lot_absent.startswith("n/a")
    return Piece(
        tag="",
        kind=piece.kind,
        type=piece.type,
        slot=piece.slot,
        words="",
        where="",
        lot="",
        names=("\n",) if settled else (),  # a lot, but none that can be asked for
        lot_absent="" if settled else "n/a" if none else "not recorded",
        part="",
        parts=() if piece.part_absent else tuple(sorted(piece.parts)),
        part_absent=piece.part_absent and "not recorded",
        entries=(),
        doing=none,
    )


def keep(
    at: Path, place: str, mark: str, made_by: str, site: Site, vault: Vault | None = None
) -> None:
    """Keep what was read of the record at ``place``, whose state was ``mark``; or nothing."""
    by_family: dict[str, list[Piece]] = {}
    count: dict[bytes, int] = {}
    for piece in site.pieces:
        by_family.setdefault(_key(piece.family), []).append(piece)
        like = _pack(alike(piece))
        count[like] = count.get(like, 0) + 1
    rest = Rest(site.came, site.lots, site.told, site.done, site.copies)
    packed = {REST: _pack(rest), **{key: _pack(found) for key, found in by_family.items()}}
    if vault is not None:
        packed = {key: vault.hidden_cache(_bound(key), data) for key, data in packed.items()}
    row = Row(
        made_by=made_by,
        place=place,
        mark=mark,
        site=site.site,
        name=site.name,
        unread=site.unread,
        missing=site.missing,
        notices=site.notices,
        names=_names(site, packed),
        alike=count,
        parts=dict(_parts(packed)),
    )
    if write(_file(at, place, "pieces"), *packed.values()):
        seal(_file(at, place, "names"), _pack(row), vault)


def _names(site: Site, parts: Iterable[str]) -> bytes:
    """Return every name that a lot or a maker's part can be asked for by, part by part."""
    found: dict[str, set[str]] = {key: set() for key in parts}
    for piece in site.pieces:
        names = found[_key(piece.family)]
        names.update(piece.names, piece.parts, *(was.names for was in piece.before))
    found[REST].update(*(one.names for one in site.came))
    found[REST].update(*((*lot.names, *lot.parts) for lot in site.lots))
    said = ("\n".join(("", *sorted(names), "")) for names in found.values())
    return NO_TEXT.join(each.encode(errors="surrogatepass") for each in said)


def _parts(packed: dict[str, bytes]) -> Iterator[tuple[str, Where]]:
    first = 0
    for key, data in packed.items():
        yield key, (first, len(data), hashlib.sha256(data).digest())
        first += len(data)


@lru_cache(maxsize=1000)  # the same few are looked for on every site
def _between(name: str) -> bytes:
    return f"\n{name}\n".encode(errors="surrogatepass")


def _key(family: Family) -> str:
    return "\n".join(family)


def _bound(key: str) -> str:
    """Return what a part is bound to when it is encrypted."""
    return f"{NAME} {key}"


def _file(at: Path, place: str, what: str) -> Path:
    called = hashlib.sha256(place.encode(errors="surrogatepass")).hexdigest()[:32]
    return at / f"{called}.{what}"


def forget(at: Path, place: str) -> None:
    """Take away what is kept of the record at ``place``."""
    for what in ("names", "pieces"):
        with suppress(OSError):
            _file(at, place, what).unlink()


def kept(at: Path, place: str, mark: str, made_by: str, vault: Vault | None = None) -> Kept | None:
    """Return what is kept of the record at ``place`` while its state is ``mark``, or None."""
    body = unsealed(_file(at, place, "names"), vault) if mark else None
    if body is None:
        return None
    try:
        row = _row(body)
    except (msgspec.MsgspecError, ValueError):
        return None
    if (row.made_by, row.place, row.mark) != (made_by, place, mark):
        return None
    return Kept(row, _file(at, place, "pieces"), vault)


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
            if _key(family) in self._row.parts:
                yield from self._family(_key(family))

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
        shown = data if self._vault is None else self._vault.shown_cache(_bound(key), data)
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
