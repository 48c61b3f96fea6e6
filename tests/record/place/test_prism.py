"""What of a shape lies behind a panel, against scipy's solver and its rotations, and shapely.

The oracle knows nothing of faces. A hull is turned by `scipy.spatial.transform.Rotation`; a panel's
space and a box are rows of inequalities, and `scipy.optimize.linprog` finds the least and the most
of what satisfies all of them. What a line leaves in a rectangle is shapely's intersection.
"""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as some
from scipy.optimize import linprog
from scipy.spatial.transform import Rotation
from shapely.affinity import rotate
from shapely.geometry import LineString, box

from record.facts import KINDS
from record.fold import Thing
from record.place import FaceFrame, HullFrame, Shape, outline
from record.place.solids import Block, Capsule
from record.place.unrolled import clip

RUN = Thing(fields={}, tag="R-1", kind=KINDS["run"])
NEAR_M = 1e-6  # what only just touches may fall either way
few = settings(max_examples=100, deadline=None)
metres = some.floats(-3, 3).map(lambda value: round(value, 4))
points = some.tuples(metres, metres, metres)
sizes = some.floats(0.05, 3).map(lambda value: round(value, 4))
boxes = some.tuples(points, some.tuples(sizes, sizes, sizes)).map(
    lambda pair: (pair[0], tuple(a + b for a, b in zip(*pair, strict=True)))
)


def least_and_most(rows, limits, of, ways):
    """Return the least and the most of ``of · x`` where ``rows · x ≤ limits``; None if nowhere."""
    found = [
        linprog([sign * each for each in of], A_ub=rows, b_ub=limits, bounds=ways, method="highs")
        for sign in (1, -1)
    ]
    if any(one.status == 2 for one in found):
        return None
    assert all(one.status == 0 for one in found), found
    return found[0].fun, -found[1].fun


def along_a_line(start, end, low, high):
    """The same of how far along a line, 0 to 1, within a box."""
    way = np.subtract(end, start)
    rows = np.concatenate([way, -way]).reshape(-1, 1)
    limits = np.concatenate([np.subtract(high, start), np.subtract(start, low)])
    return least_and_most(rows, limits, [1.0], [(0, 1)])


@few
@given(start=points, end=points, space=boxes)
def test_the_part_of_a_line_in_a_box_is_what_a_solver_finds(start, end, space):
    low, high = space
    worked = along_a_line(start, end, low, high)
    found = clip((start, end), low, high)
    if worked is None or found is None:
        # One of them says nowhere: then a box a hair smaller is missed, and one larger is met.
        less = along_a_line(start, end, np.add(low, NEAR_M), np.subtract(high, NEAR_M))
        more = along_a_line(start, end, np.subtract(low, NEAR_M), np.add(high, NEAR_M))
        assert less is None or found is not None
        assert more is not None or found is None
        return
    way = np.subtract(end, start)
    for at, point in zip(worked, found, strict=True):
        assert np.allclose(point, start + at * way, atol=1e-5)


@few
@given(start=points, end=points, space=boxes)
def test_the_part_of_a_level_line_in_a_box_is_what_shapely_finds(start, end, space):
    (x0, y0, z0), (x1, y1, z1) = space
    level = (z0 + z1) / 2
    line = LineString([start[:2], end[:2]])
    assume(line.length > 0.01)
    left = line.intersection(box(x0, y0, x1, y1))
    found = clip(((*start[:2], level), (*end[:2], level)), *space)
    if found is None:
        assert left.length < 1e-9
        return
    assert math.dist(*found) == pytest.approx(left.length, abs=1e-9)
    if left.length > 1e-6:
        assert np.allclose([found[0][:2], found[1][:2]], left.coords, atol=1e-9)


def test_a_line_through_a_box_enters_and_leaves_where_it_does_on_paper():
    """From (0, 0, 0) to (8, 4, 2): x is 2 a quarter of the way on, y is 2 half of the way on."""
    found = clip(((0, 0, 0), (8, 4, 2)), (2, -1, -1), (9, 2, 9))
    assert found == ((2, 1, 0.5), (4, 2, 1))
    assert clip(((0, 0, 0), (8, 4, 2)), (2, -1, 1.5), (9, 2, 9)) is None  # z is 1.5 after y is 2


