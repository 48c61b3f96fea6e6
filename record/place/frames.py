"""Frames: the site grid, each hull's own, and the face of a panel.

A hull's frame has its origin at the inside corner near, left, floor: ``a`` along from near to
far, ``l`` across from left to right, ``h`` up from the floor plate. Bearing is clockwise from
grid north. A round hull has its frame in the corner of the box that just holds
it: its axis lies at l = h = R, and its ends are taken as flat plates. Right, up and away of a face
are written out: they are left-handed on some faces, so a cross product would lie.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from record.calc.combine import lever_arm_m
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place.accuracy import BEARING_NOT_KNOWN_DEG, NOT_KNOWN_M

#: How deep a lining may be while it is not recorded: as deep as any raised floor.
LINING_NOT_KNOWN_M = 0.60

Vector = tuple[float, float, float]


def add(one: Vector, other: Vector, times: float = 1.0) -> Vector:
    return (one[0] + times * other[0], one[1] + times * other[1], one[2] + times * other[2])


def dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


@dataclass(frozen=True, slots=True)
class HullFrame:
    """One hull on the site: inside measures, plate and origin in metres, bearing in degrees."""

    tag: str
    length_m: float
    width_m: float
    height_m: float
    plate_m: float
    origin: Vector
    bearing_deg: float
    walking_floor_m: float  # level on the site datum
    horizontal_m: float
    vertical_m: float
    bearing_tol_deg: float = BEARING_NOT_KNOWN_DEG
    assumed: bool = False  # a tolerance above was not stated
    round: bool = False  # lying along ``a``, ``width_m`` and ``height_m`` its inside diameter
    floor_known: bool = True  # else ``walking_floor_m`` is the bottom of a round shell

    @property
    def radius_m(self) -> float:
        """The inside radius of a round hull."""
        return self.width_m / 2

    @property
    def turned_m(self) -> float:
        """How far off the end farthest from the origin may be, for the bearing alone."""
        return lever_arm_m(self.bearing_tol_deg, math.hypot(self.length_m, self.width_m))

    def _axes(self) -> tuple[Vector, Vector]:
        turn = math.radians(self.bearing_deg)
        along = (_whole(math.sin(turn)), _whole(math.cos(turn)), 0.0)
        across = (along[1], -along[0], 0.0)  # to the right of one who looks along
        return along, across

    def to_site(self, a: float, l: float, h: float) -> Vector:  # noqa: E741
        along, across = self._axes()
        return add(add(add(self.origin, along, a), across, l), (0.0, 0.0, 1.0), h)

    def to_hull(self, point: Vector) -> Vector:
        along, across = self._axes()
        out = add(point, self.origin, -1.0)
        return (dot(out, along), dot(out, across), out[2])

    def outline(self) -> tuple[tuple[float, float], ...]:
        """Return the plan of the outside of the plate, four site corners from near-left round."""
        p, far, right = self.plate_m, self.length_m + self.plate_m, self.width_m + self.plate_m
        corners = ((-p, -p), (far, -p), (far, right), (-p, right))
        return tuple(self.to_site(a, across, 0.0)[:2] for a, across in corners)


def _whole(value: float) -> float:
    """Take the rounding out of a right angle, so that a hull at 270° is exactly square."""
    return round(value) if abs(value - round(value)) < 1e-12 else value


def hull_frame(hull: Thing) -> HullFrame | None:
    """Return a hull's frame, or None while a measure it needs is not recorded."""
    if "shape" in hull.unsettled():
        return None
    rounded = is_round(hull)
    section = ("inside_diameter",) * 2 if rounded else ("inside_width", "inside_height")
    names = ("inside_length", *section, "steel_thickness", "x", "y")
    needed = [hull.si(name) for name in (*names, "floor_level", "bearing")]
    if any(value is None for value in needed):
        return None
    length, width, height, plate, x, y, floor, bearing = (float(value or 0) for value in needed)
    walking, above = hull.si("walking_floor"), hull.si("floor_above_bottom")
    if walking is None and above is not None:
        walking = hull.si("floor_level") + above  # type: ignore[operator]
    level, turn = hull.quantity("floor_level"), hull.quantity("bearing")
    grid = [float(q.tol) for n in ("x", "y") if (q := hull.quantity(n)) and q.tol is not None]
    level_tol = None if level is None or level.tol is None else float(level.tol)
    turn_tol = None if turn is None or turn.tol is None else float(turn.tol)
    return HullFrame(
        tag=hull.tag,
        length_m=length,
        width_m=width,
        height_m=height,
        plate_m=plate,
        origin=(x, y, floor),
        bearing_deg=bearing,
        walking_floor_m=floor if walking is None else float(walking),
        horizontal_m=max(grid, default=NOT_KNOWN_M),
        vertical_m=NOT_KNOWN_M if level_tol is None else level_tol,
        bearing_tol_deg=BEARING_NOT_KNOWN_DEG if turn_tol is None else turn_tol,
        assumed=not grid or level_tol is None or turn_tol is None,
        round=rounded,
        floor_known=walking is not None or not rounded,
    )


