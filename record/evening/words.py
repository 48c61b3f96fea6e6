"""How an evening reads: short lines, what is most urgent first; and its JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from typing import Any

from record.checks import Finding, json_form
from record.checks.coming import LATER, OVERDUE, Coming
from record.entry.counted import withheld_said
from record.evening.tonight import Evening, Owed, owed_form
from record.figures.flood import AT_MARK, LIMIT
from record.figures.flood import form as mark_forms

WIDTH = 96
SHOWN = 6  # findings of one sort of a covering; the rest are counted


def evening_words(seen: Evening) -> list[str]:
    """Return the evening as lines: water, coverings, what lapsed, what is left on, what is owed."""
    lines = [_head(seen)]
    for part in (_water(seen), _coming(seen), _lapsed(seen), _left(seen), _owed(seen)):
        told = list(part)
        lines += ["", *told] if told else []
    if seen.withheld:
        lines += ["", f"{withheld_said(seen.withheld)} from this reader, and may say more."]
    near = [one.readiness.covering.tag for one in seen.coming if one.near]
    if near:
        lines += [
            "",
            f"All of it, with why and what clears it: asburied ready {near[0]}",
            "A sheet with these gaps to fill in: asburied blank tomorrow --out tomorrow.md",
        ]
    return lines


def _head(seen: Evening) -> str:
    told = ", ".join(f"{writer} {count}" for writer, count in seen.today)
    return f"{seen.site}, evening of {seen.day}. Entries of today: {told or 'none'}."


def _water(seen: Evening) -> Iterator[str]:
    marks = sorted(seen.marks, key=lambda one: one.state != AT_MARK)
    if not marks:
        return
    yield "WATER, while the pit is open"
    for mark in marks:
        yield from _line(f"  {mark.hull.tag}: {mark.mark_words}")
    for said in dict.fromkeys(mark.water_words for mark in marks if mark.state == AT_MARK):
        yield from _line(f"  {said}")
    lowest = min((m for m in marks if m.mark_m is not None), key=lambda m: m.mark_m or 0.0,
                 default=None)  # fmt: skip
    if lowest is None:
        yield from _line(f"  {marks[0].water_words}")
    elif lowest.state != AT_MARK:
        old = "" if not lowest.water or lowest.water[0].on == seen.day else "; not dipped today"
        of = f" of {lowest.hull.tag}" if lowest.water else ""
        yield from _line(f"  {lowest.water_words}{of}{old}")
    yield from _line(f"  {LIMIT}")


def _coming(seen: Evening) -> Iterator[str]:
    later = [one for one in seen.coming if one.when == LATER]
    near = [one for one in seen.coming if one.near]
    if not near:
        yield "No covering is planned by tomorrow."
    for place, one in enumerate(near):
        yield from ([""] if place else [])
        yield from _one(one)
    if later:
        told = ", ".join(
            f"{one.readiness.covering.tag} {one.planned} ({_counts(one)})" for one in later
        )
        yield ""
        yield from _line(f"Later: {told}")


def _one(one: Coming) -> Iterator[str]:
    covering = one.readiness.covering
    day = f"planned {one.planned}" if one.planned else "no day planned"
    late = ", NOT ON YET" if one.when == OVERDUE else ""
    yield f"{covering.tag}  {covering.words('what')}, {day}{late}: {_counts(one)}"
    stops = [finding for finding in one.readiness.findings if finding.stops]
    rest = [f for f in one.readiness.findings if not f.stops and not f.waived]
    yield from _findings("STOPS", stops)
    yield from _findings("look ", rest)


def _counts(one: Coming) -> str:
    found = one.readiness.findings
    stops = sum(1 for finding in found if finding.stops)
    waived = sum(1 for finding in found if finding.waived)
    rest = len(found) - stops - waived
    told = ((stops, "stop"), (waived, "waived"), (rest, "to look at"))
    said = ", ".join(f"{count} {words}" for count, words in told if count)
    return said or "nothing recorded stands in the way; two people release it"


def _findings(mark: str, found: list[Finding]) -> Iterator[str]:
    for one in found[:SHOWN]:
        yield _short(f"  {mark} {one.about}: {one.says}")
    if len(found) > SHOWN:
        yield f"  {mark} and {len(found) - SHOWN} more"


def _lapsed(seen: Evening) -> Iterator[str]:
    if seen.lapsed:
        yield "LAPSED, to be tested again"
    for proof in seen.lapsed:
        yield _short(f"  {proof.about}: {proof.name}, {proof.words}")


def _left(seen: Evening) -> Iterator[str]:
    if seen.on_still or seen.for_a_time:
        yield "LEFT ON FOR A TIME"
    for one in seen.on_still:
        yield _short(f"  {one.thing.tag}: {one.words}")
    for place in seen.for_a_time:
        yield _short(f"  {place.thing.tag}: {place.words}")
    if seen.not_known:
        told = ", ".join(place.thing.tag for place in seen.not_known)
        yield from _line(f"Left in no known position: {told}")


def _owed(seen: Evening) -> Iterator[str]:
    if seen.owed:
        yield "OWED, and by whom"
    for one in seen.owed:
        yield _short(f"  {owed_words(one)}")


def owed_words(one: Owed) -> str:
    """Return one thing owed in a line: who, what, by when."""
    due = f", due {one.due}" if one.due else ""
    late = ", LATE" if one.late else ""
    return f"{one.by}: {one.what} ({one.about}{due}{late})"


def _short(line: str) -> str:
    """Return the line on one line: what is cut is told in full by `asburied ready COVERING`."""
    lead = line[: len(line) - len(line.lstrip())]
    return lead + textwrap.shorten(line, WIDTH - len(lead), placeholder=" …")


def _line(line: str) -> Iterable[str]:
    return textwrap.wrap(
        line, WIDTH, subsequent_indent="     ", break_long_words=False, break_on_hyphens=False
    )


def form(seen: Evening) -> dict[str, Any]:
    """Return the evening as plain values with stable keys."""
    return {
        "day": seen.day,
        "site": seen.site,
        "stops": seen.stops,
        "today": dict(seen.today),
        "float_marks": list(mark_forms(seen.marks)),
        "coverings": [{"when": one.when, **json_form(one.readiness)} for one in seen.coming],
        "lapsed": [
            {
                "about": proof.about,
                "test": proof.name,
                "state": proof.state,
                "since": proof.since,
                "entry": proof.test.entry.number,
            }
            for proof in seen.lapsed
        ],
        "still_on": [one.thing.tag for one in seen.on_still],
        "left_for_a_time": [place.thing.tag for place in seen.for_a_time],
        "position_not_known": [place.thing.tag for place in seen.not_known],
        "owed": [owed_form(one) for one in seen.owed],
        "withheld": seen.withheld,
    }
