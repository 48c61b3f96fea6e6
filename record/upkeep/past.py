"""What was said of things before: the first day of each, and values since lost.

A value that is replaced by "not recorded" no longer stands, yet nothing better is known. For a
day or an interval it goes on counting, so that forgetting never makes anything due later.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from record.entry import Content, Entry
from record.facts import STORED, Sort
from record.facts.values import Absent, Why, from_json
from record.fold import AsBuilt, Held, Thing, mends, sight
from record.upkeep.dates import read_day


@dataclass(frozen=True, slots=True)
class Past:
    """By tag, the first day something was recorded of it; by tag and field, what was last said."""

    first: Mapping[str, tuple[date, Entry]]
    said: Mapping[tuple[str, str], tuple[Held, ...]]

    def values(self, thing: Thing, name: str) -> tuple[Held, ...]:
        """Return what a field holds, and what it held before where that was lost."""
        held = thing.held(name)
        lost = any(
            isinstance(one.value, Absent) and one.value.why is Why.NOT_RECORDED for one in held
        )
        return (*held, *self.said.get((thing.tag, name), ())) if lost else held


def past_of(built: AsBuilt) -> Past:
    """Return what the entries of a view say of the past of its things; withdrawn ones never did."""
    first: dict[str, tuple[date, Entry]] = {}
    said: dict[tuple[str, str], tuple[Held, ...]] = {}
    for entry, content, on in _statements(built):
        day = read_day(on)
        for tag in {content.about, content.about.partition("/")[0]}:
            if day is not None and (tag not in first or day < first[tag][0]):
                first[tag] = (day, entry)
        for name, form in content.body.items():
            held = Held(from_json(form), entry, on, content.at)
            if not isinstance(held.value, Absent):
                before = said.get((content.about, name), ())
                said[content.about, name] = _latest(before, held)
    return Past(first, said)


def _latest(before: tuple[Held, ...], held: Held) -> tuple[Held, ...]:
    """Return the statements of the latest day; all of them, as one day may hold several."""
    if not before or held.on > before[0].on:
        return (held,)
    return (*before, held) if held.on == before[0].on else before


def _statements(built: AsBuilt) -> Iterator[tuple[Entry, Content, str]]:
    """Yield every entry about a thing, what it says, and the day it is true from."""
    mended = mends(built.entries, sight(built.entries))
    for entry in built.entries:
        content = entry.content
        kind = STORED.get(content.kind) if content else None
        if content is None or kind is None or kind.sort is not Sort.THING:
            continue
        on = (mended.root(entry).content or content).on
        if entry.hash in mended.withdrawn_by or (built.as_of is not None and on > built.as_of):
            continue
        yield entry, content, on