def is_round(hull: Thing) -> bool:
    """Return whether a hull is round: it says so, or gives a diameter and no box."""
    shape = hull.text("shape")
    if shape is not None:
        return shape == "round"
    box = (hull.si("inside_width"), hull.si("inside_height"))
    return hull.si("inside_diameter") is not None and None in box


@dataclass(frozen=True, slots=True)
class FaceFrame:
    """
    The frame of a panel: origin at its lower left corner as one stands and looks at it.

    ``u`` runs right, ``v`` up (on floor and ceiling: from the left wall), ``d`` away from the
    room. ``lining_m`` is from the room face to the plate; None means it was not recorded, and
    then ``d`` counts from the inside of the plate.

    On the curve of a round hull (``arc`` is not None) the panel is unrolled: ``v`` is the length
    along the inside of the shell, ``arc`` the angle where it starts, ``d`` counts toward the
    shell. ``faced``: the origin lies on the room face itself, of a flat panel in a round hull.
    ``or_else`` is the other way the panel may be, where nobody said which.
    """

    hull: HullFrame
    face: str
    origin: Vector  # in the hull's frame, on the inside of the plate
    width_m: float
    height_m: float
    lining_m: float | None
    arc: float | None = None
    faced: bool = False
    adrift: bool = False  # flat in a round hull, nobody wrote how far off the axis
    or_else: FaceFrame | None = None

    @property
    def front_m(self) -> float:
        """How far before ``d`` = 0 the room face may be: 0 where the lining is known."""
        if self.adrift:
            return self.hull.radius_m
        return LINING_NOT_KNOWN_M if self.lining_m is None and not self.faced else 0.0

    @property
    def depth_from(self) -> str:
        known = self.faced or (self.lining_m is not None and not self.adrift)
        return "room face" if known else "inside of the plate"

    @property
    def on_shell_m(self) -> float | None:
        """From the room face to the shell, where it is one depth all over and known."""
        return None if self.faced or self.adrift else self.lining_m

    def axes(self) -> tuple[Vector, Vector, Vector]:
        return AXES[self.face]

    def part(self, u: float, v: float, width: float, height: float) -> FaceFrame:
        """Return the frame of a rectangle of this one; ``u``, ``v`` is its lower left corner."""
        right, up, _ = self.axes()
        origin, arc = add(add(self.origin, right, u), up, v), self.arc
        if arc is not None:
            arc += v / self.hull.radius_m
            origin = on_curve(self.hull, self.face, origin[0], arc)
        other = self.or_else and self.or_else.part(u, v, width, height)
        return replace(self, origin=origin, width_m=width, height_m=height, arc=arc, or_else=other)

    def to_face(self, point: Vector) -> Vector:
        """Return (u, v, d) of a point of the hull's frame."""
        right, up, away = self.axes()
        out = add(point, self.origin, -1.0)
        before = 0.0 if self.faced or self.adrift else self.lining_m or 0.0
        if self.arc is None:
            return (dot(out, right), dot(out, up), dot(out, away) + before)
        radius = self.hull.radius_m
        off, angle = polar(self, point[1], point[2])
        return (dot(out, right), radius * (angle - self.arc), off - radius + before)


