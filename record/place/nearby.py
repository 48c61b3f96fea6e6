"""Which shapes can come near a panel: boxes on the site grid, looked through before exact shapes.

A shape's box holds it with its size, its tolerance, its hull's and all that it may stray. A panel's
box holds the space behind it with the panel's hull's tolerance. Whatever of a shape :func:`outline`
finds behind the panel lies in both, so what is left out here is behind it for nobody: the answer
is the one that every shape, asked in turn, gives.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from record.fold import AsBuilt
from record.place.boxes import Box, Boxes
from record.place.frames import FaceFrame, HullFrame, Vector
from record.place.shapes import Unplaced, openings, shapes, unplaced
from record.place.solids import ANY_M, Capsule, Shape
from record.place.unrolled import STEP_M, held

SLACK_M = 1e-6 + STEP_M  # of rounding, and of the balls that cover a bar on a curve
DEEP_M = 5 * ANY_M  # farther up and down than whatever has no level
TURN = math.sqrt(2)  # what stands upright reaches no farther in another frame: a square on its edge


class Nearby:
    """The shapes and openings of a shelter, worked out once, asked which can lie behind a panel."""

    def __init__(self, built: AsBuilt, hulls: Mapping[str, HullFrame]) -> None:
        self._built, self._hulls = built, hulls

    def behind(self, frame: FaceFrame, reach_m: float) -> Iterator[Shape]:
        """Yield, in their order, at least the shapes and openings that have an outline there."""
        for place in self._boxes.meeting(panel_box(frame, reach_m)):
            yield self._solids[place]

    def over(self, at: tuple[float, float], within_m: float) -> Iterator[Shape]:
        """
        Yield, in their order, at least the shapes that may come within ``within_m`` of a spot in
        plan with their tolerance; no openings, as nothing of an opening is in the ground.
        """
        x, y, by = *at, within_m + SLACK_M
        column = (x - by, y - by, -DEEP_M, x + by, y + by, DEEP_M)
        for place in self._boxes.meeting(column):
            if place < len(self.shapes):
                yield self._solids[place]

    @cached_property
    def shapes(self) -> tuple[Shape, ...]:
        """Everything that can lie behind a face, as :func:`record.place.shapes.shapes` says it."""
        return tuple(shapes(self._built, self._hulls))

    @cached_property
    def unplaced(self) -> tuple[Unplaced, ...]:
        return tuple(unplaced(self._built, self._hulls, {s.thing.tag for s in self._solids}))

    @cached_property
    def _solids(self) -> tuple[Shape, ...]:
        return (*self.shapes, *openings(self._built, self._hulls))

    @cached_property
    def _boxes(self) -> Boxes:
        return Boxes([shape_box(shape, self._hulls) for shape in self._solids])


def shape_box(shape: Shape, hulls: Mapping[str, HullFrame]) -> Box:
    """Return the box, on the site grid, of a shape and of all that it may reach."""
    hull, form = hulls.get(shape.hull), shape.form
    across, up = shape.horizontal_m, shape.vertical_m
    if hull is not None:
        across, up = across + hull.horizontal_m + hull.turned_m, up + hull.vertical_m
    by = across + up + (shape.strays.most_m if shape.strays else 0.0)
    if isinstance(form, Capsule) and not form.rises_m:
        ends = [hull.to_site(*end) if hull else end for end in (form.start, form.end)]
        return _around(ends, TURN * (form.radius_m + by), form.radius_m + by)
    return _around(_posts(held(form), hull), TURN * by, by)


def _posts(box: tuple[Vector, Vector], hull: HullFrame | None) -> list[Vector]:
    """Return where a box reaches on the site grid, whichever way its frame is turned."""
    (x0, y0, z0), (x1, y1, z1) = box
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    x, y, low = hull.to_site(*middle, z0) if hull else (*middle, z0)
    half = TURN * math.hypot(x1 - x0, y1 - y0) / 2
    return [(x - half, y - half, low), (x + half, y + half, low + z1 - z0)]


def panel_box(frame: FaceFrame, reach_m: float) -> Box:
    """Return the box, on the site grid, of the space behind a panel."""
    hull = frame.hull
    by = hull.horizontal_m + hull.turned_m + hull.vertical_m
    corners = [hull.to_site(*corner) for corner in _corners(frame, reach_m)]
    return _around(corners, TURN * by + SLACK_M, by + SLACK_M)


def _corners(frame: FaceFrame, reach_m: float) -> Iterator[Vector]:
    if frame.or_else is not None:
        yield from _corners(frame.or_else, reach_m)
    right, up, away = frame.axes()
    wide = [_along(frame.origin, right, u) for u in (0.0, frame.width_m)]
    if frame.arc is not None:
        # A panel on the curve: all of the round between its two ends, and as deep around it.
        far = (-reach_m, 2 * frame.hull.radius_m + reach_m)
        for at, left, height in itertools.product(wide, far, far):
            yield at[0], left, height
        return
    before = frame.lining_m or 0.0
    for at, v, d in itertools.product(
        wide, (0.0, frame.height_m), (-frame.front_m - before, reach_m)
    ):
        yield _along(_along(at, up, v), away, d)


def _along(point: Vector, axis: Vector, by: float) -> Vector:
    return point[0] + by * axis[0], point[1] + by * axis[1], point[2] + by * axis[2]


def _around(points: Sequence[Vector], across: float, up: float) -> Box:
    xs, ys, zs = zip(*points, strict=True)
    low = (min(xs) - across, min(ys) - across, min(zs) - up)
    return (*low, max(xs) + across, max(ys) + across, max(zs) + up)
