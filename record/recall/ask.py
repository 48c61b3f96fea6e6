"""The question: which pieces are of a lot, or of a maker's part, at all of these sites?

Four lists come out, and every piece of the kinds in question is in one of them: has it, replaced,
not recorded (it cannot be ruled out), ruled out. What is not known never rules anything out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.answers.refused import CannotAnswer
from record.recall.kept import Kept
from record.recall.values import Came, Copy, Done, Notice, Piece, Site, Told, Was, plain

Asks = Site | Kept
HAS, REPLACED, UNKNOWN, OUT = "has it", "replaced", "not recorded", "ruled out"


class NotNarrowed(CannotAnswer):
    """No record names it, so it cannot be told what it might be part of."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One piece in one of the lists, and why it is there."""

    site: str
    tag: str
    words: str
    where: str
    why: str
    entries: tuple[str, ...]
    done: str  # what was done about the recall; "" where nothing is recorded


@dataclass(frozen=True, slots=True, kw_only=True)
class AtSite:
    """One site: who was told of the recall, and which copies of the manual do not tell of it."""

    site: str
    name: str
    told: tuple[str, ...]
    open: int  # pieces that have it, or may, and of which nothing is recorded as done
    copies: tuple[str, ...]  # that need a new edition


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall:
    """The answer; ``sites`` are those with anything in the first three lists."""

    asked: str
    lots: tuple[str, ...]
    parts: tuple[str, ...]
    kinds: tuple[str, ...]
    has_it: tuple[Found, ...]
    replaced: tuple[Found, ...]
    not_recorded: tuple[Found, ...]
    ruled_out: tuple[Found, ...]  # none where only their count was asked for
    ruled_out_at: Mapping[str, int]  # site → how many pieces there are ruled out
    sites: tuple[AtSite, ...]
    none_on_record: tuple[str, ...]  # sites with nothing of these kinds on record
    looked_at: int  # sites
    not_read: tuple[str, ...]  # records that could not be opened, and why
    reader: str
    further_entries: str


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


def recall(
    sites: Sequence[Asks],
    what: str,
    *,
    part: str | None = None,
    kind: str | None = None,
    reader: str = "owner",
    further: str = "",
    not_read: Sequence[str] = (),
    every: bool = True,
) -> Recall:
    """
    Return the four lists for a lot, a maker's part or a notice, over all ``sites``.

    Unless ``every`` one is asked for, what is ruled out is counted alone, and a site where that
    can be seen from its names is read no further. Raises NotNarrowed where no record names it and
    neither ``part`` nor ``kind`` is told.
    """
    asked = meant(sites, what, part=part, kind=kind)
    came = any(site.came_as({*asked.lots}) for site in sites)
    if not asked.families and not came:
        unread = "".join(f"\nNOT READ: {line}" for line in not_read)
        raise NotNarrowed(
            f"no record here names {what}, so it cannot be told what it may be part of; say what "
            'it is with --kind, such as --kind valve, or --part "the maker\'s part"' + unread
        )
    lists: dict[str, list[Found]] = {HAS: [], REPLACED: [], UNKNOWN: [], OUT: []}
    bare, at, out = [], [], Counter[str]()
    for site in sites:
        seen = None if every else _all_out(asked, site)
        found = list(_sorted(asked, site, seen))
        outs = seen or sum(1 for which, _ in found if which == OUT)
        for which, each in found:
            if every or which != OUT:
                lists[which].append(each)
        if outs:
            out[site.site] += outs
        if not (found or outs):
            bare.append(site.site)
        elif any(which != OUT for which, _ in found):
            at.append(_at(asked, site, found))
    return Recall(
        asked=what,
        lots=asked.lots,
        parts=asked.parts,
        kinds=tuple(f"{kind} ({slot})" for kind, slot in asked.families),
        has_it=tuple(lists[HAS]),
        replaced=tuple(lists[REPLACED]),
        not_recorded=tuple(lists[UNKNOWN]),
        ruled_out=tuple(lists[OUT]),
        ruled_out_at=dict(out),
        sites=tuple(at),
        none_on_record=tuple(bare),
        looked_at=len(sites),
        not_read=tuple(not_read),
        reader=reader,
        further_entries=further,
    )


def _matches(asked: Asked, names: Iterable[str]) -> bool:
    return not {*asked.lots}.isdisjoint(names)


def _all_out(asked: Asked, site: Asks) -> int | None:
    """Return how many pieces a site rules out, if its row tells that of every one of them."""
    if isinstance(site, Site):
        return None
    names = asked.lots or asked.parts
    return site.count(names, asked.families, lambda piece: judge(asked, piece)[0] == OUT)


def _sorted(asked: Asked, site: Asks, seen: int | None) -> Iterator[tuple[str, Found]]:
    """Yield the pieces, each with its list; of those ``seen`` to be ruled out, none."""
    met = False
    for piece in site.of(asked.families) if seen is None else ():
        which, why, entries = judge(asked, piece)
        met = met or which in (HAS, REPLACED)
        yield _after(asked, site, piece, which, why, entries)
    if not met:
        yield from ((UNKNOWN, each) for each in _loose(asked, site))
    if site.missing:
        yield UNKNOWN, _of_site(site, f"what {site.missing} entries say is not in this copy", ())
    if site.unread:
        tags = ", ".join(site.unread)
        yield UNKNOWN, _of_site(site, f"something of {tags} cannot be read by this version", ())


