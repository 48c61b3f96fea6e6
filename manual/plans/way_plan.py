"""The record → a way out from above: room, hatch and shaft."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings.cut import Area, Break, Call, Cut, Fill
from manual.drawings.shapes import box
from manual.languages import say
from manual.plans.way_notes import way_notes
from manual.plans.way_shape import HATCH_M, ROOM_M, Way, size_words, titled, way_of
from record.readers import View


def way_plan(view: View, tag: str) -> Cut | None:
    """Return a way out from above, or None where nothing says where it is on the plan."""
    way = way_of(view, tag)
    if way is None or way.shaft(0) is None or way.shaft(1) is None:
        return None
    (a0, a1), (l0, l1) = way.shaft(0) or (0, 0), way.shaft(1) or (0, 0)
    p, frame = way.frame.plate_m, way.frame
    low, high = max(-p, min(a0, a1) - ROOM_M), min(frame.length_m + p, max(a0, a1) + ROOM_M)
    shell = (low, -frame.width_m - p, high, p)
    room = (max(low, 0.0), -frame.width_m, min(high, frame.length_m), 0.0)
    areas = [Area(Fill.STEEL, box(*shell)), Area(Fill.ROOM, box(*room))]
    areas += [Area(way.filling, box(a0, -l1, a1, -l0))]
    middle = ((a0 + a1) / 2, -(l0 + l1) / 2)
    calls = [
        Call(middle, titled(way), (size_words(way), say("way.fill", fill=way.words("fill")))),
        *_plan_hatch(way, areas),
    ]
    return Cut(
        name=say("way.plan_of", tag=tag, name=way.thing.text("name") or ""),
        seen=say("way.from_above"),
        areas=tuple(areas),
        calls=tuple(calls),
        breaks=tuple(
            Break(u, shell[1], shell[3])
            for u, end in ((low, -p), (high, frame.length_m + p))
            if abs(u - end) > 1e-6
        ),
        notes=tuple(way_notes(view, way)),
        plan=True,
    )


def _plan_hatch(way: Way, areas: list[Area]) -> Iterator[Call]:
    """Yield the hatch on the plan, and put it among the areas."""
    left, width = way.si("hatch_from_left"), way.si("hatch_width")
    if way.wall_m is None or not way.lengthwise or left is None or width is None:
        return
    out = way.frame.plate_m if way.wall_m else -way.frame.plate_m
    middle = way.wall_m + out / 2
    ring = box(middle - HATCH_M, -left - width, middle + HATCH_M, -left)
    areas.append(Area(Fill.OPENING, ring))
    words = (
        say("way.from_left", left=way.words("hatch_from_left")),
        say("way.hatch_wide", width=way.words("hatch_width")),
        say("way.opens", opens=way.words("opens")),
    )
    yield Call((middle, -left - width / 4), say("way.hatch"), words)
