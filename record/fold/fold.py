"""Entries → the shelter as built, as known at a moment and as of a day.

State is a function of the set of entries and nothing else: neither their order nor any clock
comes in. A field holds every statement that stands and was not superseded.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import attrgetter, itemgetter

from record.entry import Content, Entry
from record.facts import STORED, Kind, Sort
from record.fold.lazy import Happenings, Things
from record.fold.mends import WITHDRAWN, Mends, mends
from record.fold.sight import Sight, in_order, sight
from record.fold.standing import happening_of, holding, stands
from record.fold.state import AsBuilt, Happening, Held, Thing, UnreadEntry, natural
from record.fold.swaps import as_meant, in_doubt


def known_at(entries: Sequence[Entry], instant: str) -> tuple[Entry, ...]:
    """
    Return the entries recorded at or before ``instant`` (UTC, ISO), by the writers' clocks.

    What such an entry had seen was known too, even where its own writer's clock ran ahead.
    """
    seen = sight(entries)
    known: set[str] = set()
    waiting = [entry for entry in entries if entry.link.recorded <= instant]
    while waiting:
        entry = waiting.pop()
        if entry.hash not in known:
            known.add(entry.hash)
            waiting.extend(seen.before(entry))
    return tuple(entry for entry in entries if entry.hash in known)


def known_to(entries: Sequence[Entry], last: Entry) -> tuple[Entry, ...]:
    """Return exactly the entries that ``last`` had seen when it was written."""
    seen = sight(entries)
    return tuple(entry for entry in entries if seen.saw(last, entry))


def zone_of(entries: Sequence[Entry]) -> str:
    """Return the zone the site's sheets were written in; UTC where none says."""
    zones = (entry.content.zone for entry in entries if entry.content and entry.content.zone)
    return next(zones, "UTC")


def fold(entries: Sequence[Entry], *, as_of: str | None = None) -> AsBuilt:
    """
    Return the shelter as built on day ``as_of`` (ISO; None is the newest day recorded).

    An entry of an unknown kind or a newer version is kept in ``unread`` and stops nothing.
    """
    meant = as_meant(entries)
    seen = sight(meant.entries)
    ordered = in_order(seen)
    mended = mends(ordered, seen, ordered)
    kinds = _kinds_of_things(ordered, mended)
    unread = [UnreadEntry(entry, "it mends an entry that is not here") for entry in mended.astray]
    unread += [UnreadEntry(entry, why) for entry, why in in_doubt(meant)]
    stated, said, strange = _sorted_out(ordered, kinds, mended, as_of)
    return AsBuilt(
        site=ordered[0].link.site if ordered else "",
        as_of=as_of,
        things=_things(stated, kinds, seen, mended),
        happenings=_happenings(said, mended, seen, as_of),
        unread=(*unread, *strange),
        entries=_shown(ordered),
    )


def fold_ordered(ordered: Sequence[Entry], seen: Sight) -> AsBuilt:
    """
    Return what some entries of a record make, given in order of sight with all they mend.

    For things and happenings that lie wholly within them it is what the whole record makes;
    ``seen`` knows the whole record. Tags are as written.
    """
    mended = mends(ordered, seen, ordered)
    kinds = _kinds_of_things(ordered, mended)
    stated, said, strange = _sorted_out(ordered, kinds, mended, None)
    return AsBuilt(
        site="",
        as_of=None,
        things=_things(stated, kinds, seen, mended),
        happenings=_happenings(said, mended, seen, None),
        unread=tuple(strange),
    )