Judged = tuple[str, str, tuple[str, ...]]  # which list, why, by which entries


def judge(asked: Asked, piece: Piece) -> Judged:
    """Return in which list a piece belongs, and why."""
    if (other := _another_part(asked, piece)) is not None:
        return OUT, other, piece.entries
    was = _was(asked, piece)
    if asked.lots:
        has, known = _matches(asked, piece.names), bool(piece.names) and not piece.lot_absent
        said, absent = f"{piece.slot} {piece.lot}", f"{piece.slot} {piece.lot_absent}"
    else:
        has, known = not {*asked.parts}.isdisjoint(piece.parts), False
        said, absent = f"maker's part {piece.part}", f"maker's part {piece.part_absent}"
    if has and piece.lot_absent == "not settled":
        return UNKNOWN, f"not settled: {said}", piece.entries
    if has:
        return _has(piece, said)
    if was is not None and not was.mended:
        since = f"had {was.said} ({was.entry}) until {was.since}, then {piece.lot or piece.part}"
        return REPLACED, since, (was.entry, was.by)
    if known or was is not None:
        first = f"; {was.said} was a slip ({was.entry}), put right by {was.by}" if was else ""
        return OUT, said + first, piece.entries
    if piece.doing and piece.lot_absent.startswith("n/a"):
        return OUT, absent, piece.entries  # steel that was ground had nothing put on it
    return UNKNOWN, absent, piece.entries


def _has(piece: Piece, said: str) -> Judged:
    if piece.gone:
        return REPLACED, f"had {said}; {piece.gone}", piece.entries
    if piece.moved:
        return (
            UNKNOWN,
            f"had {said}; {piece.moved}; what is there now is not recorded",
            piece.entries,
        )
    return HAS, said, piece.entries


def _another_part(asked: Asked, piece: Piece) -> str | None:
    """Say that it is of another make: one that is settled, and none of those called back."""
    if piece.type and asked.types and piece.type not in asked.types:
        return f"another type: {piece.type}"
    stated = piece.parts and not piece.part_absent
    if not (asked.made_as and stated) or not {*asked.made_as}.isdisjoint(piece.parts):
        return None
    return None if _matches(asked, piece.names) else f"another part: {piece.part}"


def _was(asked: Asked, piece: Piece) -> Was | None:
    names = {*asked.lots} or {*asked.parts}
    found = [was for was in piece.before if not names.isdisjoint(was.names)]
    real = [was for was in found if not was.mended]
    return (real or found)[-1] if found else None


#: What was done about a recall → the list the piece is in from then on; else it stays where it is.
MOVES = {"replaced": REPLACED, "taken out": REPLACED, "looked at, not of it": OUT}


def _after(
    asked: Asked, site: Asks, piece: Piece, which: str, why: str, entries: tuple[str, ...]
) -> tuple[str, Found]:
    """Move a piece by what is recorded as done about this recall."""
    mine = [one for one in site.done if one.tag == piece.tag and plain(one.notice) in asked.notices]
    said = ""
    if mine and which in (HAS, UNKNOWN):
        last = mine[-1]
        which = MOVES.get(last.done, which)
        entries = (*entries, last.entry)
    if mine:
        said = "; ".join(_done(one) for one in mine)
    return which, Found(
        site=site.site,
        tag=piece.tag,
        words=piece.words,
        where=piece.where,
        why=why,
        entries=entries,
        done=said,
    )


def _done(one: Done) -> str:
    found = f", {one.found}" if one.found else ""
    return f"{one.done}{found}, {one.on} ({one.entry})"


def _loose(asked: Asked, site: Asks) -> Iterator[Found]:
    """Yield deliveries of it, where nothing recorded says what it was built into."""
    came = site.came_as({*asked.lots})
    if any(not one.back for one in came):
        said = "; ".join(_came(one) for one in came)
        numbers = tuple(one.entry for one in came)
        yield _of_site(site, f"{said}; nothing recorded says where it went", numbers)


def _came(one: Came) -> str:
    return f"{'sent back' if one.back else 'delivered'} {one.on}: {one.what} ({one.entry})"


def _of_site(site: Asks, why: str, entries: tuple[str, ...]) -> Found:
    return Found(
        site=site.site, tag="", words="the site", where="", why=why, entries=entries, done=""
    )


def _at(asked: Asked, site: Asks, found: Sequence[tuple[str, Found]]) -> AtSite:
    told = [one for one in site.told if plain(one.notice) in asked.notices]
    said = {one.entry for one in site.notices if plain(one.notice) in asked.notices}
    said |= {one.entry for one in site.done if plain(one.notice) in asked.notices}
    return AtSite(
        site=site.site,
        name=site.name,
        told=tuple(_told(one) for one in told),
        open=sum(1 for which, each in found if which in (HAS, UNKNOWN) and not each.done),
        copies=tuple(_copy(one) for one in site.copies if not said or said - {*one.knows}),
    )


def _told(one: Told) -> str:
    return f"{one.who}, {one.on} ({one.entry})"


def _copy(one: Copy) -> str:
    return f"edition {one.edition} ({one.reader}), held by: {one.holder} [{', '.join(one.entries)}]"
