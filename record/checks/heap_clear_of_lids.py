"""No lid, door or tool that is needed lies where the sand of a way out will lie."""

from __future__ import annotations

import math
from collections.abc import Iterator

from record.calc.sand_heap import DRY_REPOSE_DEG
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.checks.sand import Sand, filled_ways, sand_of
from record.fold import Thing
from record.place import HullFrame, Shape
from record.place.frames import Vector
from record.place.solids import Block
from record.readers import View
from record.units import metres_said

NEEDED = ("store", "equipment", "door", "valve")
ENDS = ("near", "far", "left", "right")


def find(view: View) -> Iterator[Finding]:
    """
    Find stores that hold something, equipment, doors and valves that the heap would bury.

    The heap lies against the face of the way out, from wall to wall, on the walking floor, and
    falls off at its angle of repose.
    """
    for way in filled_ways(view):
        sand, hull = sand_of(view, way), view.hulls.get(way.text("hull") or "")
        if sand.heap is None or hull is None or way.text("face") not in ENDS:
            yield _unknown(way, sand)
            continue
        for shape in view.shapes:
            if shape.hull == hull.tag and _needed(way, shape.thing):
                yield from _one(way, sand, hull, shape)


def _needed(way: Thing, thing: Thing) -> bool:
    if thing.kind.word not in NEEDED or way.tag in thing.tags("in"):
        return False
    if thing.kind.word == "store" and thing.parts:
        return any(part.count("count") != 0 for part in thing.parts)  # an emptied one is no loss
    return True


def _one(way: Thing, sand: Sand, hull: HullFrame, shape: Shape) -> Iterator[Finding]:
    assert sand.heap is not None
    near_m, bottom_m, top_m = _where(way.text("face") or "", hull, shape)
    slope = math.tan(math.radians(DRY_REPOSE_DEG))
    floor_m = hull.walking_floor_m - hull.origin[2]
    deep_m = (sand.heap.run_m - near_m) * slope
    over_m = floor_m + deep_m - max(bottom_m, min(floor_m, top_m))
    if over_m <= 0:
        return
    sure = over_m > shape.vertical_m + shape.horizontal_m * slope and not shape.missing
    yield RULE.finding(
        shape.thing.tag,
        f"{shape.words}: the sand of {way.tag} runs out {metres_said(sand.heap.run_m)} from the "
        f"{way.text('face')} wall, and would lie {metres_said(over_m)} deep over it",
        clears=(
            "move what is needed to where the sand does not come, and write where it is now;",
            f"an emptied store says so in its rows, count 0: ## {shape.thing.kind.word} "
            f"{shape.thing.tag}",
        ),
        entries=(*way.entries(), *shape.entries),
        sure=CERTAIN if sure else CANNOT_BE_TOLD,
    )


def _where(face: str, hull: HullFrame, shape: Shape) -> tuple[float, float, float]:
    """Return how far a shape is from a face at its nearest, its bottom and its top, metres."""
    low, high = _box(shape)
    near = {
        "near": low[0],
        "far": hull.length_m - high[0],
        "left": low[1],
        "right": hull.width_m - high[1],
    }[face]
    return max(near, 0.0), low[2], high[2]


def _box(shape: Shape) -> tuple[Vector, Vector]:
    form = shape.form
    if isinstance(form, Block):
        return form.low, form.high
    ends, pad = (form.start, form.end), form.radius_m
    low = [min(end[axis] for end in ends) - pad for axis in range(3)]
    high = [max(end[axis] for end in ends) + pad for axis in range(3)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2] + form.rises_m)


def _unknown(way: Thing, sand: Sand) -> Finding:
    lacks = list(sand.missing)
    lacks += [] if way.text("face") in ENDS else ["the wall it is in (face)"]
    return RULE.finding(
        way.tag,
        "what its sand would bury cannot be told: "
        + (", ".join(lacks) or "the measures of its hull")
        + " not recorded",
        clears=(f"## way out {way.tag}", "with its section, its fill, its face and receives fill"),
        entries=way.entries(),
        sure=CANNOT_BE_TOLD,
    )


RULE = HandoverRule(
    word="heap clear of lids and tools",
    why=(
        "Once the sand has run in, what lies under it is gone until somebody shovels: the shovel "
        "itself, masks, a lid in the floor, a second door. They are moved before, not found out "
        "then. Reckoned damp, at 34° of repose (USBR Hyd-299)."
    ),
    find=find,
)
