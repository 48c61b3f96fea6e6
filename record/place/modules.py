"""The plan of a site in modules, by which ground is reserved: hulls with ground, then squares."""

from __future__ import annotations

import math

from record.place.hull_frames import HullFrame

ROUND_HULL_M = 3.0  # of ground round a hull, that is one module with it
SQUARE_M = 10.0  # of the ground elsewhere
MOST_SQUARES = 20_000  # a thing that may be anywhere in more than these is anywhere
Box = tuple[float, float, float, float]


def block(hull: HullFrame) -> Box:
    """Return the module of a hull: it, and the ground round it."""
    xs, ys = zip(*hull.outline(), strict=True)
    return (
        min(xs) - ROUND_HULL_M,
        min(ys) - ROUND_HULL_M,
        max(xs) + ROUND_HULL_M,
        max(ys) + ROUND_HULL_M,
    )


def squares(box: Box) -> Box:
    """Return a box grown to whole squares of the grid."""
    low = [math.floor(value / SQUARE_M) * SQUARE_M for value in box[:2]]
    high = [math.ceil(value / SQUARE_M) * SQUARE_M for value in box[2:]]
    return low[0], low[1], high[0], high[1]


def squares_of(box: Box) -> set[tuple[int, int]] | None:
    """Return the squares that a box lies in, by their lower left corner in sides; None: any."""
    low_x, low_y, high_x, high_y = (each / SQUARE_M for each in squares(box))
    if (high_x - low_x + 1) * (high_y - low_y + 1) > MOST_SQUARES:
        return None
    return {
        (x, y)
        for x in range(int(low_x), max(int(high_x), int(low_x) + 1))
        for y in range(int(low_y), max(int(high_y), int(low_y) + 1))
    }


def meet(one: Box, other: Box) -> bool:
    """Return whether two boxes have a point in common."""
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


def holds(outer: Box, inner: Box) -> bool:
    """Return whether one box lies wholly in another."""
    return (
        outer[0] <= inner[0]
        and outer[1] <= inner[1]
        and inner[2] <= outer[2]
        and inner[3] <= outer[3]
    )
