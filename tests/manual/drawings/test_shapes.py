"""Shapes against the areas that school geometry gives."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manual.drawings import shapes


def area(ring):
    """The shoelace formula."""
    turned = [*ring[1:], ring[0]] if ring else []
    return abs(sum(a * d - b * c for (a, b), (c, d) in zip(ring, turned, strict=True))) / 2


def hatched_mm(data):
    strokes = re.findall(r"M(\S+) (\S+)L(\S+) (\S+?)(?=M|$)", data)
    return sum(math.dist((float(a), float(b)), (float(c), float(d))) for a, b, c, d in strokes)


@pytest.mark.parametrize("angle", [0.0, 45.0, -45.0])
def test_hatch_lines_times_their_pitch_are_the_area(angle):
    """A ring of 40 by 30 less a notch of 10 by 10 is 1,100 square millimetres."""
    ring = ((0, 0), (40, 0), (40, 30), (25, 30), (25, 20), (15, 20), (15, 30), (0, 30))
    data = shapes.hatch(ring, angle_deg=angle, pitch=0.37)
    assert hatched_mm(data) * 0.37 == pytest.approx(1100, rel=0.02)


def test_a_straight_band_is_a_rectangle_and_two_half_circles():
    """20 long, 3 half-width: 20 × 6 + π × 9 = 148.3; the ends are cut into eight straights."""
    assert area(shapes.band([(0, 0), (20, 0)], 3)) == pytest.approx(148.3, rel=0.01)


def test_a_band_round_a_square_corner_is_mitred():
    """Two arms of 10 by 2 share a square of 2 by 2: outer 11 × 2 + 9 × 2, ends π × 1 in all."""
    ring = shapes.band([(0, 0), (10, 0), (10, 10)], 1)
    assert area(ring) == pytest.approx(11 * 2 + 9 * 2 + math.pi, rel=0.01)


def test_half_a_circle_is_left_at_an_edge():
    """Radius 5, cut through its middle: 39.27, less what 48 straight sides lose."""
    kept = shapes.cut(shapes.circle(0, 0, 5), (0, -10, 10, 10))
    assert area(kept) == pytest.approx(39.27, rel=0.005)


PLACES = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


@given(st.lists(PLACES, min_size=1, max_size=6), st.floats(0.1, 9))
def test_what_is_cut_to_a_window_stays_in_it(points, half):
    window = (-10.0, -5.0, 12.0, 20.0)
    for x, y in shapes.cut(shapes.band(points, half), window):
        assert -10.001 <= x <= 12.001 and -5.001 <= y <= 20.001
    for x, y in shapes.cut_line(points, window):
        assert -10.001 <= x <= 12.001 and -5.001 <= y <= 20.001
