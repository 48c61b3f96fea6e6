"""Scales are ones a scale rule carries, and everything fits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manual.drawings import scale


@pytest.mark.parametrize(
    ("span_m", "room_mm", "expected"),
    [
        (12.9, 130, 100),  # 129 mm at 1:100; at 1:75 it would be 172
        (10.0, 130, 100),  # 133 mm at 1:75 is 3 mm too much
        (1.2, 68, 20),
        (900, 130, 10000),
    ],
)
def test_the_scale_is_the_largest_round_one_that_fits(span_m, room_mm, expected):
    assert scale.round_scale(span_m, room_mm) == expected


@given(st.floats(0.01, 1e5), st.floats(10, 200))
def test_what_is_drawn_at_a_round_scale_fits(span_m, room_mm):
    assert span_m * 1000 / scale.round_scale(span_m, room_mm) <= room_mm * 1.0000001


def test_heights_are_stretched_as_far_as_there_is_room():
    """2.2 m at 1:100 is 22 mm: five times is 110 mm, ten times is 220 mm."""
    assert scale.exaggeration(2.2, 100, 110) == 5
    assert scale.exaggeration(2.2, 100, 109) == 2
    assert scale.exaggeration(22.0, 100, 100) == 1
