"""How far apart two straight bars, or a bar and a box, lie in space. Metres."""

from __future__ import annotations

import math
from collections.abc import Callable

Vector = tuple[float, float, float]
_HALVINGS = 80  # of a length on which the distance falls and then rises: to a float's last digits


def bars_apart_m(one: tuple[Vector, Vector], other: tuple[Vector, Vector]) -> float:
    """
    Return the least distance between the axes of two straight bars.  [m]

    Parameters
    ----------
    one, other : tuple of Vector
        Both ends of each axis; a bar of no length is a point. [m]

    Notes
    -----
    The distance from a point of one axis to the other axis is convex along the first, so that its
    least is found by narrowing.

    Examples
    --------
    Two that cross at right angles, one 0.30 m over the middle of the other; two end to end:

    >>> round(bars_apart_m(((0, 0, 0), (2, 0, 0)), ((1, -1, 0.3), (1, 1, 0.3))), 6)
    0.3
    >>> round(bars_apart_m(((0, 0, 0), (1, 0, 0)), ((4, 0, 4), (9, 0, 4))), 6)
    5.0
    """
    return _least(one, lambda point: _to_axis(point, other))


def bar_in_box_m(axis: tuple[Vector, Vector], low: Vector, high: Vector) -> float:
    """
    Return how far the axis of a bar keeps off a box; below 0 is how deep it lies within.  [m]

    Parameters
    ----------
    axis : tuple of Vector
        Both its ends. [m]
    low, high : Vector
        Two opposite corners of the box, its edges along the axes. [m]

    Examples
    --------
    A bar 0.25 m beside a box, and one through its middle, 0.50 m from the nearest face:

    >>> box = (0.0, 0.0, 0.0), (1.0, 1.0, 1.0)
    >>> round(bar_in_box_m(((-5, 1.25, 0.5), (5, 1.25, 0.5)), *box), 6)
    0.25
    >>> round(bar_in_box_m(((-5, 0.5, 0.5), (5, 0.5, 0.5)), *box), 6)
    -0.5
    """
    return _least(axis, lambda point: _to_box(point, low, high))


def boxes_share_m(one: tuple[Vector, Vector], other: tuple[Vector, Vector]) -> float:
    """
    Return by how much two boxes overlap the way they overlap least; below 0 they do not.  [m]

    Examples
    --------
    >>> boxes_share_m(((0, 0, 0), (2, 2, 2)), ((1.5, 1, 1), (3, 3, 3)))
    0.5
    >>> boxes_share_m(((0, 0, 0), (1, 1, 1)), ((1.25, 0, 0), (2, 1, 1)))
    -0.25
    """
    (low, high), (under, over) = one, other
    return min(min(high[k], over[k]) - max(low[k], under[k]) for k in range(3))


def _least(axis: tuple[Vector, Vector], distance: Callable[[Vector], float]) -> float:
    start, end = axis
    left, right = 0.0, 1.0
    for _ in range(_HALVINGS):
        third = (right - left) / 3
        if distance(_at(start, end, left + third)) <= distance(_at(start, end, right - third)):
            right -= third
        else:
            left += third
    return float(distance(_at(start, end, (left + right) / 2)))


def _at(start: Vector, end: Vector, part: float) -> Vector:
    return (
        start[0] + (end[0] - start[0]) * part,
        start[1] + (end[1] - start[1]) * part,
        start[2] + (end[2] - start[2]) * part,
    )


def _to_axis(point: Vector, axis: tuple[Vector, Vector]) -> float:
    start, end = axis
    along = [end[k] - start[k] for k in range(3)]
    length = sum(step * step for step in along)
    part = sum((point[k] - start[k]) * along[k] for k in range(3)) / length if length else 0.0
    return math.dist(point, _at(start, end, min(max(part, 0.0), 1.0)))


def _to_box(point: Vector, low: Vector, high: Vector) -> float:
    out = [max(low[k] - point[k], point[k] - high[k]) for k in range(3)]
    return math.hypot(*(max(far, 0.0) for far in out)) or max(out)
