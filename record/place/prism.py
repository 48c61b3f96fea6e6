"""The space behind a panel, and what of each shape lies in it.

The prism is the panel's rectangle, run on away from the room as far as was asked. A shape is
grown by its own size and its tolerance, then cut; what is left is given as three outlines on
the panel's face, certain (size less tolerance), recorded, and may reach (size and tolerance),
and as depths from the room face.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import replace

from record.calc.combine import across, root_sum_square
from record.place.frames import FaceFrame, HullFrame, Vector
from record.place.outlines import Outline, Rectangle, either
from record.place.solids import Block, Capsule, Shape
from record.place.unrolled import clip, unrolled

Size = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
Swept = tuple[tuple[Vector, Vector], tuple[float, ...]]


def tolerances(
    shape: Shape, frame: FaceFrame, hulls: Mapping[str, HullFrame]
) -> tuple[float, float, float]:
    """
    Return a shape's tolerance along u, v and d of a panel.

    Inside its own hull a shape carries its own doubt alone; from another frame it carries
    those of both frames too, as independent: they are combined as root sum square.
    """
    h, v = doubts(shape, frame, hulls)
    right, up, away = frame.axes()
    return across(right, h, v), across(up, h, v), across(away, h, v)


def doubts(shape: Shape, frame: FaceFrame, hulls: Mapping[str, HullFrame]) -> tuple[float, float]:
    """Return a shape's tolerance across and up, in the frame of a panel's hull."""
    horizontal, vertical = [shape.horizontal_m], [shape.vertical_m]
    for hull in crossed(shape, frame, hulls):
        horizontal += [hull.horizontal_m, hull.turned_m]
        vertical.append(hull.vertical_m)
    return root_sum_square(*horizontal), root_sum_square(*vertical)


def crossed(
    shape: Shape, frame: FaceFrame, hulls: Mapping[str, HullFrame]
) -> tuple[HullFrame, ...]:
    """Return the frames between a shape and a panel; none inside one hull."""
    if shape.hull == frame.hull.tag:
        return ()
    return (frame.hull, hulls[shape.hull]) if shape.hull in hulls else (frame.hull,)


def outline(
    shape: Shape, frame: FaceFrame, reach_m: float, hulls: Mapping[str, HullFrame]
) -> Outline | None:
    """Return what of ``shape`` may lie within ``reach_m`` behind the panel, or None."""
    if frame.or_else is not None:
        ways = (replace(frame, or_else=None), frame.or_else)
        found = [seen for way in ways if (seen := outline(shape, way, reach_m, hulls))]
        return either(found) if found else None
    if frame.arc is not None:
        doubt = doubts(shape, frame, hulls)
        return unrolled(shape, frame, reach_m, hulls, doubt)
    tolerance = tolerances(shape, frame, hulls)
    size = ((0.0, frame.width_m), (0.0, frame.height_m), (-frame.front_m, reach_m))
    if isinstance(shape.form, Capsule):
        ends = (
            _to_face(shape.form.start, shape.hull, frame, hulls),
            _to_face(shape.form.end, shape.hull, frame, hulls),
        )
        if shape.strays is not None:
            radius = shape.form.radius_m + shape.form.rises_m
            tolerance = shape.strays.grown(ends, size, tolerance, radius, clip)
        return _bar(_risen(ends, shape.form.rises_m, frame), shape.form.radius_m, tolerance, size)
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


def _risen(ends: tuple[Vector, Vector], rises: float, frame: FaceFrame) -> Swept:
    """Return the ends of a bar, and how far up it may stand, as a vector of the face."""
    return ends, tuple(round(axis[2]) * rises for axis in frame.axes())


def _bar(swept: Swept, radius: float, tolerance: Vector, size: Size) -> Outline | None:
    ends, rise = swept
    low = [size[i][0] - radius - tolerance[i] for i in range(3)]
    high = [size[i][1] + radius + tolerance[i] for i in range(3)]
    # A bar that may stand anywhere up to its rise is cut by a space that reaches down as far.
    lower = [low[i] - max(rise[i], 0.0) for i in range(3)]
    upper = [high[i] - min(rise[i], 0.0) for i in range(3)]
    cut = clip(ends, (lower[0], lower[1], lower[2]), (upper[0], upper[1], upper[2]))
    if cut is None:
        return None
    least = [min(cut[0][i], cut[1][i]) + min(rise[i], 0.0) for i in range(3)]
    most = [max(cut[0][i], cut[1][i]) + max(rise[i], 0.0) for i in range(3)]
    least = [max(least[i], low[i]) for i in range(3)]
    most = [min(most[i], high[i]) for i in range(3)]
    axis = None if any(rise) else (cut[0][:2], cut[1][:2])
    return _outline(least, most, radius, tolerance, axis)


def _box(low: Vector, high: Vector, tolerance: Vector, size: Size) -> Outline | None:
    least = [max(low[i], size[i][0] - tolerance[i]) for i in range(3)]
    most = [min(high[i], size[i][1] + tolerance[i]) for i in range(3)]
    if any(least[i] > most[i] for i in range(3)):
        return None
    return _outline(least, most, 0.0, tolerance, None)


def _outline(
    least: Sequence[float],
    most: Sequence[float],
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


__all__ = ["Block", "Outline", "Rectangle", "crossed", "outline", "tolerances"]