def _shown(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return entries in showing order. Two sorts by one thing each cost less than one by four."""
    chains: dict[str, list[Entry]] = {}
    for entry in entries:
        chains.setdefault(entry.link.writer, []).append(entry)
    by_writer: list[Entry] = []
    for writer in sorted(chains):
        by_writer += sorted(chains[writer], key=_in_chain)
    by_writer.sort(key=attrgetter("link.recorded"))  # stable
    return tuple(by_writer)


_in_chain = attrgetter("link.seq", "hash")


def _kinds_of_things(entries: Iterable[Entry], mended: Mends) -> dict[str, Kind]:
    """Return which kind each tag is: the first entry about it that stands decides."""
    kinds: dict[str, Kind] = {}
    for entry in entries:
        content = entry.content
        if content is None or content.about in kinds or entry.hash in mended.withdrawn_by:
            continue
        kind = _THINGS.get(content.kind)
        if kind:
            kinds[content.about] = kind
    return kinds


_THINGS = {word: kind for word, kind in STORED.items() if kind.sort is Sort.THING}
Stated = dict[str, list[Entry]]  # tag, or tag and part, to the entries that state something of it


def _sorted_out(
    ordered: Iterable[Entry], kinds: Mapping[str, Kind], mended: Mends, as_of: str | None
) -> tuple[Stated, dict[str, list[Entry]], list[UnreadEntry]]:
    """Return statements by tag, happenings by the hash of what told them, and what is unread."""
    stated: Stated = {}
    said: dict[str, list[Entry]] = {}
    unread: list[UnreadEntry] = []
    astray = {entry.hash for entry in mended.astray}
    withdrawn = mended.withdrawn_by
    for entry in ordered:
        content = entry.content
        if content is None or content.kind == WITHDRAWN or entry.hash in astray:
            continue
        if why := _not_understood(content, kinds):
            unread.append(UnreadEntry(entry, why))
            continue
        root = mended.root(entry) if content.replaces else entry
        if content.kind not in _THINGS:
            said.setdefault(root.hash, []).append(entry)
        elif entry.hash not in withdrawn and (
            as_of is None or (root.content or content).on <= as_of
        ):
            stated.setdefault(content.about, []).append(entry)
    return stated, said, unread


def _not_understood(content: Content, kinds: Mapping[str, Kind]) -> str | None:
    kind = STORED.get(content.kind)
    if kind is None:
        return f'its kind "{content.kind}" is not known to this version'
    if content.version > kind.version:
        return f'"{content.kind}" version {content.version} is newer than this version'
    if content.kind in _THINGS and kinds.get(content.about, kind) is not kind:
        return f"the tag {content.about} is used for a {kinds[content.about].word} too"
    return None


def _things(stated: Stated, kinds: Mapping[str, Kind], seen: Sight, mended: Mends) -> Things:
    """Return the things there are, each folded when it is asked for."""
    parts: dict[str, list[str]] = {}
    wholes: dict[str, Kind] = {}
    for tag in stated:
        whole, slash, _ = tag.partition("/")
        if slash:
            parts.setdefault(whole, []).append(tag)
        if whole in kinds:
            wholes.setdefault(whole, kinds[whole])

    def fields(tag: str) -> dict[str, tuple[Held, ...]]:
        return _fields(stated.get(tag, ()), seen, mended)

    def make(tag: str) -> Thing:
        of = [Thing(fields=fields(part), tag=part, kind=kinds[part]) for part in parts.get(tag, ())]
        return Thing(fields=fields(tag), tag=tag, kind=kinds[tag], parts=_in_a_row(of))

    return Things(wholes, make)


def _fields(entries: Iterable[Entry], seen: Sight, mended: Mends) -> dict[str, tuple[Held, ...]]:
    """Return what the entries about one tag state, field by field, as far as it stands."""
    said: dict[str, list[Held]] = {}
    for entry in entries:
        content = entry.content
        assert content is not None
        root = mended.root(entry).content or content
        for name, held in stands(entry, root, mended):
            said.setdefault(name, []).append(held)
    return {name: holding(held, seen, mended) for name, held in said.items()}


def _in_a_row(parts: list[Thing]) -> tuple[Thing, ...]:
    """Return parts by number where all have one (a station put in later comes between its
    neighbours), else in the order they were first named."""
    if all(part.key[:1].isdecimal() for part in parts):
        return tuple(sorted(parts, key=lambda part: natural(part.key)))
    return tuple(parts)


def _happenings(
    said: Mapping[str, list[Entry]], mended: Mends, seen: Sight, as_of: str | None
) -> Happenings:
    """Return the happenings there are, in the order of the field, each folded when asked for."""
    groups: list[tuple[str, Kind, list[Entry]]] = []
    for group in said.values():
        root = mended.root(group[0])
        content = root.content
        if content is None or root.hash in mended.withdrawn_by or content.kind not in STORED:
            continue
        if as_of is None or content.on <= as_of:
            groups.append((f"{content.on} {content.at or ''}", STORED[content.kind], group))
    # Stable: what has no hour, or the same one, stays in the order of who had seen whom.
    groups.sort(key=itemgetter(0))

    def make(group: Sequence[Entry]) -> Happening:
        return happening_of(group, mended, seen)

    return Happenings([(kind, group) for _, kind, group in groups], make)
