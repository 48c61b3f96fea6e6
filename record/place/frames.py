"""The faces of a hull and the frames of what stands on them, flat or along the curve.

Right, up and away of a face are written out: they are left-handed on some faces, so a cross
product would lie.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from record.facts.values import Absent, Why
from record.fold import Thing
from record.place.hull_frames import HullFrame, Vector, add, dot, hull_frame, is_round

#: How deep a lining may be while it is not recorded: as deep as any raised floor.
LINING_NOT_KNOWN_M = 0.60


DEPTHS_FROM = ("room face", "inside of the plate")


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
        return DEPTHS_FROM[0] if known else DEPTHS_FROM[1]

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

FROM = "from its "  # before an edge; a drawing says the edge alone
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


__all__ = [
    "AXES",
    "EDGES",
    "LINING_NOT_KNOWN_M",
    "TURNS",
    "FaceFrame",
    "HullFrame",
    "Vector",
    "add",
    "dot",
    "face_frame",
    "face_origin",
    "face_size",
    "hull_frame",
    "is_round",
    "on_curve",
    "polar",
    "shell_m",
    "thickness_m",
]
