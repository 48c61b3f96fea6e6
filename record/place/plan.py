"""Seen from above: how far a shape is from a spot in plan, and at what levels it lies below it.

All on the site grid, metres. A bar is cut by the plumb line exactly; what it may reach within a
column round the line is the part of it that can come there, with its whole tolerance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from record.calc.combine import root_sum_square
from record.place.frames import HullFrame, Vector
from record.place.solids import ANY_M, Block, Capsule, Shape

GRAZING_M2 = 1e-9  # a line that only grazes a bar meets it, whichever way the last digit falls
Spot = tuple[float, float]
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Below:
    """
    One shape below (or above) a spot; a level of None is not recorded.

    ``off_m`` is from the spot to its recorded outline in plan, 0 over it. ``top_m`` and
    ``bottom_m`` are on the plumb line, or where it comes nearest; ``highest_m`` and ``lowest_m``
    what it may reach anywhere in the column. ``along`` is how far along its axis the nearest
    place is, 0 to 1.
    """

    off_m: float
    top_m: float | None
    bottom_m: float | None
    highest_m: float | None
    lowest_m: float | None
    tolerance_m: float
    tolerance_up_m: float
    along: float


def below(shape: Shape, at: Spot, within_m: float, hulls: Mapping[str, HullFrame]) -> Below:
    """Return where a shape lies beside and below a spot, in a column ``within_m`` round it."""
    frame = hulls.get(shape.hull)
    across, up = site_doubt(shape, hulls)
    if isinstance(shape.form, Capsule):
        ends = tuple(on_site(end, frame) for end in (shape.form.start, shape.form.end))
        return _bar(shape, (ends[0], ends[1]), at, within_m, (across, up))
    return _box(shape.form, frame, at, (across, up))


def site_doubt(shape: Shape, hulls: Mapping[str, HullFrame]) -> tuple[float, float]:
    """Return a shape's tolerance across and up on the site grid: its hull's own doubt comes in."""
    frame = hulls.get(shape.hull)
    if frame is None:
        return shape.horizontal_m, shape.vertical_m
    return (
        root_sum_square(shape.horizontal_m, frame.horizontal_m, frame.turned_m),
        root_sum_square(shape.vertical_m, frame.vertical_m),
    )


def on_site(point: Vector, frame: HullFrame | None) -> Vector:
    return point if frame is None else frame.to_site(*point)


def _bar(
    shape: Shape, ends: tuple[Vector, Vector], at: Spot, within_m: float, doubt: Spot
) -> Below:
    form = shape.form
    assert isinstance(form, Capsule)
    across, up = doubt
    along, apart = nearest(ends, at)
    far = form.radius_m + within_m + across
    if shape.strays is not None:
        cut = cut_round(ends, at, far + shape.strays.most_m)
        off = shape.strays.between_m(*cut) if cut else shape.strays.most_m
        across, up, far = across + off, up + off, far + off
    middle = ends[0][2] + along * (ends[1][2] - ends[0][2])
    chord = plumb(ends, form.radius_m, at) or (middle - form.radius_m, middle + form.radius_m)
    cut = cut_round(ends, at, far) or (along, along)
    heights = [ends[0][2] + t * (ends[1][2] - ends[0][2]) for t in cut]
    known = form.rises_m < ANY_M and abs(middle) < ANY_M
    return Below(
        off_m=max(0.0, apart - form.radius_m),
        top_m=chord[1] + form.rises_m if known else None,
        bottom_m=chord[0] if known else None,
        highest_m=max(*heights, chord[1] - form.radius_m) + form.radius_m + form.rises_m + up
        if known
        else None,
        lowest_m=min(*heights, chord[0] + form.radius_m) - form.radius_m - up if known else None,
        tolerance_m=across,
        tolerance_up_m=up,
        along=along,
    )


def nearest(ends: tuple[Vector, Vector], at: Spot) -> tuple[float, float]:
    """
    Return how far along a line its nearest place to a spot is in plan, 0 to 1, and how far off.

    >>> nearest(((0, 0, 5), (10, 0, 3)), (4, 3))
    (0.4, 3.0)
    """
    (x0, y0, _), (x1, y1, _) = ends
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    along = 0.0
    if square > 0:
        along = min(1.0, max(0.0, ((at[0] - x0) * dx + (at[1] - y0) * dy) / square))
    return along, math.dist(at, (x0 + along * dx, y0 + along * dy))


def cut_round(ends: tuple[Vector, Vector], at: Spot, far_m: float) -> tuple[float, float] | None:
    """
    Return the part of a line that is within ``far_m`` of a spot in plan, as two places 0 to 1.

    >>> cut_round(((0, 0, 0), (10, 0, 0)), (4, 3), 5)
    (0.0, 0.8)
    """
    (x0, y0, _), (x1, y1, _) = ends
    dx, dy = x1 - x0, y1 - y0
    long = math.hypot(dx, dy)
    along, apart = nearest(ends, at)
    if apart > far_m:
        return None
    if long == 0:
        return 0.0, 1.0
    foot = ((at[0] - x0) * dx + (at[1] - y0) * dy) / long
    square = (at[0] - x0) ** 2 + (at[1] - y0) ** 2 - foot**2
    half = math.sqrt(max(0.0, far_m**2 - square))
    return (
        min(max((foot - half) / long, 0.0), along),
        max(min((foot + half) / long, 1.0), along),
    )


def plumb(ends: tuple[Vector, Vector], radius_m: float, at: Spot) -> tuple[float, float] | None:
    """
    Return from which level to which a plumb line runs through a bar with round ends, or None.

    A bar that rises 1 in 1, radius 1, over its middle: half the upright chord is √2.

    >>> [round(z, 4) for z in plumb(((-9, 0, -9), (9, 0, 9)), 1.0, (0, 0))]
    [-1.4142, 1.4142]
    >>> plumb(((0, 0, 2), (0, 0, 7)), 1.0, (0.0, 0.6))  # a post: √(1 − 0.36) beyond its ends
    (1.2, 7.8)
    """
    found = [level for end in ends for level in _ball(end, radius_m, at)]
    found.extend(_side(ends, radius_m, at))
    return (min(found), max(found)) if found else None


def _ball(end: Vector, radius_m: float, at: Spot) -> Iterator[float]:
    square = radius_m**2 - (at[0] - end[0]) ** 2 - (at[1] - end[1]) ** 2
    if square >= -GRAZING_M2:
        half = math.sqrt(max(0.0, square))
        yield end[2] - half
        yield end[2] + half


def _side(ends: tuple[Vector, Vector], radius_m: float, at: Spot) -> Iterator[float]:
    """|w|² − (w·u)² = r², w from the start to the plumb line's point, solved for its height."""
    long = math.dist(*ends)
    if long == 0:
        return
    ux, uy, uz = ((b - a) / long for a, b in zip(*ends, strict=True))
    flat = 1 - uz * uz
    if flat < 1e-12:
        return  # a post: its ends say it all
    qx, qy = at[0] - ends[0][0], at[1] - ends[0][1]
    level = qx * ux + qy * uy
    half = level * uz
    square = half * half - flat * (qx * qx + qy * qy - level * level - radius_m**2)
    if square < -GRAZING_M2:
        return
    square = max(0.0, square)
    for sign in (-1, 1):
        height = (half + sign * math.sqrt(square)) / flat
        if 0 <= level + height * uz <= long:
            yield ends[0][2] + height