#: Face on a curve → signs of across and up, so that its angle is 0 level with the axis on the side
#: it starts from, and grows the way the panel is measured: up the walls, over from the left.
TURNS = {"left": (-1, 1), "right": (1, 1), "ceiling": (-1, 1), "floor": (-1, -1)}


def on_curve(hull: HullFrame, face: str, a: float, angle: float, off_m: float = 0.0) -> Vector:
    """Return a point ``off_m`` outside the inside of a round shell, at an angle of a face."""
    left, up = TURNS[face]
    far = hull.radius_m + off_m
    middle = hull.radius_m
    return (a, middle + left * far * math.cos(angle), middle + up * far * math.sin(angle))


def polar(face: FaceFrame, l: float, h: float) -> tuple[float, float]:  # noqa: E741
    """Return how far a point is off the axis, and its angle, the turn nearest the panel."""
    left, up = TURNS[face.face]
    across, upward = left * (l - face.hull.radius_m), up * (h - face.hull.radius_m)
    middle = (face.arc or 0.0) + face.height_m / (2 * face.hull.radius_m)
    angle = math.atan2(upward, across)
    return math.hypot(across, upward), middle + math.remainder(angle - middle, math.tau)


#: Face → right, up, away, in the hull's frame.
AXES: dict[str, tuple[Vector, Vector, Vector]] = {
    "left": ((1, 0, 0), (0, 0, 1), (0, -1, 0)),
    "right": ((-1, 0, 0), (0, 0, 1), (0, 1, 0)),
    "near": ((0, -1, 0), (0, 0, 1), (-1, 0, 0)),
    "far": ((0, 1, 0), (0, 0, 1), (1, 0, 0)),
    "floor": ((1, 0, 0), (0, 1, 0), (0, 0, -1)),
    "ceiling": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
}

#: Face → how its left edge and its bottom edge are said to one who stands before it.
EDGES: dict[str, tuple[str, str]] = {
    "left": ("from its left edge (toward near)", "from its bottom edge"),
    "right": ("from its left edge (toward far)", "from its bottom edge"),
    "near": ("from its left edge (toward the right wall)", "from its bottom edge"),
    "far": ("from its left edge (toward the left wall)", "from its bottom edge"),
    "floor": ("from its near edge", "from its edge toward the left wall"),
    "ceiling": ("from its near edge", "from its edge toward the left wall"),
}


def face_origin(
    hull: HullFrame,
    face: str,
    a: float | None,
    across: float | None,
    h: float | None,
    width: float,
) -> Vector | None:
    """
    Return the lower left corner of a rectangle on a face, or None where an edge is missing.

    ``a`` is its edge nearest the near end, ``across`` that nearest the left wall, ``h`` its
    bottom above the floor plate.
    """
    match face:
        case "left" if a is not None and h is not None:
            return (a, 0.0, h)
        case "right" if a is not None and h is not None:
            return (a + width, hull.width_m, h)
        case "near" if across is not None and h is not None:
            return (0.0, across + width, h)
        case "far" if across is not None and h is not None:
            return (hull.length_m, across, h)
        case "floor" if a is not None and across is not None:
            return (a, across, 0.0)
        case "ceiling" if a is not None and across is not None:
            return (a, across, hull.height_m)
    return None


def face_size(hull: HullFrame, face: str) -> tuple[float, float]:
    """Return the width and height of a whole face as one stands before it."""
    if face in ("left", "right"):
        return hull.length_m, hull.height_m
    if face in ("near", "far"):
        return hull.width_m, hull.height_m
    return hull.length_m, hull.width_m


