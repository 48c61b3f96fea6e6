"""A hull's frame on the site grid.

Its origin is the inside corner near, left, floor: ``a`` along from near to far, ``l`` across from
left to right, ``h`` up from the floor plate. Bearing is clockwise from grid north. A round hull has
its frame in the corner of the box that just holds it: its axis lies at l = h = R, and its ends are
taken as flat plates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.combine import lever_arm_m
from record.fold import Thing
from record.place.accuracy import BEARING_NOT_KNOWN_DEG, NOT_KNOWN_M

Vector = tuple[float, float, float]
ON_GRID = ("x", "y", "bearing")  # a hull's place on the site grid


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


def hull_frame(hull: Thing, put: Vector | None = None) -> HullFrame | None:
    """
    Return a hull's frame, or None while a measure it needs is not recorded.

    It may be ``put`` somewhere, at an x, a y and a bearing, for what is asked of it alone.
    """
    if "shape" in hull.unsettled():
        return None
    rounded = is_round(hull)
    section = ("inside_diameter",) * 2 if rounded else ("inside_width", "inside_height")
    names = ("inside_length", *section, "steel_thickness", "floor_level")
    needed = [hull.si(name) for name in names]
    place = [hull.si(name) for name in ON_GRID] if put is None else [*put]
    if any(value is None for value in (*needed, *place)):
        return None
    length, width, height, plate, floor = (float(value or 0) for value in needed)
    x, y, bearing = (float(value or 0) for value in place)
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
