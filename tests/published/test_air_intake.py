"""An intake's distance from bad air, against the code and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_cautions import LOCAL_CODE
from record.calc.air_intake import BELOW_M, LEAST_M, intake_apart

FOOT = 0.3048
INTAKE = (27.0, 2.0, 50.45)

coordinates = st.floats(-100, 100)


def test_ten_feet_and_three_feet():
    """International Mechanical Code 401.4, items 2 and 3, as quoted from 2009: 10 ft horizontally,
    3 ft below."""
    assert pytest.approx((10 * FOOT, 3 * FOOT)) == (LEAST_M, BELOW_M)


def test_a_drive_moved_to_three_metres_is_under_ten_feet():
    """By hand: 30.00 − 27.00 = 3.00, 48 mm under 3.048."""
    found = intake_apart(INTAKE, (30.0, 2.0, 49.45))
    assert found.horizontal_m == pytest.approx(3.0)
    assert found.under
    assert found.short_m == pytest.approx(0.048)
    assert found.straight_m == pytest.approx(math.sqrt(10))
    assert found.intake_below_m == pytest.approx(-1)
    assert not found.low_enough
    assert (found.least_m, found.caution) == (LEAST_M, LOCAL_CODE)


def test_the_discharge_of_the_demo_site_is_far_off():
    """Worked on its plan: terminals 23.78 apart, at (27.00, 2.00) and (8.00, 16.30), by hand
    √(19² + 14.3²)."""
    found = intake_apart(INTAKE, (8.0, 16.3, 50.85))
    assert found.horizontal_m == pytest.approx(23.78, abs=0.005)
    assert not found.under
    assert found.short_m == 0
    assert found.intake_below_m == pytest.approx(0.40)


@pytest.mark.parametrize(("east", "under"), [(3.048, False), (3.0479, True), (3.0481, False)])
def test_just_ten_feet_is_not_under(east, under):
    """ "Not less than 10 ft", also where the coordinates are large and the sum is off in its last
    digit."""
    assert intake_apart((0, 0, 0), (east, 0, 0)).under is under
    assert intake_apart((500.1, 0, 0), (500.1 + east, 0, 0)).under is under


def test_height_does_not_help_what_is_counted_in_plan():
    """The code counts horizontally: 9 m straight up is no distance."""
    found = intake_apart((0, 0, 9), (0, 0, 0))
    assert (found.horizontal_m, found.straight_m, found.under) == (0, 9, True)


@pytest.mark.parametrize(("below", "enough"), [(0.9144, True), (0.9143, False), (2, True)])
def test_three_feet_below_the_source(below, enough):
    assert intake_apart((0, 0, 5 - below), (1, 0, 5)).low_enough is enough


def test_another_least_distance_may_hold():
    """By hand: 15 ft of one city's own code is 4.572 m."""
    found = intake_apart((0, 0, 0), (4, 0, 0), 15 * FOOT)
    assert (found.under, found.least_m) == (True, 15 * FOOT)
    assert found.short_m == pytest.approx(0.572)


@given(coordinates, coordinates, coordinates, coordinates)
def test_it_is_as_far_there_as_back(x, y, u, v):
    assert (
        intake_apart((x, y, 1), (u, v, 1)).horizontal_m
        == intake_apart((u, v, 1), (x, y, 1)).horizontal_m
    )


@given(coordinates, coordinates, st.floats(0.1, 10))
def test_the_unit_of_length_does_not_matter(x, y, unit):
    here = intake_apart((0, 0, 0), (x, y, 1), 5)
    there = intake_apart((0, 0, 0), (x * unit, y * unit, unit), 5 * unit)
    assert there.horizontal_m == pytest.approx(here.horizontal_m * unit)
    if abs(here.horizontal_m - 5) > 1e-6:
        assert there.under == here.under


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: intake_apart((math.nan, 0, 0), (0, 0, 0)), "is not three numbers"),
        (lambda: intake_apart((0, 0, 0), (0, 0, math.inf)), "is not three numbers"),
        (lambda: intake_apart((0, 0, 0), (0, 0, 0), 0), "a least distance of 0 m is not above 0"),
        (lambda: intake_apart((0, 0, 0), (0, 0, 0), math.inf), "a least distance of inf m"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()
