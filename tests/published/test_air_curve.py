"""Reading between written points, and the one root of what only rises: by hand and by reason."""

import math

import pytest

from record.calc.air_curve import between, rising_root


def test_between_points_lies_a_straight_line_and_beyond_them_nothing():
    """By hand: a quarter of the way down from 80 to 40."""
    points = [(1.0, 100.0), (3.0, 80.0), (7.0, 40.0)]
    assert [between(points, at) for at in (1, 2, 3, 4, 7)] == [100, 90, 80, 70, 40]
    for outside in (0.99, 7.01, math.nan):
        with pytest.raises(ValueError, match="outside 1 to 7, where the points end"):
            between(points, outside)


def test_points_must_rise_and_there_must_be_some():
    assert between([(2.0, 5.0)], 2.0) == 5.0
    with pytest.raises(ValueError, match="no points"):
        between([], 1)
    for second in (1.0, 0.5):
        with pytest.raises(ValueError, match="do not rise"):
            between([(1.0, 1.0), (second, 2.0)], 1.0)


def test_a_root_is_found_to_the_last_digit_and_across_a_jump():
    assert rising_root(lambda x: x**3 - 27, 0, 10) == pytest.approx(3, rel=1e-14)
    assert rising_root(lambda x: -1 if x < 4 else 1, 0, 10) == pytest.approx(4, rel=1e-14)
    assert rising_root(lambda x: x, 0, 10) == 0
    assert rising_root(lambda x: max(x - 4, 0), 0, 10) == 0  # where it first comes up to zero
    assert rising_root(lambda x: min(x - 4, 0), 0, 10) == pytest.approx(4, rel=1e-14)
    assert rising_root(lambda x: x - 10, 0, 10) == pytest.approx(10, rel=1e-14)
    for low, high in ((1, 2), (-2, -1)):
        with pytest.raises(ValueError, match=f"no answer lies between {low} and {high}"):
            rising_root(lambda x: x, low, high)