#: Face → which wall of the hull it is, and what is right, up and away for one who looks at it,
#: in steps along, to the right of one who looks along, and up; written out anew from those words.
ALONG, RIGHT, UP = np.eye(3)
LOOKING = {
    "left": (ALONG, UP, -RIGHT),
    "right": (-ALONG, UP, RIGHT),
    "near": (-RIGHT, UP, -ALONG),
    "far": (RIGHT, UP, ALONG),
    "floor": (ALONG, RIGHT, -UP),
    "ceiling": (ALONG, RIGHT, UP),
}


def on_grid(vector, bearing):
    """Turn steps along, right and up into x east, y north, z up: 0° looks north, 90° east."""
    along, right, up = vector
    return Rotation.from_euler("z", -bearing, degrees=True).apply([right, along, up])


bearings = some.one_of(some.sampled_from([0.0, 90.0, 270.0]), some.floats(0, 360))


@some.composite
def panels(draw):
    """A panel on a face of a hull anywhere, turned any way: its frame, and its hull's."""
    origin = draw(points)
    hull = HullFrame(
        "A", 9.0, 3.0, 3.0, 0.006, origin, draw(bearings), 0.0, 0.0, 0.0, 0.0, floor_known=True
    )
    corner = tuple(draw(some.floats(0, 3)) for _ in range(3))
    frame = FaceFrame(
        hull, draw(some.sampled_from(sorted(LOOKING))), corner, draw(sizes), draw(sizes), 0.0
    )
    return hull, frame


def panel_axes(hull, frame):
    """Where a panel's corner is on the grid, and right, up and away there, by scipy's rotation."""
    corner = np.add(hull.origin, on_grid(frame.origin, hull.bearing_deg))
    return corner, [on_grid(way, hull.bearing_deg) for way in LOOKING[frame.face]]


def before_it(panel, spot):
    """Return where a spot is on the grid, told from a panel's corner: right, up and away."""
    corner, axes = panel_axes(*panel)
    return tuple(float(each) for each in corner + np.transpose(axes) @ spot)


def shape_of(form, hull=""):
    return Shape(RUN, "", form, hull, 0.0, 0.0, "", False, ())


@few
@given(panel=panels(), start=points, end=points, radius=some.floats(0.01, 0.4), reach=sizes)
def test_a_pipe_behind_a_panel_turned_any_way_is_where_a_solver_finds_it(
    panel, start, end, radius, reach
):
    """
    Of the axis of a pipe on the grid, what comes within its radius of the panel's space; each way
    on the panel its least and most, and the radius on either side of it.
    """
    _, frame = panel
    ends = [np.multiply(start, (0.5, 0.5, 0.2)), np.array(end)]
    start, end = (before_it(panel, spot) for spot in ends)
    low = np.array([0.0, 0.0, 0.0]) - radius
    high = np.array([frame.width_m, frame.height_m, reach]) + radius
    found = outline(shape_of(Capsule(start, end, radius)), frame, reach, {})
    worked = along_a_line(*ends, low, high)
    if found is None:
        assert along_a_line(*ends, low + NEAR_M, high - NEAR_M) is None
        return
    assert along_a_line(*ends, low - NEAR_M, high + NEAR_M) is not None
    if worked is None:
        return
    cut = [np.add(ends[0], at * np.subtract(ends[1], ends[0])) for at in worked]
    least, most = np.min(cut, axis=0) - radius, np.max(cut, axis=0) + radius
    assert found.recorded == pytest.approx((*least[:2], *most[:2]), abs=1e-5)
    assert found.depth == pytest.approx((max(0, least[2]), max(0, most[2])), abs=1e-5)
    assert found.may_reach == found.recorded and found.depth_may_reach == found.depth


