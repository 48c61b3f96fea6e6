"""How far shapes are apart: plain geometry, worked on paper in each test, and by shapely."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, Point, box

from record.place.apart import Footprint, apart_m, footprint, indoors, levels_apart_m
from tests.record.building import view_of
from tests.record.checks.ground import TRENCH, sheets


def foot(*corners, rim=0.0, low=0.0, high=1.0):
    return Footprint(corners=corners, rim_m=rim, low_m=low, high_m=high, across_m=0.0, up_m=0.0)


@pytest.mark.parametrize(
    ("one", "other", "far"),
    [
        (foot((0, 0), rim=0.1), foot((3, 4), rim=0.2), 4.7),  # 3, 4, 5 less both rims
        (foot((0, 0), (10, 0)), foot((4, 2), (4, 9)), 2.0),  # end over the middle
        (foot((0, 0), (10, 0), rim=0.3), foot((4, -2), (4, 2), rim=0.1), -0.4),  # they cross
        (foot((0, 0), (2, 0), (2, 2), (0, 2)), foot((1, 1)), 0.0),  # within
        (foot((0, 0), (2, 0), (2, 2), (0, 2)), foot((5, 6)), 5.0),  # corner, 3, 4, 5
        (foot((0, 0), (1, 1)), foot((1, 0), (2, 1)), math.sqrt(0.5)),  # two slanting, side by side
    ],
)
def test_outlines_are_apart_by_pythagoras_and_either_way_round(one, other, far):
    assert apart_m(one, other) == pytest.approx(far)
    assert apart_m(other, one) == pytest.approx(far)


metres = some.integers(-500, 500).map(lambda n: n / 100)
spots = some.tuples(metres, metres)
sides = some.integers(5, 300).map(lambda n: n / 100)


@some.composite
def seen_from_above(draw):
    """A post, a pipe or a box turned any way, and the same as shapely holds it."""
    rim = draw(some.sampled_from([0.0, 0.08, 0.5]))
    match draw(some.sampled_from(["post", "pipe", "box"])):
        case "post":
            at = draw(spots)
            return foot(at, rim=rim), Point(at)
        case "pipe":
            ends = draw(spots), draw(spots)
            if ends[0] == ends[1]:
                return foot(ends[0], rim=rim), Point(ends[0])
            return foot(*ends, rim=rim), LineString(ends)
    turned = rotate(box(0, 0, draw(sides), draw(sides)), draw(some.floats(0, 360)), origin=(0, 0))
    plan = translate(turned, *draw(spots))
    return foot(*plan.exterior.coords[:-1], rim=rim), plan


@given(one=seen_from_above(), other=seen_from_above())
@settings(max_examples=400, deadline=None)
def test_outlines_turned_any_way_are_as_far_apart_as_shapely_says(one, other):
    """Shapely's distance between the two without their rims, 0 where they meet; less both rims."""
    (ours, plan), (theirs, other_plan) = one, other
    far = plan.distance(other_plan) - ours.rim_m - theirs.rim_m
    assert apart_m(ours, theirs) == pytest.approx(far, abs=1e-9)
    assert apart_m(theirs, ours) == pytest.approx(far, abs=1e-9)


def test_levels_are_apart_by_the_gap_and_negative_by_what_they_share():
    assert levels_apart_m(foot((0, 0), low=5, high=6), foot((0, 0), low=0, high=2)) == 3
    assert levels_apart_m(foot((0, 0), low=0, high=2), foot((0, 0), low=1, high=6)) == -1


def test_a_pipe_keeps_its_levels_and_a_hull_its_bearing():
    """Hull A lies at bearing 90°, so its length runs along x: from 12.50 to 21.50, plates more.

    Its width goes to the right of one who looks east, which is south: y from 1.00 to -1.70.
    """
    view = view_of(*sheets(TRENCH))
    hull = next(shape for shape in view.shapes if shape.thing.tag == "A")
    x0, y0, x1, y1 = (round(value, 3) for value in footprint(hull, view.hulls).box())
    by = footprint(hull, view.hulls).across_m
    assert (x0 + by, x1 - by) == (pytest.approx(12.494, abs=1e-3), pytest.approx(21.506, abs=1e-3))
    assert (y0 + by, y1 - by) == (pytest.approx(-1.706, abs=1e-3), pytest.approx(1.006, abs=1e-3))
    pipe = [shape for shape in view.shapes if shape.thing.tag == "AIR-IN"]
    # crown 98.400 + 0.152/2 + 0.160/2 = 98.556, and insulation that nobody wrote of round it
    assert footprint(pipe[0], view.hulls).high_m >= 98.556


def test_a_pipe_in_the_trench_is_not_indoors_and_one_in_the_room_is():
    room = """
## run IN-1

- carries: spare
- size: 25 mm
- outside diameter: 32 mm
- inside diameter: 26 mm

| station | hull | from near [m] | from left [m] | invert [m] | how |
|---|---|---|---|---|---|
| 1 one | A | 2.00 | 0.50 | 97.000 | tape |
| 2 two | A | 5.00 | 0.50 | 97.000 | tape |
"""
    view = view_of(*sheets(TRENCH + room))
    told = {shape.thing.tag: indoors(shape, view.hulls) for shape in view.shapes}
    assert (told["IN-1"], told["AIR-IN"]) == (True, False)
