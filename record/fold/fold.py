"""Entries → the shelter as built, as known at a moment and as of a day.

State is a function of the set of entries and nothing else: neither their order nor any clock
comes in. A field holds every statement that stands and was not superseded.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from record.entry import Content, Entry
from record.facts import STORED, Kind, Sort
from record.facts.values import from_json
from record.fold.mends import WITHDRAWN, Mends, mends
from record.fold.sight import Sight, in_order, sight
from record.fold.standing import happening_of, holding
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
    entries = in_order(seen)
    mended = mends(entries, seen)
    astray = {entry.hash for entry in mended.astray}
    kinds = _kinds_of_things(entries, mended)
    statements: dict[str, dict[str, list[Held]]] = {}
    happenings: list[Happening] = []
    unread = [UnreadEntry(entry, "it mends an entry that is not here") for entry in mended.astray]
    unread += [UnreadEntry(entry, why) for entry, why in in_doubt(meant)]
    said: dict[str, list[Entry]] = {}
    for entry in entries:
        content = entry.content
        if content is None or content.kind == WITHDRAWN or entry.hash in astray:
            continue
        if why := _not_understood(content, kinds):
            unread.append(UnreadEntry(entry, why))
        elif STORED[content.kind].sort is Sort.THING:
            _state(entry, content, mended, as_of, statements)
        else:
            said.setdefault(mended.root(entry).hash, []).append(entry)
    for group in said.values():
        happening = happening_of(group, mended, seen, as_of)
        if happening:
            happenings.append(happening)
    return AsBuilt(
        site=entries[0].link.site if entries else "",
        as_of=as_of,
        things=_things(statements, kinds, seen, mended),
        # Stable: what has no hour, or the same one, stays in the order of who had seen whom.
        happenings=tuple(sorted(happenings, key=lambda h: (h.on, h.at or ""))),
        unread=tuple(unread),
        entries=tuple(sorted(entries, key=lambda entry: entry.order)),
    )


def _kinds_of_things(entries: Iterable[Entry], mended: Mends) -> dict[str, Kind]:
    """Return which kind each tag is: the first entry about it that stands decides."""
    kinds: dict[str, Kind] = {}
    for entry in entries:
        content = entry.content
        if content is None or entry.hash in mended.withdrawn_by:
            continue
        kind = STORED.get(content.kind)
        if kind and kind.sort is Sort.THING:
            kinds.setdefault(content.about, kind)
    return kinds


def _not_understood(content: Content, kinds: Mapping[str, Kind]) -> str | None:
    kind = STORED.get(content.kind)
    if kind is None:
        return f'its kind "{content.kind}" is not known to this version'
    if content.version > kind.version:
        return f'"{content.kind}" version {content.version} is newer than this version'
    if kind.sort is Sort.THING and kinds.get(content.about, kind) is not kind:
        return f"the tag {content.about} is used for a {kinds[content.about].word} too"
    return None


def _state(
    entry: Entry,
    content: Content,
    mended: Mends,
    as_of: str | None,
    statements: dict[str, dict[str, list[Held]]],
) -> None:
    """Add what one entry says of a thing: every field that stands on the day asked for."""
    root = mended.root(entry).content or content
    if as_of is not None and root.on > as_of:
        return
    if entry.hash in mended.withdrawn_by:
        return
    thing = statements.setdefault(content.about, {})
    for name, form in content.body.items():
        if mended.stands(entry, name):
            thing.setdefault(name, []).append(Held(from_json(form), entry, root.on, root.at))


def _things(
    statements: Mapping[str, Mapping[str, list[Held]]],
    kinds: Mapping[str, Kind],
    seen: Sight,
    mended: Mends,
) -> dict[str, Thing]:
    parts: dict[str, list[Thing]] = {}
    wholes: dict[str, Mapping[str, tuple[Held, ...]]] = {}
    for tag, fields in statements.items():
        held = {name: holding(each, seen, mended) for name, each in fields.items()}
        whole, slash, _ = tag.partition("/")
        if slash:
            parts.setdefault(whole, []).append(Thing(fields=held, tag=tag, kind=kinds[tag]))
            if whole in kinds:
                wholes.setdefault(whole, {})
        else:
            wholes[tag] = held
    return {
        tag: Thing(fields=held, tag=tag, kind=kinds[tag], parts=_in_a_row(parts.get(tag, [])))
        for tag, held in wholes.items()
    }


def _in_a_row(parts: list[Thing]) -> tuple[Thing, ...]:
    """Return parts by number where all have one (a station put in later comes between its
    neighbours), else in the order they were first named."""
    if all(part.key[:1].isdecimal() for part in parts):
        return tuple(sorted(parts, key=lambda part: natural(part.key)))
    return tuple(parts)