def face_frame(panel: Thing, hull: HullFrame) -> FaceFrame | None:
    """Return the frame of a panel, a reserved zone or an opening; None where edges are missing."""
    face = panel.text("face")
    width, height = panel.si("width"), panel.si("height")
    if face not in AXES or width is None or height is None:
        return None
    a, across, bottom = (panel.si(name) for name in ("from_near", "from_left", "bottom"))
    origin = face_origin(
        hull,
        face,
        None if a is None else float(a),
        None if across is None else float(across),
        None if bottom is None else float(bottom) - hull.origin[2],
        float(width),
    )
    if origin is None:
        return None
    board, packing = thickness_m(panel, "thickness"), thickness_m(panel, "packing_thickness")
    lining = None if board is None or packing is None else board + packing
    frame = FaceFrame(hull, face, origin, float(width), float(height), lining)
    return _in_round(panel, frame) if hull.round and face in TURNS else frame


def _in_round(panel: Thing, box: FaceFrame) -> FaceFrame:
    """
    Return the frame of a rectangle on the round of a hull: along the curve, flat, or either.

    Only a panel can be flat, and on the walking floor nothing else. A flat one whose room face
    nobody measured from the axis may stand anywhere from the axis to the shell.
    """
    hull, radius = box.hull, box.hull.radius_m
    follows = panel.value("follows_curve") if panel.kind.field("follows_curve") else True
    if panel.kind.word == "panel" and box.face == "floor":
        follows = False
    start = box.origin[2] if box.face in ("left", "right") else box.origin[1]
    rise = min(1.0, max(-1.0, (start - radius) / radius))
    arc = math.asin(rise) if box.face in ("left", "right") else math.acos(-rise)
    curved = replace(box, origin=on_curve(hull, box.face, box.origin[0], arc), arc=arc)
    if follows is True:
        return curved
    off = _off_axis_m(panel, hull)
    away = box.axes()[2]
    faced = (
        None
        if off is None
        else replace(box, origin=add(box.origin, away, off - radius), faced=True)
    )
    if follows is False and faced is not None:
        return faced
    flat = replace(box, adrift=True)
    return flat if follows is False else replace(flat, or_else=replace(curved, lining_m=None))


def _off_axis_m(panel: Thing, hull: HullFrame) -> float | None:
    """Return how far a flat panel's room face is off the axis; on the floor, as that lies."""
    said = panel.si("off_axis")
    if said is not None:
        return float(said)
    if panel.text("face") == "floor" and hull.floor_known:
        return hull.radius_m - (hull.walking_floor_m - hull.origin[2])
    return None


def thickness_m(thing: Thing, name: str) -> float | None:
    """Return a layer's thickness; 0 where it was written that there is none; None not recorded."""
    value = thing.value(name)
    if isinstance(value, Absent) and value.why in (Why.NONE, Why.NOT_APPLICABLE):
        return 0.0
    measured = thing.si(name)
    return None if measured is None else float(measured)


def shell_m(frame: FaceFrame) -> tuple[float, float]:
    """
    Return the least and most from a flat panel's room face to the inside of a round shell, metres.

    √(R² − y²) − c, where c is how far the face is off the axis and y how far the shell is from it
    along the panel. R 1.25, face 0.30 off, from 0.75 below the axis to 0.35 above it: at the
    bottom √(1.25² − 0.75²) − 0.30 = 1.00 − 0.30 = 0.70, level with the axis 1.25 − 0.30 = 0.95.
    """
    radius, up, away = frame.hull.radius_m, frame.axes()[1], frame.axes()[2]
    middle = (0.0, radius, radius)
    low = dot(add(frame.origin, middle, -1.0), up)
    high = low + frame.height_m
    off = dot(add(frame.origin, middle, -1.0), away)
    least = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
    most = max(abs(low), abs(high))
    near, far = (math.sqrt(max(0.0, radius**2 - y**2)) - off for y in (most, least))
    return near, far
