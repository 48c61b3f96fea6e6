"""How far shapes are apart: outlines seen from above on the site grid, and the levels between."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from record.place.frames import HullFrame, Vector
from record.place.plan import Spot, nearest, on_site, site_doubt
from record.place.solids import ANY_M, Block, Capsule, Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Footprint:
    """
    A shape seen from above, metres on the site grid: corners in turn, and a rim round them.

    One corner is a disc, two a bar. ``low_m`` and ``high_m`` are from which to which level it
    stands; not known is anywhere. ``across_m`` and ``up_m`` are its tolerance.
    """

    corners: tuple[Spot, ...]
    rim_m: float
    low_m: float
    high_m: float
    across_m: float
    up_m: float

    def grown(self, by_m: float, *, down_m: float, up_to_m: float) -> Footprint:
        """Return it with a wider rim, from so much below it up to a level."""
        return replace(
            self, rim_m=self.rim_m + by_m, low_m=self.low_m - down_m, high_m=up_to_m
        )  # fmt: skip

    def box(self) -> tuple[float, float, float, float]:
        """Return the rectangle along the grid that holds it with its tolerance."""
        by = self.rim_m + self.across_m
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        return min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by


def footprint(shape: Shape, hulls: Mapping[str, HullFrame]) -> Footprint:
    """Return a shape seen from above. How far a pipe may stray off its line is in ``across_m``."""
    frame = hulls.get(shape.hull)
    across, up = site_doubt(shape, hulls)
    form = shape.form
    if isinstance(form, Capsule):
        ends = [on_site(end, frame) for end in (form.start, form.end)]
        stray = shape.strays.most_m if shape.strays else 0.0
        return Footprint(
            corners=tuple(dict.fromkeys(end[:2] for end in ends)),
            rim_m=form.radius_m,
            low_m=min(end[2] for end in ends) - form.radius_m,
            high_m=max(end[2] for end in ends) + form.radius_m + form.rises_m,
            across_m=across + stray,
            up_m=up + stray,
        )
    corners = [on_site(corner, frame) for corner in _round(form)]
    shift = frame.origin[2] if frame else 0.0
    return Footprint(
        corners=tuple(corner[:2] for corner in corners),
        rim_m=0.0,
        low_m=-ANY_M if abs(form.low[2]) >= ANY_M / 2 else form.low[2] + shift,
        high_m=ANY_M if abs(form.high[2]) >= ANY_M / 2 else form.high[2] + shift,
        across_m=across,
        up_m=up,
    )


def _round(form: Block) -> Iterator[Vector]:
    (x0, y0, z), (x1, y1, _) = form.low, form.high
    yield from ((x0, y0, z), (x1, y0, z), (x1, y1, z), (x0, y1, z))


def apart_m(one: Footprint, other: Footprint) -> float:
    """
    Return how far the outlines are apart in plan; negative by the rims where they run together.

    Two bars of radius 0.1 side by side, axes 1 m apart, are 0.8 m apart:

    >>> bar = Footprint(corners=((0, 0), (5, 0)), rim_m=0.1, low_m=0, high_m=1, across_m=0, up_m=0)
    >>> round(apart_m(bar, replace(bar, corners=((2, 1), (9, 1)))), 6)
    0.8
    """
    rims = one.rim_m + other.rim_m
    if _holds(one.corners, other.corners[0]) or _holds(other.corners, one.corners[0]):
        return -rims
    return min(_between(a, b) for a in _sides(one) for b in _sides(other)) - rims


def levels_apart_m(one: Footprint, other: Footprint) -> float:
    """Return how far the two are apart in height; negative by how much they share."""
    return max(one.low_m - other.high_m, other.low_m - one.high_m)


def _sides(of: Footprint) -> list[tuple[Spot, Spot]]:
    corners = of.corners
    if len(corners) <= 2:
        return [(corners[0], corners[-1])]
    return [*itertools.pairwise(corners), (corners[-1], corners[0])]


def _between(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> float:
    """Return the least distance between two straight lines from end to end."""
    if _cross(one, other):
        return 0.0
    return min(
        *(nearest(_flat(one), at)[1] for at in other),
        *(nearest(_flat(other), at)[1] for at in one),
    )


def _flat(line: tuple[Spot, Spot]) -> tuple[Vector, Vector]:
    return (*line[0], 0.0), (*line[1], 0.0)


def _cross(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> bool:
    def side(line: tuple[Spot, Spot], at: Spot) -> float:
        (x0, y0), (x1, y1) = line
        return (x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0)

    def parted(line: tuple[Spot, Spot], by: tuple[Spot, Spot]) -> bool:
        return side(by, line[0]) * side(by, line[1]) < 0

    return parted(one, other) and parted(other, one)


def _holds(corners: tuple[Spot, ...], at: Spot) -> bool:
    """Return whether a spot lies within convex corners."""
    if len(corners) < 3:
        return False
    turns = [
        (x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0)
        for (x0, y0), (x1, y1) in itertools.pairwise((*corners, corners[0]))
    ]
    return all(t >= 0 for t in turns) or all(t <= 0 for t in turns)


def indoors(shape: Shape, hulls: Mapping[str, HullFrame], *, touching: bool = False) -> bool:
    """
    Return whether a shape is in the room of a hull, as recorded.

    A bar is where both its ends are, or pass just into the plate; a box where its middle is.
    ``touching`` says that of a thing measured in a hull it is enough that its plan reaches into
    the room: furniture of no known size, spread over all it may fill.
    """
    own = hulls.get(shape.hull)
    if touching and own is not None and isinstance(shape.form, Block):
        return _reaches(shape.form, own)
    return any(_within(shape, own, frame) for frame in hulls.values())


def _within(shape: Shape, own: HullFrame | None, frame: HullFrame) -> bool:
    form = shape.form
    points = [form.start, form.end] if isinstance(form, Capsule) else [_middle(form)]
    sizes, p = (frame.length_m, frame.width_m, frame.height_m), frame.plate_m
    for point in points:
        at = point if own is frame else frame.to_hull(on_site(point, own))
        by_plan = own is frame and abs(at[2]) >= ANY_M / 2
        if any(not -p <= at[i] <= sizes[i] + p for i in ((0, 1) if by_plan else (0, 1, 2))):
            return False
    return True


def _reaches(form: Block, own: HullFrame) -> bool:
    sizes = (own.length_m, own.width_m)
    return all(form.low[i] < sizes[i] and form.high[i] > 0 for i in (0, 1))


def _middle(form: Block) -> Vector:
    (x0, y0, z0), (x1, y1, z1) = form.low, form.high
    return ((x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2)


__all__ = ["Footprint", "apart_m", "footprint", "indoors", "levels_apart_m"]
