"""
Below a spot: the plumb line through a bar, and what may come into a column, by sampling; and the
same against shapely in plan, scipy's root finder and its solver.
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as some
from scipy.optimize import brentq, lsq_linear
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, Point, box

from record.place import below, roof_m
from record.place.frames import HullFrame
from record.place.plan import cut_round, nearest, plan_box, plumb
from record.place.solids import Block, Capsule, Shape
from record.place.strays import Stray

HULL = HullFrame("A", 6.0, 2.5, 2.5, 0.01, (100.0, 200.0, 50.0), 30.0, 50.0, 0.0, 0.0, 0.0)
metres = some.floats(-5, 5, allow_nan=False)
points = some.tuples(metres, metres, metres)
spots = some.tuples(metres, metres)


class Named:
    tag = "W-1"


def shape(form, hull="", across=0.0, up=0.0, strays=None):
    return Shape(Named(), "", form, hull, across, up, "", False, (), strays=strays)


def inside_a_bar(points, ends, radius):
    """Distance of points to a segment, in numpy, the long way."""
    start, way = np.array(ends[0]), np.array(ends[1]) - np.array(ends[0])
    square = float(way @ way)
    t = np.zeros(len(points)) if square == 0 else np.clip((points - start) @ way / square, 0, 1)
    return np.linalg.norm(points - (start + t[:, None] * way), axis=1) <= radius


@given(start=points, end=points, at=spots, radius=some.floats(0.05, 1.0))
@settings(max_examples=150, deadline=None)
def test_a_plumb_line_runs_through_a_bar_where_sampling_finds_it_inside(start, end, at, radius):
    assume(abs(nearest((start, end), at)[1] - radius) > 1e-4)  # a line that grazes it: below
    levels = np.linspace(-8, 8, 16001)
    line = np.column_stack([np.full_like(levels, at[0]), np.full_like(levels, at[1]), levels])
    inside = levels[inside_a_bar(line, (start, end), radius)]
    found = plumb((start, end), radius, at)
    if len(inside):
        assert found is not None
        assert found[0] == pytest.approx(inside.min(), abs=2e-3)
        assert found[1] == pytest.approx(inside.max(), abs=2e-3)
    elif found is not None:
        assert found[1] - found[0] < 2.5e-3  # between two samples


@given(start=points, end=points, at=spots, far=some.floats(0.01, 3.0))
@settings(max_examples=150, deadline=None)
def test_the_part_of_a_line_within_reach_of_a_spot_is_that_which_sampling_finds(
    start, end, at, far
):
    steps = np.linspace(0, 1, 4001)
    line = np.array(start)[:2] + steps[:, None] * (np.array(end) - np.array(start))[:2]
    off = np.linalg.norm(line - np.array(at), axis=1)
    long = math.dist(start[:2], end[:2])
    assert nearest((start, end), at)[1] == pytest.approx(off.min(), abs=1e-3 * (long + 1))
    found, here = cut_round((start, end), at, far), steps[off <= far]
    if len(here):
        assert found is not None
        assert found[0] <= here.min() + 1e-9 and found[1] >= here.max() - 1e-9
        assert found[0] >= here.min() - 3e-4 and found[1] <= here.max() + 3e-4
    if found is None:
        assert len(here) == 0


@given(start=points, end=points, at=spots)
@settings(max_examples=200, deadline=None)
def test_the_nearest_place_of_a_line_to_a_spot_is_shapelys(start, end, at):
    assume(math.dist(start[:2], end[:2]) > 0.01)
    line = LineString([start[:2], end[:2]])
    along, off = nearest((start, end), at)
    assert off == pytest.approx(line.distance(Point(at)), abs=1e-9)
    assert along == pytest.approx(line.project(Point(at), normalized=True), abs=1e-9)


def off_a_segment(point, ends):
    """From a point to a line between two ends, as least squares: start + t·(end − start), t 0 to 1.

    Solved by scipy within its bounds.
    """
    way = np.subtract(ends[1], ends[0]).reshape(3, 1)
    if not way.any():
        return math.dist(point, ends[0])
    found = lsq_linear(way, np.subtract(point, ends[0]), bounds=(0, 1))
    return math.sqrt(2 * found.cost)


@given(start=points, end=points, part=some.floats(0, 1), turn=some.floats(0, 2 * math.pi),
       out=some.floats(0, 0.95), radius=some.floats(0.05, 1.0))  # fmt: skip
@settings(max_examples=150, deadline=None)
def test_a_plumb_line_leaves_a_bar_where_scipy_finds_its_radius(
    start, end, part, turn, out, radius
):
    """
    The line goes through a place inside: some way along the axis, and out from it by less than the
    radius. Above and below, where is the axis one radius away? A capsule is convex: once each.
    """
    inside = np.add(start, part * np.subtract(end, start))
    inside[:2] += np.multiply(out * radius, (math.cos(turn), math.sin(turn)))

    def beyond(level):
        return off_a_segment((inside[0], inside[1], level), (start, end)) - radius

    assume(beyond(inside[2]) < -1e-3)
    worked = [brentq(beyond, inside[2], far, xtol=1e-9) for far in (-9.0, 9.0)]
    found = plumb((start, end), radius, (inside[0], inside[1]))
    assert found == pytest.approx(tuple(worked), abs=1e-5)


@given(start=points, end=points, at=spots, far=some.floats(0.01, 3.0))
@settings(max_examples=150, deadline=None)
def test_a_line_comes_within_reach_of_a_spot_where_scipy_finds_it(start, end, at, far):
    """Either side of the place that shapely finds nearest, the distance grows: one root each."""
    assume(math.dist(start[:2], end[:2]) > 0.05)
    line = LineString([start[:2], end[:2]])
    near = line.project(Point(at), normalized=True)

    def beyond(t):
        return line.interpolate(t, normalized=True).distance(Point(at)) - far

    assume(abs(beyond(near)) > 1e-3)
    found = cut_round((start, end), at, far)
    if beyond(near) > 0:
        assert found is None
        return
    worked = [side if beyond(side) <= 0 else brentq(beyond, side, near) for side in (0.0, 1.0)]
    assert found == pytest.approx(tuple(worked), abs=1e-6)


@given(
    low=points, size=some.tuples(*[some.floats(0.05, 3)] * 3), bearing=some.floats(0, 360),
    origin=points, at=spots,
)  # fmt: skip
@settings(max_examples=200, deadline=None)
def test_a_box_of_a_hull_turned_any_way_is_as_far_off_in_plan_as_shapely_says(
    low, size, bearing, origin, at
):
    """In plan x is to the right of one who looks north: turned by its bearing clockwise."""
    high = tuple(a + b for a, b in zip(low, size, strict=True))
    hull = HullFrame("A", 6.0, 2.5, 2.5, 0.01, origin, bearing, 50.0, 0.0, 0.0, 0.0)
    plan = translate(
        rotate(box(low[1], low[0], high[1], high[0]), -bearing, origin=(0, 0)), *origin[:2]
    )
    found = below(shape(Block(low, high), "A"), at, 0.0, {"A": hull})
    assert found.off_m == pytest.approx(plan.distance(Point(at)), abs=1e-9)
    assert (found.bottom_m, found.top_m) == pytest.approx((origin[2] + low[2], origin[2] + high[2]))
    assert plan_box(shape(Block(low, high), "A"), {"A": hull}) == pytest.approx(plan.bounds)


@given(
    start=points, end=points, at=spots, within=some.floats(0, 1), across=some.floats(0, 0.5),
    up=some.floats(0, 0.5), turn=some.floats(0, 2 * math.pi), far=some.floats(0, 1),
    tall=some.floats(-1, 1), part=some.floats(0, 1), slack=some.floats(0, 0.3),
)  # fmt: skip
@settings(max_examples=300, deadline=None)
def test_wherever_a_pipe_truly_lies_its_levels_in_the_column_are_within_what_it_may_reach(
    start, end, at, within, across, up, turn, far, tall, part, slack
):
    """A pipe moved by less than its tolerance, its whole line alike, and bowed by its slack."""
    long = math.dist(start, end)
    stray = Stray(long + slack, long, True)
    found = below(shape(Capsule(start, end, 0.08), "", across, up, stray), at, within, {})
    move = np.array([far * across * math.cos(turn), far * across * math.sin(turn), tall * up])
    bow = stray.abreast_m(part * long) * np.array([math.cos(turn), math.sin(turn), 0.0])
    true = np.array(start) + part * (np.array(end) - np.array(start)) + move + bow
    if math.dist(true[:2], at) <= within + 0.08:
        assert found.off_m <= found.tolerance_m + within + 1e-9
        assert found.lowest_m - 1e-9 <= true[2] - 0.08
        assert true[2] + 0.08 <= found.highest_m + 1e-9


@pytest.mark.parametrize("lean", [0.0, 1e-105, 1e-9])
@pytest.mark.parametrize("aside", [-1e-12, 0.0, 1e-12])
def test_a_line_that_grazes_a_post_runs_along_all_of_it(lean, aside):
    """A post from 2 to 7, radius 1, the line 1 from its axis: it touches it from 2 to 7."""
    found = plumb(((0.0, 0.0, 2.0), (0.0, lean, 7.0)), 1.0, (1.0 + aside, 0.0))
    assert found == pytest.approx((2.0, 7.0), abs=1e-4)


def test_a_pipe_that_falls_is_as_high_abreast_of_a_spot_as_there():
    """1 in 100 over 10 m: at 4 m from its start its axis is 0.04 lower; radius 0.08."""
    pipe = shape(Capsule((0.0, 0.0, 5.0), (10.0, 0.0, 4.9), 0.08), across=0.02, up=0.003)
    over = below(pipe, (4.0, 0.0), 0.0, {})
    assert over.off_m == 0 and over.along == pytest.approx(0.4)
    assert over.top_m == pytest.approx(4.96 + 0.08, abs=1e-5)
    assert over.bottom_m == pytest.approx(4.96 - 0.08, abs=1e-5)
    beside = below(pipe, (4.0, 0.5), 0.0, {})
    assert beside.off_m == pytest.approx(0.42)
    assert beside.top_m == pytest.approx(5.04)
    wide = below(pipe, (4.0, 0.0), 1.0, {})
    assert wide.highest_m == pytest.approx(5.0 - 0.01 * (4 - 1.10) + 0.08 + 0.003)


def test_a_pipe_without_a_level_has_none_here_either():
    found = below(shape(Capsule((0, 0, -1e5), (9, 0, -1e5), 0.1, 2e5)), (4.0, 0.0), 0.3, {})
    assert found.off_m == 0
    assert (found.top_m, found.bottom_m, found.highest_m, found.lowest_m) == (None,) * 4


def test_a_box_in_a_turned_hull_is_a_rectangle_in_plan():
    """Bearing 30°: along is (sin 30, cos 30), across to its right (cos 30, −sin 30)."""
    box = shape(Block((1.0, 0.5, 0.2), (2.0, 1.0, 0.9)), "A")
    centre = HULL.to_site(1.5, 0.75, 0.0)[:2]
    found = below(box, centre, 0.0, {"A": HULL})
    assert found.off_m == 0
    assert (found.bottom_m, found.top_m) == pytest.approx((50.2, 50.9))
    sin, cos = 0.5, math.sqrt(3) / 2
    out = (centre[0] + 0.9 * sin, centre[1] + 0.9 * cos)  # 0.9 along: 0.4 past its end
    assert below(box, out, 0.0, {"A": HULL}).off_m == pytest.approx(0.4)
    aside = (centre[0] + 0.55 * cos, centre[1] - 0.55 * sin)
    assert below(box, aside, 0.0, {"A": HULL}).off_m == pytest.approx(0.3)


def test_what_is_in_a_hull_carries_the_hulls_doubt_outside_it():
    """√(0.03² + 0.04²) = 0.05 across, √(0.005² + 0.012²) = 0.013 up."""
    doubtful = HullFrame("A", 6, 2, 2, 0.01, (0, 0, 0), 0.0, 0.0, 0.04, 0.012, 0.0)
    box = shape(Block((1, 1, 0), (2, 2, 1)), "A", across=0.03, up=0.005)
    found = below(box, (1.5, 1.5), 0.0, {"A": doubtful})
    assert found.tolerance_m == pytest.approx(0.05)
    assert found.tolerance_up_m == pytest.approx(0.013)
    assert plan_box(box, {"A": doubtful}) == pytest.approx((0.95, 0.95, 2.05, 2.05))


def test_the_roof_of_a_box_is_level_and_that_of_a_round_hull_falls_to_its_sides():
    """Round: inside radius 1.25, plate 10 mm; 0.756 off its axis √(1.26² − 0.756²) = 1.008."""
    box = HullFrame("A", 6, 2.5, 2.5, 0.01, (0, 0, 50), 0.0, 50.0, 0.0, 0.0)
    rounded = HullFrame("A", 6, 2.5, 2.5, 0.01, (0, 0, 50), 0.0, 50.0, 0.0, 0.0, round=True)
    off = (1.25 + 0.756, 3.0)
    assert roof_m(box, off) == pytest.approx(52.51)
    assert roof_m(rounded, off) == pytest.approx(51.25 + 1.008)
    assert roof_m(rounded, (1.25, 3.0)) == pytest.approx(52.51)
    assert roof_m(box, (2.52, 3.0)) is None
