"""The seal of a trap against the pressure in a room, by hand and by the unit's definition."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_cautions import DRY_TRAP
from record.calc.air_trap_seal import seal_holds_pa, trap_seal


def test_a_relief_valves_sixty_pascals_stand_against_six_millimetres():
    """By hand: 60/9.81 = 6.116 mm; with 25 mm over, 31.1."""
    found = trap_seal(60, 25)
    assert found.column_mm == pytest.approx(60 / 9.81, rel=5e-4)
    assert found.needed_mm == pytest.approx(31.12, abs=0.01)
    assert (found.pressure_pa, found.margin_mm, found.caution) == (60, 25, DRY_TRAP)


def test_an_inch_of_water_is_an_inch_of_seal():
    """1 in.wg is 249.089 Pa at 4 °C, by definition of the unit a column of 25.4 mm."""
    assert trap_seal(249.089, 0).needed_mm == pytest.approx(25.4, rel=1e-5)
    assert seal_holds_pa(25.4) == pytest.approx(249.089, rel=1e-5)


@given(st.floats(0, 4900), st.floats(0, 100))
def test_a_seal_and_what_it_holds_are_each_others_way_back(pascal, margin):
    found = trap_seal(pascal, margin)
    assert seal_holds_pa(found.column_mm) == pytest.approx(pascal)
    assert found.needed_mm == pytest.approx(found.column_mm + margin)


def test_the_ends_of_every_range_are_in_it():
    assert trap_seal(0, 0).needed_mm == 0
    assert trap_seal(5000, 0).needed_mm == pytest.approx(509.858, abs=1e-3)
    assert seal_holds_pa(0) == 0
    assert seal_holds_pa(5000 / 9.80665) == 5000


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: trap_seal(-1, 0), "a pressure of -1 Pa is outside 0 to 5000 Pa"),
        (lambda: trap_seal(5001, 0), "a pressure of 5001 Pa is outside 0 to 5000 Pa"),
        (lambda: trap_seal(1, -1), "a margin of -1 mm is negative"),
        (lambda: trap_seal(1, math.inf), "a margin of inf mm"),
        (lambda: seal_holds_pa(-1), "a seal of -1 mm holds"),
        (lambda: seal_holds_pa(510), "a seal of 510 mm holds 5001.39 Pa, outside 0 to 5000 Pa"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()