@few
@given(panel=panels(), other=bearings, at=points, block=boxes, reach=sizes)
def test_a_box_of_another_hull_is_never_missed_and_never_told_too_small(
    panel, other, at, block, reach
):
    """
    A box measured in a hull that is turned another way: the solver finds what of it lies in the
    panel's space. All that is told as lying there.
    """
    hull, frame = panel
    shift = before_it(panel, np.multiply(at, 0.4))
    of = HullFrame("B", 9, 3, 3, 0.006, shift, other, 0.0, 0.0, 0.0, 0.0, floor_known=True)
    corner, axes = panel_axes(hull, frame)
    sides = [on_grid(way, other) for way in np.eye(3)]
    rows = [sign * way for way in (*sides, *axes) for sign in (1, -1)]
    low, high = block
    spans = [*zip(low, high, strict=True)]
    spans += [(0.0, frame.width_m), (0.0, frame.height_m), (0.0, reach)]
    froms = [shift] * 3 + [corner] * 3
    limits = []
    for way, (least, most), zero in zip((*sides, *axes), spans, froms, strict=True):
        there = float(np.dot(way, zero))
        limits += [there + most, -(there + least)]
    anywhere = [(None, None)] * 3
    found = outline(shape_of(Block(low, high), "B"), frame, reach, {"A": hull, "B": of})
    for i, way in enumerate(axes):
        worked = least_and_most(rows, limits, way, anywhere)
        if worked is None:
            return
        if found is None:  # they touch at most, within rounding
            nearer = [limit - NEAR_M for limit in limits]
            assert least_and_most(rows, nearer, way, anywhere) is None
            return
        told = (found.recorded[i], found.recorded[i + 2]) if i < 2 else found.depth
        least, most = np.array(worked) - float(np.dot(way, corner))
        assert told[0] <= least + NEAR_M and told[1] >= most - NEAR_M


@few
@given(block=boxes, bearing=some.floats(0, 360), at=points)
def test_a_box_wholly_behind_a_panel_is_told_by_the_corners_shapely_turns_it_to(block, bearing, at):
    """On the far wall of a hull that looks north: u is east, v is up, d is north of the wall."""
    hull = HullFrame("A", 0.0, 0, 0, 0.006, (0, 0, 0), 0.0, 0, 0.0, 0.0, 0.0, floor_known=True)
    frame = FaceFrame(hull, "far", (0.0, -50.0, -50.0), 100.0, 100.0, 0.0)
    of = HullFrame("B", 9, 3, 3, 0.006, (at[0], at[1] + 50, at[2]), bearing, 0, 0.0, 0.0, 0.0)
    (a0, r0, u0), (a1, r1, u1) = block
    plan = rotate(box(r0, a0, r1, a1), -bearing, origin=(0, 0))
    x0, y0, x1, y1 = plan.bounds
    found = outline(shape_of(Block(*block), "B"), frame, 100.0, {"A": hull, "B": of})
    assert found is not None
    x, y, z = of.origin
    assert found.recorded == pytest.approx((x + x0 + 50, z + u0 + 50, x + x1 + 50, z + u1 + 50))
    assert found.depth == pytest.approx((y + y0, y + y1))


def test_a_pipe_across_a_panel_at_a_slant_is_cut_where_it_is_on_paper():
    """
    On the left wall of a hull that looks east, 1.0 wide and high; depth is north of the wall. The
    pipe goes from 1 m left of the panel and 0.4 deep to 3 m right of its left edge and 0.8 deep,
    level 0.5 up: a metre along, 0.1 deeper. Radius 0.05: it is cut 0.05 off either edge, where its
    axis is 0.4 + 0.095 = 0.495 and 0.4 + 0.205 = 0.605 deep.
    """
    hull = HullFrame("A", 9, 3, 3, 0.006, (0, 0, 0), 90.0, 0, 0.0, 0.0, 0.0, floor_known=True)
    frame = FaceFrame(hull, "left", (0.0, 0.0, 0.0), 1.0, 1.0, 0.0)
    found = outline(shape_of(Capsule((-1, 0.4, 0.5), (3, 0.8, 0.5), 0.05)), frame, 1.0, {})
    assert found is not None
    assert found.recorded == pytest.approx((-0.1, 0.45, 1.1, 0.55))
    assert found.depth == pytest.approx((0.445, 0.655))
    assert found.axis is not None
    assert [*itertools.chain(*found.axis)] == pytest.approx([-0.05, 0.5, 1.05, 0.5])
