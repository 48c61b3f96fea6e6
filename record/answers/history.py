"""Everything that was said of a thing, in the order of the field, both times beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from record.accounts.proof_words import doubts
from record.answers.behind_panel import behind, further
from record.answers.found import find_thing
from record.answers.misled import Misled, misled_editions
from record.answers.reach import done_at_the_place, near_things
from record.answers.refused import NotFound
from record.answers.saying import wrapped
from record.answers.told import ORDER_NOT_KNOWN, ToldEntry, no_order, tell_entry, told_form
from record.answers.unsettled import Unsettled, unsettled
from record.entry import Entry
from record.facts import STORED, Sort
from record.facts.kind import OWNER
from record.facts.values import from_json
from record.fold import Mends, mends, sight
from record.fold.looks import Chain, chains
from record.readers import View

NAMING = ("shows", "tags", "used_on", "used_for", "touches", "with", "batch", "batches")


@dataclass(frozen=True, slots=True)
class Near:
    """Something done within reach: the entry, and why it is told here."""

    told: ToldEntry
    why: str


@dataclass(frozen=True, slots=True)
class History:
    """What happened to a thing and its parts; mended entries stay, with what mended them."""

    tag: str
    kind: str
    told: tuple[ToldEntry, ...]
    behind: tuple[str, ...]  # a panel: tags that lie behind it, each with a history of its own
    unsettled: tuple[Unsettled, ...] = ()
    misled: tuple[Misled, ...] = ()  # editions that tell of it under swapped tags
    chains: tuple[Chain, ...] = ()  # what failed, was repaired, and passed again
    void: Mapping[str, str] = field(default_factory=dict)  # hash of a test → since when it is void
    reach_m: float = 0.0
    near: tuple[Near, ...] = ()  # work within reach of it, in the order of the field
    reader: str = OWNER
    further_entries: str = ""  # what is said of entries that it could not be made of


def history(view: View, tag: str, *, reach_m: float = 0.0) -> History:
    """
    Return the history of a thing, a part of one, a panel or a room. Raises NotFound.

    With a reach, also what was done to whatever lies within it, and at that place.
    """
    entries = view.built.entries
    mended = mends(entries, sight(entries))
    about = [e for e in entries if e.content and tag in _concerned(e.content)]
    kind = _kind(view, tag, about)
    inside = _inside(view, tag) if kind == "room" else ()
    found = {e.hash: e for e in about}
    for other in inside:
        found.update({e.hash: e for e in entries if e.content and other in _concerned(e.content)})
    ordered = sorted(found.values(), key=_field_order)
    as_of = view.built.as_of
    shown = [e for e in ordered if as_of is None or (e.content and e.content.on <= as_of)]
    return History(
        tag,
        kind,
        tuple(tell_entry(entry, mended) for entry in shown),
        inside or (_behind(view, tag) if kind == "panel" else ()),
        unsettled(view.built, tag),
        tuple(one for one in misled_editions(view.built) if tag in one.tags),
        tuple(chains(view.built, tag)),
        doubts(view),
        reach_m,
        tuple(_near(view, tag, kind, set(found), reach_m, mended)) if reach_m > 0 else (),
        view.reader,
        further(view),
    )


def _near(
    view: View, tag: str, kind: str, told: set[str], reach_m: float, mended: Mends
) -> Iterator[Near]:
    """Yield work within reach that is not told already, oldest first, each entry once."""
    reasons: dict[str, tuple[Entry, str]] = {}
    whole = view.built.thing(tag.partition("/")[0])
    if whole is None:
        return
    for panel in [tag] if kind == "panel" else _inside(view, tag) if kind == "room" else ():
        for other in _behind(view, panel):
            _take(view, other, f"{other}, behind {panel}", reasons)
        board = view.built.thing(panel)
        for one in done_at_the_place(view, board, reach_m) if board else ():
            reasons.setdefault(one.entry.hash, (one.entry, f"on {panel}"))
    thing = whole.part(tag.partition("/")[2]) if "/" in tag else whole
    for other, off in near_things(view, thing or whole, reach_m).items():
        _take(view, other, f"{other}, {off}", reasons)
    for one in done_at_the_place(view, thing or whole, reach_m):
        reasons.setdefault(one.entry.hash, (one.entry, "at this place"))
    as_of = view.built.as_of
    for entry, why in sorted(reasons.values(), key=lambda pair: _field_order(pair[0])):
        if entry.hash in told or entry.content is None:
            continue
        if as_of is None or entry.content.on <= as_of:
            yield Near(tell_entry(entry, mended), why)


def _take(view: View, tag: str, why: str, reasons: dict[str, tuple[Entry, str]]) -> None:
    """Take what was done to a thing; how it was stated is its own history."""
    for one in view.built.about(tag):
        reasons.setdefault(one.entry.hash, (one.entry, why))


def _field_order(entry: Entry) -> tuple[str, str, tuple[str, str, int, str]]:
    content = entry.content
    return (content.on, content.at or "", entry.order) if content else ("", "", entry.order)


def _kind(view: View, tag: str, about: list[Entry]) -> str:
    """Return what the tag names. What was withdrawn, or cannot be read, has a history too."""
    named = [told for e in about if (told := e.content) and told.about == tag]
    try:
        return find_thing(view, tag).kind.word
    except NotFound:
        if not named:
            raise
    known = STORED.get(named[0].kind)
    return f"{known.word if known else named[0].kind} (does not stand)"


def _concerned(content: Any) -> set[str]:
    """Return the tags an entry is about, shows, or acts on."""
    tags = {content.about, content.about.partition("/")[0]}
    kind = STORED.get(content.kind)
    if kind is None or kind.sort is Sort.HAPPENING:
        for name in NAMING:
            value = from_json(content.body.get(name, ""))
            if isinstance(value, str):
                value = (value,)
            tags |= set(value) if isinstance(value, tuple) else set()
    return tags


def _inside(view: View, room: str) -> tuple[str, ...]:
    """Return the panels of a room."""
    return tuple(p.tag for p in view.built.of_kind("panel") if p.text("room") == room)


def _behind(view: View, panel: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item.tag for item in behind(view, panel).items))


def history_words(found: History) -> list[str]:
    """Return a history in lines of plain text; mended entries are marked, and stay."""
    lines = [f"{found.tag}: {found.kind}, {_entries(len(found.told))}"]
    lines += wrapped(f"Reader: {found.reader}. {found.further_entries}", 0, 2)
    unordered = no_order(told.entry for told in found.told)
    lines += [f"NOT SETTLED: {one.words}" for one in found.unsettled]
    if found.unsettled:
        lines.append("  One look settles it: mend both, in one entry that names both.")
    for told in found.told:
        content = told.entry.content
        if content is None:
            continue
        when = f"{content.on} {content.at or 'time not recorded'}"
        if told.entry.hash in unordered:
            when += f", {ORDER_NOT_KNOWN}"
        struck = "~ " if told.over else "  "
        who = f"; {told.people}" if told.people else ""
        about = f" {content.about}" if content.about != found.tag else ""
        lines.append(
            f"{struck}{when}  {told.entry.number}  {told.kind}{about}  "
            f"(written by {told.entry.link.writer} {told.entry.link.recorded}{who})"
        )
        lines += [f"      {mark}" for mark in told.marks()]
        lines += [f"      {said}" for said in told.lines]
        if void := found.void.get(told.entry.hash):
            lines.append(f"      {void}")
    lines += [chain.words for chain in found.chains]
    lines += [one.words for one in found.misled]
    if any(told.over for told in found.told):
        lines.append("Entries marked ~ were mended or withdrawn; they stay as they were written.")
    lines += _near_lines(found)
    if found.behind:
        word = "Panels here" if found.kind == "room" else "Behind it, each with its own history"
        lines.append(f"{word}: {', '.join(found.behind)}")
    return lines


def _entries(number: int) -> str:
    return f"{number} {'entry' if number == 1 else 'entries'}"


def _near_lines(found: History) -> Iterator[str]:
    if found.reach_m <= 0:
        return
    within = f"WITHIN REACH, {found.reach_m:.2f} m"
    if not found.near:
        yield f"{within}: no entry."
        return
    yield f"{within}, {_entries(len(found.near))}:"
    for near in found.near:
        content = near.told.entry.content
        if content is None:
            continue
        struck = "~ " if near.told.over else "  "
        who = f"; {near.told.people}" if near.told.people else ""
        yield (
            f"{struck}{content.on} {content.at or 'time not recorded'}  {near.told.entry.number}  "
            f"{near.told.kind} {content.about}: {near.why}  (written by "
            f"{near.told.entry.link.writer} {near.told.entry.link.recorded}{who})"
        )
        yield from (f"      {mark}" for mark in near.told.marks())
        yield from (f"      {said}" for said in near.told.lines)
        if void := found.void.get(near.told.entry.hash):
            yield f"      {void}"


def chain_form(chain: Chain) -> Mapping[str, Any]:
    """Return a failure and what followed it for programs, as entry numbers."""
    return {
        "failed": chain.failed.entry.number,
        "then": [step.entry.number for step in chain.steps],
        "settled": chain.settled,
        "words": chain.words,
    }


def history_form(found: History) -> Mapping[str, Any]:
    return {
        "tag": found.tag,
        "kind": found.kind,
        "reader": found.reader,
        "further_entries": found.further_entries,
        "entries": [
            {**told_form(told), "void": found.void.get(told.entry.hash)} for told in found.told
        ],
        "reach_m": found.reach_m,
        "within_reach": [
            {
                **told_form(near.told),
                "why": near.why,
                "void": found.void.get(near.told.entry.hash),
            }
            for near in found.near
        ],
        "behind": list(found.behind),
        "not_settled": [
            {"tag": one.tag, "field": one.field, "said": one.said} for one in found.unsettled
        ],
        "chains": [chain_form(chain) for chain in found.chains],
        "editions_with_swapped_tags": [
            {"edition": one.number, "entry": one.edition.number, "swapped_by": one.swap.number}
            for one in found.misled
        ],
    }
