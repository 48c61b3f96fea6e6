"""Everything that was said of a thing, in the order of the field, both times beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from record.accounts.proof_words import doubts
from record.answers.found import find_thing
from record.answers.misled import Misled, misled_editions
from record.answers.refused import NotFound
from record.answers.told import ORDER_NOT_KNOWN, ToldEntry, no_order, tell_entry, told_form
from record.answers.unsettled import Unsettled, unsettled
from record.entry import Entry
from record.facts import STORED, Sort
from record.facts.values import from_json
from record.fold import mends, sight
from record.fold.looks import Chain, chains
from record.readers import View

NAMING = ("shows", "tags", "used_on", "used_for", "touches", "with", "batch", "batches")


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


def history(view: View, tag: str) -> History:
    """Return the history of a thing, a part of one, a panel or a room. Raises NotFound."""
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
    )


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
    from record.answers.behind import behind

    return tuple(dict.fromkeys(item.tag for item in behind(view, panel).items))


def history_words(found: History) -> list[str]:
    """Return a history in lines of plain text; mended entries are marked, and stay."""
    lines = [f"{found.tag}: {found.kind}, {len(found.told)} entries"]
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
        lines += [f"      {said}" for said in told.said]
        if void := found.void.get(told.entry.hash):
            lines.append(f"      {void}")
    lines += [chain.words for chain in found.chains]
    lines += [one.words for one in found.misled]
    if any(told.over for told in found.told):
        lines.append("Entries marked ~ were mended or withdrawn; they stay as they were written.")
    if found.behind:
        word = "Panels here" if found.kind == "room" else "Behind it, each with its own history"
        lines.append(f"{word}: {', '.join(found.behind)}")
    return lines


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
        "entries": [
            {**told_form(told), "void": found.void.get(told.entry.hash)} for told in found.told
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
