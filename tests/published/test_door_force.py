"""The pull that opens a door against air pressure, against a published table and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_cautions import CODE_OFFICIAL
from record.calc.door_force import SET_IN_MOTION_N, Door, door_force, door_pressure_pa

FOOT, INCH = 0.3048, 0.0254
LBF = 4.4482216
IN_WG = 249.089

DEMO = Door(width_m=0.80, height_m=1.90, handle_m=0.07)
widths = st.floats(0.5, 1.5)
pressures = st.floats(1, 500)


def seven_foot(width_in):
    return Door(width_m=width_in * INCH, height_m=7 * FOOT, handle_m=3 * INCH)


@pytest.mark.parametrize(
    ("closer_lbf", "in_wg"),
    [
        (6, (0.45, 0.40, 0.37, 0.34, 0.31)),
        (8, (0.41, 0.37, 0.34, 0.31, 0.28)),
        (10, (0.37, 0.34, 0.30, 0.28, 0.26)),
        (12, (0.34, 0.30, 0.27, 0.25, 0.23)),
        (14, (0.30, 0.27, 0.24, 0.22, 0.21)),
    ],
)
def test_a_published_table_of_pressures_at_thirty_pounds(closer_lbf, in_wg):
    """A smoke-control manual's table 1-2: doors of 32 to 48 in, 7 ft high, knob 3 in from the edge,
    opened by 30 lbf. To its own rounding, and one step more for how it was rounded."""
    found = [
        door_pressure_pa(seven_foot(width), 30 * LBF, closer_lbf * LBF) / IN_WG
        for width in (32, 36, 40, 44, 48)
    ]
    assert found == pytest.approx(in_wg, abs=0.0101)


def test_the_code_has_five_point_two_for_pounds_and_feet():
    """IBC 909.6.2 equation 9-1: K = 5.2 in pounds, feet and inches of water, 1.0 in SI. By hand, 3
    × 21 × 0.35 × 5.2/(2 × 2.75) = 20.85 lb, and 6 for the closer. 0.2 %."""
    found = door_force(seven_foot(36), 0.35 * IN_WG, 6 * LBF)
    assert found.pressure_n / LBF == pytest.approx(20.85, rel=2e-3)
    assert found.total_n / LBF == pytest.approx(26.85, rel=2e-3)
    assert found.closer_n == 6 * LBF


def test_the_demo_sites_door():
    """By hand: 0.80 × 1.52 × 60/(2 × 0.73) = 49.97 N, about 50 at 60 Pa, closer excluded."""
    found = door_force(DEMO, 60)
    assert found.total_n == pytest.approx(50, abs=0.1)
    assert found.pressure_n == found.total_n == pytest.approx(49.973, abs=1e-3)
    assert found.closer_n is None
    assert found.area_m2 == pytest.approx(1.52)
    assert found.caution == CODE_OFFICIAL


def test_thirty_pounds_sets_a_door_in_motion():
    """IBC 1010.1.3: 30 lb, printed as 133 N."""
    assert pytest.approx(30 * LBF, rel=1e-6) == SET_IN_MOTION_N
    assert pytest.approx(133, abs=0.5) == SET_IN_MOTION_N


def test_a_handle_at_the_very_edge_takes_half_of_the_whole_push():
    """Reasoned, moments about the hinge: Δp A acts half way, the hand at the edge."""
    edge = Door(width_m=0.9, height_m=2.0, handle_m=0)
    assert door_force(edge, 100).total_n == pytest.approx(0.9 * 2.0 * 100 / 2)
    middle = Door(width_m=0.9, height_m=2.0, handle_m=0.45)
    assert door_force(middle, 100).total_n == pytest.approx(0.9 * 2.0 * 100)


def test_no_pressure_leaves_the_closer():
    assert door_force(DEMO, 0, 15.0).total_n == 15
    assert door_force(DEMO, 0).total_n == 0


@given(widths, pressures, st.floats(0, 50))
def test_force_and_pressure_are_each_others_way_back(width, pascal, closer):
    door = Door(width_m=width, height_m=2, handle_m=0.07)
    force = door_force(door, pascal, closer).total_n
    assert door_pressure_pa(door, force, closer) == pytest.approx(pascal)


@given(widths, pressures, st.floats(1.01, 3))
def test_more_pressure_a_wider_or_a_taller_door_pull_harder(width, pascal, more):
    def pull(width_m, height_m, pascal):
        return door_force(Door(width_m=width_m, height_m=height_m, handle_m=0.07), pascal).total_n

    base = pull(width, 2, pascal)
    assert pull(width, 2, pascal * more) == pytest.approx(base * more)
    assert pull(width, 2 * more, pascal) == pytest.approx(base * more)
    assert pull(width * more, 2, pascal) > base


@given(widths, pressures, st.floats(0.1, 10))
def test_the_unit_of_length_does_not_matter(width, pascal, unit):
    """Reasoned: in units of `unit` metres all lengths are 1/unit, pressure in newtons on such a
    square unit² as much; the newtons stay."""
    door = Door(width_m=width, height_m=2, handle_m=0.07)
    other = Door(width_m=width / unit, height_m=2 / unit, handle_m=0.07 / unit)
    newtons = door.newtons_a_pascal * pascal
    assert other.newtons_a_pascal * pascal * unit**2 == pytest.approx(newtons)


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: Door(width_m=0, height_m=2, handle_m=0), "a door's width of 0 m is not above 0"),
        (lambda: Door(width_m=1, height_m=-1, handle_m=0), "a door's height of -1 m is not"),
        (lambda: Door(width_m=1, height_m=math.inf, handle_m=0), "a door's height of inf m"),
        (lambda: Door(width_m=1, height_m=2, handle_m=1), "handle 1 m from .* a door 1 m wide"),
        (lambda: Door(width_m=1, height_m=2, handle_m=-0.1), "handle -0.1 m from the latch"),
        (lambda: door_force(DEMO, -1), "a pressure of -1 Pa is outside 0 to 5000"),
        (lambda: door_force(DEMO, 5001), "a pressure of 5001 Pa is outside 0 to 5000"),
        (lambda: door_force(DEMO, 1, -1), "a closer of -1 N is negative"),
        (lambda: door_force(DEMO, 1, math.inf), "a closer of inf N"),
        (lambda: door_pressure_pa(DEMO, 10, 11), "a closer of 11 N is not within a force of 10 N"),
        (lambda: door_pressure_pa(DEMO, 10, -1), "a closer of -1 N is not within"),
        (lambda: door_pressure_pa(DEMO, math.inf), "not within a force of inf N"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    assert door_force(DEMO, 5000, 0).total_n == pytest.approx(5000 * 0.83288, rel=1e-4)
    assert door_pressure_pa(DEMO, 10, 10) == 0
    assert door_pressure_pa(DEMO, 0) == 0
