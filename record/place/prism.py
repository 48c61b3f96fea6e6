"""The space behind a panel, and what of each shape lies in it.

The prism is the panel's rectangle, run on away from the room as far as was asked. A shape is
grown by its own size and its tolerance, then cut; what is left is given as three outlines on
the panel's face, certain (size less tolerance), recorded, and may reach (size and tolerance),
and as depths from the room face.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from record.calc.combine import across, root_sum_square
from record.place.frames import FaceFrame, HullFrame, Vector
from record.place.shapes import Block, Capsule, Shape

Rectangle = tuple[float, float, float, float]  # u from, v from, u to, v to


@dataclass(frozen=True, slots=True)
class Outline:
    """What of a shape lies behind a panel. Metres, from the panel's lower left corner."""

    recorded: Rectangle
    may_reach: Rectangle
    certain: Rectangle | None  # None: nothing of it is certain to be here
    axis: tuple[tuple[float, float], tuple[float, float]] | None  # of a pipe; None for a box
    depth: tuple[float, float]  # recorded, from the room face
    depth_may_reach: tuple[float, float]
    tolerance_m: tuple[float, float, float]  # along u, v, d


def tolerances(
    shape: Shape, frame: FaceFrame, hulls: Mapping[str, HullFrame]
) -> tuple[float, float, float]:
    """
    Return a shape's tolerance along u, v and d of a panel.

    Inside its own hull a shape carries its own doubt alone; from another frame it carries
    those of both frames too, as independent: they are combined as root sum square.
    """
    horizontal, vertical = [shape.horizontal_m], [shape.vertical_m]
    if shape.hull != frame.hull.tag:
        passed = [frame.hull] + ([hulls[shape.hull]] if shape.hull in hulls else [])
        horizontal += [hull.horizontal_m for hull in passed]
        vertical += [hull.vertical_m for hull in passed]
    h, v = root_sum_square(*horizontal), root_sum_square(*vertical)
    right, up, away = frame.axes()
    return across(right, h, v), across(up, h, v), across(away, h, v)


def outline(
    shape: Shape, frame: FaceFrame, reach_m: float, hulls: Mapping[str, HullFrame]
) -> Outline | None:
    """Return what of ``shape`` may lie within ``reach_m`` behind the panel, or None."""
    tolerance = tolerances(shape, frame, hulls)
    size = (frame.width_m, frame.height_m, reach_m)
    if isinstance(shape.form, Capsule):
        ends = (
            _to_face(shape.form.start, shape.hull, frame, hulls),
            _to_face(shape.form.end, shape.hull, frame, hulls),
        )
        return _bar(ends, shape.form.radius_m, tolerance, size)
    (x0, y0, z0), (x1, y1, z1) = shape.form.low, shape.form.high
    turned = [
        _to_face((x, y, z), shape.hull, frame, hulls)
        for x, y, z in itertools.product((x0, x1), (y0, y1), (z0, z1))
    ]
    low = tuple(min(corner[i] for corner in turned) for i in range(3))
    high = tuple(max(corner[i] for corner in turned) for i in range(3))
    return _box((low[0], low[1], low[2]), (high[0], high[1], high[2]), tolerance, size)


def _to_face(point: Vector, hull: str, frame: FaceFrame, hulls: Mapping[str, HullFrame]) -> Vector:
    if hull != frame.hull.tag:
        site = hulls[hull].to_site(*point) if hull else point
        point = frame.hull.to_hull(site)
    return frame.to_face(point)


def _clip(ends: tuple[Vector, Vector], low: Vector, high: Vector) -> tuple[Vector, Vector] | None:
    """Return the part of a line within a box (Liang and Barsky), or None."""
    start, end = ends
    enter, leave = 0.0, 1.0
    for i in range(3):
        step = end[i] - start[i]
        if step == 0:
            if not low[i] <= start[i] <= high[i]:
                return None
            continue
        near, far = sorted(((low[i] - start[i]) / step, (high[i] - start[i]) / step))
        enter, leave = max(enter, near), min(leave, far)
        if enter > leave:
            return None
    at = [tuple(start[i] + t * (end[i] - start[i]) for i in range(3)) for t in (enter, leave)]
    return (at[0][0], at[0][1], at[0][2]), (at[1][0], at[1][1], at[1][2])


def _bar(
    ends: tuple[Vector, Vector], radius: float, tolerance: Vector, size: Vector
) -> Outline | None:
    grow = tuple(radius + t for t in tolerance)
    low = (-grow[0], -grow[1], -grow[2])
    high = (size[0] + grow[0], size[1] + grow[1], size[2] + grow[2])
    cut = _clip(ends, low, high)
    if cut is None:
        return None
    least = tuple(min(cut[0][i], cut[1][i]) for i in range(3))
    most = tuple(max(cut[0][i], cut[1][i]) for i in range(3))
    return _outline(least, most, radius, tolerance, (cut[0][:2], cut[1][:2]))


def _box(low: Vector, high: Vector, tolerance: Vector, size: Vector) -> Outline | None:
    limits = ((0.0, size[0]), (0.0, size[1]), (0.0, size[2]))
    for i, (least, most) in enumerate(limits):
        if high[i] + tolerance[i] < least or low[i] - tolerance[i] > most:
            return None
    return _outline(low, high, 0.0, tolerance, None)


def _outline(
    least: tuple[float, ...],
    most: tuple[float, ...],
    radius: float,
    tolerance: Vector,
    axis: tuple[tuple[float, float], tuple[float, float]] | None,
) -> Outline:
    def grown(by_u: float, by_v: float) -> Rectangle:
        return (least[0] - by_u, least[1] - by_v, most[0] + by_u, most[1] + by_v)

    tu, tv, td = tolerance
    sure = grown(radius - tu, radius - tv)
    return Outline(
        recorded=grown(radius, radius),
        may_reach=grown(radius + tu, radius + tv),
        certain=sure if sure[0] < sure[2] and sure[1] < sure[3] else None,
        axis=axis,
        depth=(max(0.0, least[2] - radius), max(0.0, most[2] + radius)),
        depth_may_reach=(max(0.0, least[2] - radius - td), max(0.0, most[2] + radius + td)),
        tolerance_m=tolerance,
    )


__all__ = ["Block", "Outline", "Rectangle", "outline", "tolerances"]
