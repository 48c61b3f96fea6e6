"""What was read of one record → its two files, as :mod:`record.recall.kept_form` has them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from record.index.own import seal, write
from record.recall.kept_form import NO_TEXT, REST, Rest, Row, Where, bound_to, file_of, key_of
from record.recall.values import Piece, Site

if TYPE_CHECKING:
    from record.secret import Vault

pack = msgspec.msgpack.encode


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
        by_family.setdefault(key_of(piece.family), []).append(piece)
        like = pack(alike(piece))
        count[like] = count.get(like, 0) + 1
    rest = Rest(site.came, site.lots, site.told, site.done, site.copies)
    packed = {REST: pack(rest), **{key: pack(found) for key, found in by_family.items()}}
    if vault is not None:
        packed = {key: vault.hidden_cache(bound_to(key), data) for key, data in packed.items()}
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
    if write(file_of(at, place, "pieces"), *packed.values()):
        seal(file_of(at, place, "names"), pack(row), vault)


def _names(site: Site, parts: Iterable[str]) -> bytes:
    """Return every name that a lot or a maker's part can be asked for by, part by part."""
    found: dict[str, set[str]] = {key: set() for key in parts}
    for piece in site.pieces:
        names = found[key_of(piece.family)]
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