def _box(form: Block, frame: HullFrame | None, at: Spot, doubt: Spot) -> Below:
    """A box stands upright in its frame, so in plan it is a rectangle and its levels are one."""
    a, b, shift = at[0], at[1], 0.0
    if frame is not None:
        a, b, _ = frame.to_hull((at[0], at[1], frame.origin[2]))
        shift = frame.origin[2]
    out = [max(form.low[i] - value, 0.0, value - form.high[i]) for i, value in enumerate((a, b))]
    across, up = doubt
    top, bottom = _level(form.high[2], shift), _level(form.low[2], shift)
    return Below(
        off_m=math.hypot(*out),
        top_m=top,
        bottom_m=bottom,
        highest_m=None if top is None else top + up,
        lowest_m=None if bottom is None else bottom - up,
        tolerance_m=across,
        tolerance_up_m=up,
        along=0.0,
    )


def _level(height: float, shift: float) -> float | None:
    return None if abs(height) >= ANY_M / 2 else height + shift


def roof_m(frame: HullFrame, at: Spot) -> float | None:
    """
    Return the level of the outside of a hull's top below a spot; None where it is not over it.

    Round, inside radius 1.25, plate 10 mm, 0.756 off its axis: √(1.26² − 0.756²) = 1.008 above
    the axis.
    """
    a, l, _ = frame.to_hull((at[0], at[1], frame.origin[2]))  # noqa: E741
    p = frame.plate_m
    if not (-p <= a <= frame.length_m + p and -p <= l <= frame.width_m + p):
        return None
    if not frame.round:
        return frame.origin[2] + frame.height_m + p
    off = l - frame.radius_m
    outside = frame.radius_m + p
    return frame.origin[2] + frame.radius_m + math.sqrt(max(0.0, outside**2 - off**2))


def plan_box(shape: Shape, hulls: Mapping[str, HullFrame]) -> Box:
    """Return a rectangle along the grid that holds all a shape may reach: x, y least and most."""
    frame = hulls.get(shape.hull)
    by = site_doubt(shape, hulls)[0]
    if isinstance(shape.form, Capsule):
        points = [shape.form.start, shape.form.end]
        by += shape.form.radius_m + (shape.strays.most_m if shape.strays else 0.0)
    else:
        (x0, y0, z), (x1, y1, _) = shape.form.low, shape.form.high
        points = [(x, y, z) for x in (x0, x1) for y in (y0, y1)]
    found = [on_site(point, frame) for point in points]
    xs, ys = [p[0] for p in found], [p[1] for p in found]
    return min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by
