"""What a recall asks for: a lot, a maker's part or a notice → the lots, parts and kinds meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from record.facts.faults import plain
from record.recall.kept import Kept
from record.recall.values import Notice, Piece, Site

Asks = Site | Kept


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is called back: lots, makers' parts, and kinds of thing where nothing tells them."""

    what: str
    lots: tuple[str, ...]  # names as they are compared; none: every lot of the parts
    parts: tuple[str, ...]
    families: tuple[tuple[str, str], ...]  # kind of thing, and which of its lots
    types: tuple[str, ...]  # of those known to be of it; none: not known
    made_as: tuple[str, ...]  # every maker's part they may be of; none: not known
    notices: tuple[str, ...]  # numbers of notices, as they are compared


def meant(
    sites: Sequence[Asks], what: str, *, part: str | None = None, kind: str | None = None
) -> Asked:
    """
    Return what ``what`` is: a notice that some record holds, a lot, or a maker's part.

    ``part`` and ``kind`` tell what a lot is of where no record does.
    """
    name = plain(what)
    noticed = [one for site in sites for one in site.notices if plain(one.notice) == name]
    lots = {lot for one in noticed for lot in one.lots}
    parts = {each for one in noticed for each in one.parts}
    parts |= {plain(part)} if part else set()
    if not noticed:
        is_part = any(name in piece.parts for site in sites for piece in site.known({name}))
        is_lot = any(_is_lot(site, name) for site in sites)
        (parts if is_part and not is_lot else lots).add(name)
    more = [one for site in sites for one in site.notices if _about(one, lots, parts)]
    known = _known(sites, lots, parts)
    families = {piece.family for piece in known}
    if kind:
        families = {family for family in _all(sites) if family[0] == kind}
    return Asked(
        what=what,
        lots=tuple(sorted(lots)),
        parts=tuple(sorted(parts)),
        families=tuple(sorted(families)),
        types=tuple(sorted({piece.type for piece in known if piece.type})),
        made_as=_made_as(sites, known, lots, parts),
        notices=tuple(sorted({plain(one.notice) for one in (*noticed, *more)})),
    )


def _about(one: Notice, lots: set[str], parts: set[str]) -> bool:
    """Return whether a notice is of these lots; where neither names a lot, of these parts."""
    if lots and one.lots:
        return bool(lots & {*one.lots})
    return bool(parts & {*one.parts})


def _is_lot(site: Asks, name: str) -> bool:
    return bool(site.came_as({name}) or site.lots_called({name})) or any(
        name in names
        for piece in site.known({name})
        for names in (piece.names, *(was.names for was in piece.before))
    )


def _all(sites: Sequence[Asks]) -> set[tuple[str, str]]:
    return {family for site in sites for family in site.families()}


def _known(sites: Sequence[Asks], lots: set[str], parts: set[str]) -> list[Piece]:
    """Return what is known, anywhere, to be of these lots or parts, or to have been."""
    return [
        piece
        for site in sites
        for piece in site.known(lots | parts)
        if not parts.isdisjoint(piece.parts)
        or not lots.isdisjoint(piece.names)
        or any(not lots.isdisjoint(was.names) for was in piece.before)
    ]


def _made_as(
    sites: Sequence[Asks], known: Sequence[Piece], lots: set[str], parts: set[str]
) -> tuple[str, ...]:
    """Return the makers' parts asked for; else, as a lot is of one product, those it is of."""
    if parts:
        return tuple(sorted(parts))
    of_lots = [lot.parts for site in sites for lot in site.lots_called(lots)]
    of_lots += [one.parts for one in known if lots & {*one.names} and one.parts]
    return tuple(sorted({part for parts in of_lots for part in parts}))
