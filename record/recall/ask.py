"""The question: which pieces are of a lot, or of a maker's part, at all of these sites?

Four lists come out, and every piece of the kinds in question is in one of them: has it, replaced,
not recorded (it cannot be ruled out), ruled out. What is not known never rules anything out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.answers.refused import CannotAnswer
from record.entry.counted import entries_said
from record.facts.faults import plain
from record.recall.judged import HAS, OUT, REPLACED, UNKNOWN, judge
from record.recall.meaning import Asked, Asks, meant
from record.recall.values import Came, Copy, Done, Piece, Site, Told


class NotNarrowed(CannotAnswer):
    """No record names it, so it cannot be told what it might be part of."""


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
    came: tuple[str, ...]  # what was delivered of it, and sent back
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
    if not what.strip():
        raise NotNarrowed("write which lot, maker's part or notice is recalled")
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


def _all_out(asked: Asked, site: Asks) -> int | None:
    """Return how many pieces a site rules out, if its row tells that of every one of them."""
    if isinstance(site, Site):
        return None
    names = asked.lots or asked.parts
    return site.count(names, asked.families, lambda piece: judge(asked, piece)[0] == OUT)


def _sorted(asked: Asked, site: Asks, seen: int | None) -> Iterator[tuple[str, Found]]:
    """Yield the pieces, each with its list; of those ``seen`` to be ruled out, none."""
    met, told = False, set[str]()
    for piece in site.of(asked.families) if seen is None else ():
        which, why, entries = judge(asked, piece)
        met = met or which in (HAS, REPLACED)
        if which != OUT or not piece.doing:  # another lot used there too rules nothing out
            told.update(tag.partition("/")[0] for tag in piece.tag.split(", "))
        yield _after(asked, site, piece, which, why, entries)
    loose = _meant_for(asked, site, told) if met else _loose(asked, site)
    yield from ((UNKNOWN, each) for each in loose)
    if site.missing:
        lacks = f"the content of {entries_said(site.missing)} is not in this copy"
        yield UNKNOWN, _of_site(site, lacks, ())
    if site.unread:
        tags = ", ".join(site.unread)
        yield UNKNOWN, _of_site(site, f"something of {tags} cannot be read by this version", ())


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


def _meant_for(asked: Asked, site: Asks, told: set[str]) -> Iterator[Found]:
    """Yield what it was delivered for and nothing else tells of: that may have it too."""
    for one in site.came_as({*asked.lots}):
        for tag in one.used_for if not one.back else ():
            if tag.partition("/")[0] not in told:
                yield Found(
                    site=site.site,
                    tag=tag,
                    words="it was delivered for this",
                    where="",
                    why=f"{_came(one)}; nothing recorded says whether it went in here",
                    entries=(one.entry,),
                    done="",
                )


def _came(one: Came) -> str:
    meant = f", for {', '.join(one.used_for)}" if one.used_for else ""
    return f"{'sent back' if one.back else 'delivered'} {one.on}: {one.what}{meant} ({one.entry})"


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
        came=tuple(_came(one) for one in site.came_as({*asked.lots})),
        copies=tuple(_copy(one) for one in site.copies if not said or said - {*one.knows}),
    )


def _told(one: Told) -> str:
    return f"{one.who}, {one.on} ({one.entry})"


def _copy(one: Copy) -> str:
    return f"edition {one.edition} ({one.reader}), held by: {one.holder} [{', '.join(one.entries)}]"
