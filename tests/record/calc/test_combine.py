"""Tolerances that add up, and what is left of them across a face."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.combine import across, lever_arm_m, root_sum_square

tolerances = st.floats(0, 10)
angles = st.floats(0, 2 * math.pi)


def test_three_tolerances_add_by_their_squares():
    """9 + 16 + 144 = 169 = 13²."""
    assert root_sum_square(3, 4, 12) == pytest.approx(13)


def test_a_slanted_face_sees_some_of_both():
    """n = (0.48, 0.64, 0.6): h²(0.2304 + 0.4096) + v² × 0.36 with h = 50, v = 100 mm is
    1600 + 3600 = 5200 mm², whose root is 72.111 mm."""
    assert across((0.48, 0.64, 0.6), 0.050, 0.100) == pytest.approx(0.072111, abs=1e-6)


def test_half_a_degree_at_nine_metres_is_79_mm():
    """0.5 × 3.14159 / 180 × 9 = 0.07854."""
    assert lever_arm_m(0.5, 9) == pytest.approx(0.07854, abs=1e-5)


@given(angles, angles, tolerances, tolerances)
def test_a_face_never_sees_more_than_the_worse_of_the_two(turn, tilt, horizontal, vertical):
    normal = (math.cos(turn) * math.cos(tilt), math.sin(turn) * math.cos(tilt), math.sin(tilt))
    seen = across(normal, horizontal, vertical)
    assert seen <= max(horizontal, vertical) + 1e-9
    assert seen >= min(horizontal, vertical) - 1e-9


@given(st.floats(0, 180), st.floats(0, 100))
def test_the_arc_is_no_shorter_than_the_way_straight_across(angle, distance):
    chord = 2 * distance * math.sin(math.radians(angle) / 2)
    assert lever_arm_m(angle, distance) >= chord - 1e-9


@pytest.mark.parametrize(
    ("work", "said"),
    [
        (lambda: root_sum_square(), "no tolerance"),
        (lambda: root_sum_square(0.1, -0.2), "-0.2"),
        (lambda: root_sum_square(math.nan), "nan"),
        (lambda: across((1, 1, 0), 0.1, 0.1), "1.414"),
        (lambda: across((math.nan, 0, 0), 0.1, 0.1), "nan"),
        (lambda: across((1, 0, 0), -0.1, 0.1), "horizontal"),
        (lambda: across((1, 0, 0), 0.1, -0.1), "vertical"),
        (lambda: lever_arm_m(-1, 9), "-1"),
        (lambda: lever_arm_m(181, 9), "181"),
        (lambda: lever_arm_m(1, -9), "-9"),
        (lambda: lever_arm_m(1, math.inf), "inf"),
    ],
)
def test_what_is_no_tolerance_is_refused(work, said):
    with pytest.raises(ValueError, match=said):
        work()
