"""The largest rectangle with nothing in it, among rectangles that are to be kept out of."""

from __future__ import annotations

import math
from bisect import insort
from collections.abc import Sequence

Rectangle = tuple[float, float, float, float]


def largest_empty(
    bounds: Rectangle,
    kept_out: Sequence[Rectangle],
    least_m: tuple[float, float] = (0.0, 0.0),
) -> Rectangle | None:
    """
    Return the largest empty rectangle with its sides along the axes, or None.  [m]

    Parameters
    ----------
    bounds : (left, bottom, right, top)
        What it must lie in. [m]
    kept_out : sequence of (left, bottom, right, top)
        What it may touch and not enter; they may lie over one another and out of bounds. [m]
    least_m : (width, height)
        What it must have room for. [m]

    Raises
    ------
    ValueError
        If a number is not one, or a rectangle has its left right of its right, or its bottom
        above its top.

    Notes
    -----
    An empty rectangle that cannot grow touches a rectangle or the bounds on each side, so its left
    and right are among theirs [1]_. For each left, rectangles are met one by one going right; the
    widest gap between those met so far, up and down, is the height. Of two as large the one
    farther left is given, then the lower one.

    Examples
    --------
    A post in a room of 4 by 2: to its right 2.5 by 2 is left.

    >>> largest_empty((0, 0, 4, 2), [(1, 0.5, 1.5, 1.5)])
    (1.5, 0, 4, 2)

    References
    ----------
    .. [1] A. Naamad, D. T. Lee and W.-L. Hsu, On the maximum empty rectangle problem, Discrete
       Applied Mathematics 8 (1984), 267-277 (from memory).
    """
    for rectangle in (bounds, *kept_out):
        _refuse(rectangle)
    left, bottom, right, top = bounds
    inside = [
        one
        for one in kept_out
        if one[0] < right and one[2] > left and one[1] < top and one[3] > bottom
    ]
    best: Rectangle | None = None
    for start in sorted({left, *(one[2] for one in inside if left < one[2] < right)}):
        for found in _from(start, bounds, inside):
            width, height = found[2] - found[0], found[3] - found[1]
            if width < least_m[0] or height < least_m[1] or width <= 0 or height <= 0:
                continue
            if best is None or _area(found) > _area(best) * (1 + 1e-12):
                best = found
    return best


def _from(start: float, bounds: Rectangle, inside: Sequence[Rectangle]) -> list[Rectangle]:
    """Return every empty rectangle from ``start`` to the next thing met, or to the right bound."""
    _, bottom, right, top = bounds
    ahead = sorted(one for one in inside if one[2] > start)
    met: list[tuple[float, float]] = []
    found: list[Rectangle] = []
    for one in ahead:
        end = max(one[0], start)
        found.extend((start, low, end, high) for low, high in _gaps(met, bottom, top))
        insort(met, (one[1], one[3]))
    found.extend((start, low, right, high) for low, high in _gaps(met, bottom, top))
    return found


def _gaps(met: Sequence[tuple[float, float]], low: float, high: float) -> list[tuple[float, float]]:
    reached, found = low, list[tuple[float, float]]()
    for bottom, top in met:
        if bottom > reached:
            found.append((reached, min(bottom, high)))
        reached = max(reached, top)
    if reached < high:
        found.append((reached, high))
    return found


def _area(one: Rectangle) -> float:
    return (one[2] - one[0]) * (one[3] - one[1])


def _refuse(one: Rectangle) -> None:
    if not all(map(math.isfinite, one)):
        raise ValueError(f"a rectangle with a side at {one} is none")
    if one[0] > one[2] or one[1] > one[3]:
        raise ValueError(f"a rectangle from {one[0]}, {one[1]} to {one[2]}, {one[3]} is none")
