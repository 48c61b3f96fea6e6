"""How much of a pipe lies in frost: straight lines between stations, by hand and by sampling."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.frost_zone import shallow


def spans(profile: list[tuple[float, float]], depth: float) -> list[tuple[float, float]]:
    return [(one.from_m, one.to_m) for one in shallow(profile, depth)]


def test_a_pipe_that_comes_up_to_a_bank_is_in_frost_from_where_cover_runs_short() -> None:
    """Cover falls 2.000 in 10 m, so 1.10 is reached after 2.246 − 1.10 = 1.146: 5.73 m."""
    [one] = shallow([(0, 2.246), (10, 0.246)], 1.10)
    assert (one.from_m, one.to_m) == pytest.approx((5.73, 10))
    assert one.length_m == pytest.approx(4.27)


def test_a_pipe_that_goes_down_is_in_frost_up_to_there() -> None:
    """From 0.5 to 1.5 in 4 m: 1.0 after 2 m."""
    assert spans([(3, 0.5), (7, 1.5)], 1.0) == [(3, 5)]


def test_a_dip_in_the_ground_is_a_length_of_its_own() -> None:
    """2 to 0 in 2 m and up again: 1 at 1 and at 3."""
    assert spans([(0, 2), (2, 0), (4, 2)], 1.0) == [(1, 3)]


def test_two_dips_are_two_lengths() -> None:
    found = spans([(0, 0.5), (1, 1.5), (2, 1.5), (3, 0.5)], 1.0)
    assert found == [(0, 0.5), (2.5, 3)]


def test_cover_just_at_the_depth_is_not_short_of_it() -> None:
    assert spans([(0, 1.0), (5, 1.0), (9, 1.2)], 1.0) == []


def test_a_ridge_just_at_the_depth_parts_nothing() -> None:
    assert spans([(0, 0.5), (1, 1.0), (2, 0.5)], 1.0) == [(0, 2)]


@pytest.mark.parametrize(
    ("profile", "depth"),
    [
        ([(0, 1)], 1),
        ([(0, 1), (0, 2)], 1),
        ([(1, 1), (0, 2)], 1),
        ([(0, math.nan), (1, 2)], 1),
        ([(0, 1), (math.inf, 2)], 1),
        ([(0, 1), (1, 2)], -0.1),
        ([(0, 1), (1, 2)], math.nan),
        ([(0, 1), (1, 2)], math.inf),
    ],
)
def test_what_is_no_profile_is_refused(profile: list[tuple[float, float]], depth: float) -> None:
    with pytest.raises(ValueError, match=r"station|finite|increase|nothing"):
        shallow(profile, depth)


def test_where_nothing_freezes_no_length_is_in_frost() -> None:
    assert shallow([(0, 0), (1, 2)], 0) == ()


covers = st.lists(st.integers(0, 40).map(lambda n: n / 10), min_size=2, max_size=6)


@given(covers, st.integers(0, 40).map(lambda n: n / 10 + 0.05))
def test_a_place_is_told_just_where_the_straight_cover_is_less(
    over: list[float], depth: float
) -> None:
    """Against numpy.interp at points between the stations."""
    at = [1.5 * place for place in range(len(over))]
    found = shallow(list(zip(at, over, strict=True)), depth)
    for place in np.linspace(0.01, at[-1] - 0.01, 97):
        told = any(one.from_m < place < one.to_m for one in found)
        cover = float(np.interp(place, at, over))
        assert told == (cover < depth) or math.isclose(cover, depth, abs_tol=1e-9)
