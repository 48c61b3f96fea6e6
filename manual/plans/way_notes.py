"""What stands under the cuts of a way out: gaps, the warning, drills and tools."""

from __future__ import annotations

import re
from collections.abc import Iterator

from manual.drawings.cut import Fill
from manual.languages import say
from manual.plans.cut_layers import further_words
from manual.plans.cut_levels import ground_m
from manual.plans.way_shape import Way
from record.facts.kind import OWNER
from record.fold import Thing
from record.readers import View

TOOLS = re.compile(r"\b(bar|shovel|spade|rake|jack|pick|saw|wrench|hammer|goggles|masks?)\b", re.I)


def way_notes(view: View, way: Way) -> Iterator[str]:
    gaps = [
        say(f"way.lacks.{name}")
        for name, held in (
            ("place", way.middle_m),
            ("size", way.reach),
            ("top", way.si("top_below_grade")),
            ("ground", ground_m(way.hull)),
            ("sill", way.si("hatch_sill")),
        )
        if held is None
    ]
    if gaps:
        yield say("way.gaps", gaps=", ".join(gaps))
    if way.filling is not Fill.SHAFT:
        yield say("way.warning")
    drills = [p.tag for p in view.built.of_kind("procedure") if _touches(p, way.thing.tag)]
    yield say("way.drills", drills=", ".join(drills)) if drills else say("way.no_drill")
    if view.reader == OWNER:
        yield _tools(view, way)
    yield say("cut.not_drawn")
    yield from further_words(view)


def _touches(procedure: Thing, tag: str) -> bool:
    return any(tag in step.tags("touches") for step in procedure.parts)


def _tools(view: View, way: Way) -> str:
    """What of the stores might open it; no entry says that it is kept for that."""
    found = [
        say("way.tool", what=row.words("what"), count=row.words("count"), store=store.tag)
        for store in view.built.of_kind("store")
        for row in store.parts
        if TOOLS.search(row.text("what") or "") and row.count("count") != 0
    ]
    return say("way.tools", tools="; ".join(found)) if found else say("way.no_tools")
