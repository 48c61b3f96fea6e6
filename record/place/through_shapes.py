"""What goes through a face or shuts it: penetrations, doors, entries that are not to be seen."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from record.fold import Thing
from record.place.accuracy import accuracy
from record.place.face_shapes import face_of, plate
from record.place.frames import HullFrame
from record.place.placed_shapes import BODY_M
from record.place.solids import Block, Shape, called
from record.words import term

AXES = {"near": 0, "far": 0, "left": 1, "right": 1, "floor": 2, "ceiling": 2}
Span = tuple[float, float]


def entry_shapes(entry: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a concealed entry through its face."""
    face = face_of(entry, hulls)
    if face is not None:
        size = (face.width_m, face.height_m)
        yield plate(entry, called(entry), face, (0.0, 0.0), size, ())


def leaf_shapes(door: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a door or hatch whose own edges on a face are recorded."""
    yield from entry_shapes(door, hulls)


def penetration_shapes(hole: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """
    Yield a hole with its sleeve, through its face; a measure that is missing spans the face.

    Places are those of its middle.
    """
    frame = hulls.get(hole.text("hull") or "")
    axis = AXES.get(hole.text("face") or "")
    if frame is None or axis is None:
        return
    level, above = hole.si("level"), hole.si("above_floor")
    high = None if level is None else float(level) - frame.origin[2]
    if high is None and above is not None and frame.floor_known:
        high = frame.walking_floor_m - frame.origin[2] + float(above)
    near, left = (hole.si(name) for name in ("from_near", "from_left"))
    middle = (None if near is None else float(near), None if left is None else float(left), high)
    ends = (frame.length_m, frame.width_m, frame.height_m)
    half, unsized = _half_m(hole)
    spans = [
        _through(hole, ends[axis], frame.plate_m)
        if at == axis
        else ((0.0, end) if place is None else (place - half, place + half))
        for at, (place, end) in enumerate(zip(middle, ends, strict=True))
    ]
    if frame.round and axis != 0:
        spans = _through_round(hole, frame, spans, axis)
    names = ("from near", "from left", "level")
    missing = [names[at] for at in range(3) if at != axis and middle[at] is None]
    passes, sure = hole.text("passes"), accuracy(hole)
    yield Shape(
        hole,
        f"{term('penetration')}, {passes}" if passes else term("penetration"),
        Block((spans[0][0], spans[1][0], spans[2][0]), (spans[0][1], spans[1][1], spans[2][1])),
        frame.tag,
        sure.horizontal_m,
        sure.vertical_m,
        sure.basis,
        sure.assumed or bool(unsized),
        hole.entries(),
        missing=(*missing, *unsized),
    )


def _through_round(hole: Thing, frame: HullFrame, spans: list[Span], axis: int) -> list[Span]:
    """Reach from the shell's inside where it is nearest the axis to its outside where farthest."""
    other, radius = 3 - axis, frame.radius_m
    low, high = (each - radius for each in spans[other])
    least = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
    most = min(radius, max(abs(low), abs(high)))
    in_off = math.sqrt(radius**2 - most**2)
    (from_m, to_m) = _through(hole, 0.0, frame.plate_m)
    more = max(-from_m, to_m) - frame.plate_m
    out_off = math.sqrt(max(0.0, (radius + frame.plate_m) ** 2 - least**2)) + more
    far = hole.text("face") in ("right", "ceiling")
    reach = (radius + in_off - more, radius + out_off)
    spans[axis] = reach if far else (2 * radius - reach[1], 2 * radius - reach[0])
    return spans


def _half_m(hole: Thing) -> tuple[float, tuple[str, ...]]:
    """Return half its width, by whichever of hole and sleeve is wider, and what is missing."""
    sizes = [float(size) for n in ("size", "sleeve_size") if (size := hole.si(n)) is not None]
    return (max(sizes) / 2, ()) if sizes else (BODY_M, ("size",))


def _through(hole: Thing, end: float, plate_m: float) -> Span:
    """Return from where to where it reaches across its face: the plate, and a longer sleeve."""
    far = hole.text("face") in ("far", "right", "ceiling")
    low, high = (end, end + plate_m) if far else (-plate_m, 0.0)
    sleeve = float(hole.si("sleeve_length") or 0)
    # Which end of a sleeve stands out how far is not asked: all of it may, on either side.
    more = max(0.0, sleeve - plate_m)
    return low - more, high + more
