"""Where what stands in a way out would lie once it has run into the room, as worked."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings.cut import Area, Call, Fill
from manual.drawings.svg import Point
from manual.languages import say
from manual.plans.way_shape import Way
from record.answers.saying import length
from record.figures.of_sand import of_sand
from record.readers import View


def _run_out_m(view: View, way: Way) -> tuple[float, float] | None:
    """How far damp sand would run out, and how high it would stand, as the sum works it."""
    for worked in of_sand(view):
        if worked.name == "heap" and worked.about == way.thing.tag and worked.figures:
            damp = (f for f in worked.figures if f.name.startswith("damp") and f.of)
            out, high = (float(figure.value) for figure in damp)
            return out, high
    return None


def _heap_ring(view: View, way: Way) -> tuple[Point, ...] | None:
    found = _run_out_m(view, way)
    if found is None or way.wall_m is None:
        return None
    out, high = found
    floor = way.frame.walking_floor_m
    toe = way.wall_m - out if way.wall_m else out
    return ((way.wall_m, floor), (way.wall_m, floor + high), (toe, floor))


def heap(view: View, way: Way) -> Iterator[Area]:
    ring = _heap_ring(view, way)
    if ring is not None:
        yield Area(Fill.HEAP, ring)


def heap_calls(view: View, way: Way) -> Iterator[Call]:
    """Yield where the fill would lie; and what is to be kept clear, as it was written."""
    ring = _heap_ring(view, way)
    clear = say("way.keep_clear", clear=way.words("keep_clear"))
    if ring is not None:
        out = abs(ring[0][0] - ring[2][0])
        high = ring[1][1] - ring[0][1]
        worked = say("way.heap_size", out=length(out), high=length(high))
        spot = ((ring[0][0] * 2 + ring[2][0]) / 3, ring[0][1] + high / 4)
        yield Call(spot, say("way.heap"), (worked, clear))
    elif way.filling is not Fill.SHAFT:
        wall = way.inside_m / 2 if way.wall_m is None else way.wall_m
        inner = wall - 0.3 if wall else wall + 0.3
        yield Call((inner, way.frame.walking_floor_m), say("way.heap_not_worked"), (clear,))
