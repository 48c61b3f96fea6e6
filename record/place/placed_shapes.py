"""Things with a place of their own → boxes in their hull, or posts on the site grid.

Whatever of a place is not recorded is filled out to the whole of its hull and a metre round
it, so that a missing number makes an answer wider and never narrower.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from record.facts.values import Level
from record.fold import AsBuilt, Thing
from record.place.accuracy import accuracy
from record.place.by_length import by_length
from record.place.frames import HullFrame
from record.place.run_shapes import at_station
from record.place.solids import ANY_M, Block, Capsule, Shape, called

BODY_M = 0.15  # half of what a valve or fitting takes up where its size is not recorded
ROUND_M = 1.0  # how far outside its hull a thing may lie whose place in it is half known
MACHINE_M = 1.0  # what a machine takes up each way where its size is not recorded


def placed_shapes(thing: Thing, built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield the shape of a valve, drain, store, fit-out or machine, as far as a place is said."""
    frame = hulls.get(thing.text("hull") or "")
    if frame is not None:
        if _half_known_machine(thing):
            return
        yield _in_hull(thing, frame)
    elif thing.si("x") is not None and thing.si("y") is not None:
        yield _post(thing)
    elif (found := by_length(thing, _half_m(thing), built, hulls)) is not None:
        if isinstance(found, Shape):
            yield found
    else:
        yield from at_station(thing, _half_m(thing), built, hulls)


def _half_m(thing: Thing) -> float:
    size = thing.si("size")
    return BODY_M if size is None else float(size) / 2


def _half_known_machine(thing: Thing) -> bool:
    """It stands in the room: a place half known says nothing about what is behind a panel."""
    starts = (thing.si("from_near"), thing.si("from_left"), _bottom(thing, 0.0))
    return thing.kind.word == "equipment" and None in starts


def _bottom(thing: Thing, walking_floor: float | None) -> float | None:
    """Return the level a thing starts at, or the one taken of it."""
    level = thing.value("level")
    if isinstance(level, Level):
        return float(level.height.si)
    for name in ("level", "bottom"):
        said = thing.si(name)
        if said is not None:
            return float(said)
    above = thing.si("above_floor")
    return None if above is None or walking_floor is None else walking_floor + float(above)


def _in_hull(thing: Thing, frame: HullFrame) -> Shape:
    bottom = _bottom(thing, frame.walking_floor_m if frame.floor_known else None)
    near, left = thing.si("from_near"), thing.si("from_left")
    edges = (
        ("from near", None if near is None else float(near), "along", frame.length_m),
        ("from left", None if left is None else float(left), "across", frame.width_m),
        ("level", None if bottom is None else bottom - frame.origin[2], "height", frame.height_m),
    )
    spans = [_span(thing, edge, size, end) for _, edge, size, end in edges]
    unsized = [size for _, edge, size, _ in edges if edge is not None and _unsized(thing, size)]
    sure = accuracy(thing)
    return Shape(
        thing,
        called(thing),
        Block((spans[0][0], spans[1][0], spans[2][0]), (spans[0][1], spans[1][1], spans[2][1])),
        frame.tag,
        sure.horizontal_m,
        sure.vertical_m,
        sure.worked or sure.basis,
        sure.assumed,
        thing.entries(),
        missing=(*(name for name, edge, _, _ in edges if edge is None), *unsized),
    )


def _unsized(thing: Thing, size: str) -> bool:
    return thing.kind.field(size) is not None and thing.si(size) is None


def _span(thing: Thing, edge: float | None, size: str, end: float) -> tuple[float, float]:
    """Return from where to where a thing reaches along one axis of its hull."""
    if edge is None:
        return -ROUND_M, end + ROUND_M
    half, measured = _half_m(thing), thing.si(size)
    if measured is not None:
        return edge, edge + float(measured)
    if not _unsized(thing, size):
        return edge - half, edge + half
    return edge - half, edge + MACHINE_M if thing.kind.word == "equipment" else end + ROUND_M


def dip_pipe_shapes(pipe: Thing) -> Iterator[Shape]:
    """Yield a pipe that stands in the ground, from nobody knows how deep up to the surface."""
    if pipe.si("x") is not None and pipe.si("y") is not None:
        yield _post(pipe)


def _post(thing: Thing) -> Shape:
    """Something on the site grid, with or without a level: round, so that no side matters."""
    radius = _half_m(thing)
    if thing.kind.field("along") is not None:
        along, across = thing.si("along"), thing.si("across")
        radius = math.hypot(
            MACHINE_M if along is None else float(along),
            MACHINE_M if across is None else float(across),
        )
    bottom, height = _bottom(thing, 0.0), float(thing.si("height") or 0)
    if thing.si("level") is None and thing.si("bottom") is None:
        bottom = None  # "above floor" says nothing where no hull is named
    at = (
        float(thing.si("x") or 0),
        float(thing.si("y") or 0),
        -ANY_M if bottom is None else bottom,
    )
    sure = accuracy(thing)
    return Shape(
        thing,
        called(thing),
        Capsule(at, at, radius, 2 * ANY_M if bottom is None else height),
        "",
        sure.horizontal_m,
        sure.vertical_m,
        sure.worked or sure.basis,
        sure.assumed,
        thing.entries(),
        missing=() if bottom is not None else ("level",),
    )
