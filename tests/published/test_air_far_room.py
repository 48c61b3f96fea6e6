"""The pressure a supply holds in two rooms in a row, against a published table and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_cautions import MEASURED_TRIAL
from record.calc.air_far_room import DISCHARGE, Leak, Relief, leak_m3_s, relief_m3_s, two_rooms

TIGHT = Leak(flow_m3_s=0, at_pa=60)
TESTED = Leak(flow_m3_s=21 / 3600, at_pa=60)  # the demo site's tightness test
VALVE = Relief(opens_pa=60, flow_m3_s=0.03, over_pa=20)


def rooms(supply, *, near=TIGHT, far=TIGHT, relief=VALVE, opening_m2=0.05, density=1.2):
    return two_rooms(
        supply,
        near_leak=near,
        far_leak=far,
        relief=relief,
        opening_m2=opening_m2,
        density_kg_m3=density,
    )


@pytest.mark.parametrize(
    ("pascal", "percent"), [(50, 0.0), (55, 1.0), (60, 1.8), (65, 2.7), (70, 3.4)]
)
def test_a_wrong_exponent_errs_by_what_a_test_makers_table_says(pascal, percent):
    """A blower-door manual's table (Retrotec DM-2): flow at 50 Pa from a test at other pressures,
    where the exponent is a tenth off the one assumed; last digit ± 1."""
    true = leak_m3_s(Leak(flow_m3_s=1, at_pa=pascal, exponent=0.55), 50)
    assumed = leak_m3_s(Leak(flow_m3_s=1, at_pa=pascal, exponent=0.65), 50)
    assert (true / assumed - 1) * 100 == pytest.approx(percent, abs=0.11)


def test_a_hole_doubles_with_four_times_the_pressure_and_a_crack_with_twice():
    """Reasoned: n 0.5 is Bernoulli's, n 1 Poiseuille's."""
    hole, crack = (Leak(flow_m3_s=0.02, at_pa=100, exponent=n) for n in (0.5, 1))
    assert leak_m3_s(hole, 400) == pytest.approx(0.04)
    assert leak_m3_s(crack, 200) == pytest.approx(0.04)
    assert leak_m3_s(Leak(flow_m3_s=0.02, at_pa=100), 100) == pytest.approx(0.02)
    assert leak_m3_s(hole, 0) == 0


def test_the_usual_exponent_is_that_of_houses():
    """0.65, as assumed in tightness testing (ASTM E779, from memory; the manual above)."""
    assert Leak(flow_m3_s=1, at_pa=50).exponent == 0.65
    assert DISCHARGE == 0.6  # a sharp orifice, textbook


def test_a_relief_valve_is_shut_up_to_its_opening():
    """By hand: a quarter of 20 Pa over 60 passes half of 0.03."""
    assert [relief_m3_s(VALVE, pascal) for pascal in (0, 59, 60)] == [0, 0, 0]
    assert relief_m3_s(VALVE, 65) == pytest.approx(0.015)
    assert relief_m3_s(VALVE, 80) == pytest.approx(0.03)


def test_all_air_by_the_valve():
    """By hand: 60 + 20 at the valve; in the opening 0.6 × (0.03/(0.6 × 0.05))² = 0.6 Pa."""
    found = rooms(0.03)
    assert (found.far_pa, found.between_pa) == pytest.approx((80, 0.6))
    assert found.near_pa == pytest.approx(80.6)
    assert (found.valve_m3_s, found.through_m3_s) == pytest.approx((0.03, 0.03))
    assert (found.near_leak_m3_s, found.far_leak_m3_s) == (0, 0)
    assert found.valve_open
    assert found.caution == MEASURED_TRIAL


def test_a_supply_as_tested_holds_the_pressure_of_the_test():
    """By hand: 21 m³/h leak at 60 Pa; so much and no more coming in holds 60 Pa, valve shut."""
    found = rooms(21 / 3600, far=TESTED, opening_m2=10)
    assert found.far_pa == pytest.approx(60, rel=1e-4)
    assert not found.valve_open
    assert found.far_leak_m3_s == pytest.approx(21 / 3600)


def test_the_demo_sites_supply_opens_its_valve():
    """By hand: at 60 Pa the leak takes 21 of 100 m³/h, so the valve must pass the most of the other
    79 and stands open; leak and valve together pass what comes in."""
    found = rooms(100 / 3600, far=TESTED)
    assert found.valve_open
    assert 60 < found.far_pa < 80
    assert found.far_leak_m3_s + found.valve_m3_s == pytest.approx(100 / 3600)
    assert found.far_leak_m3_s == pytest.approx(21 / 3600 * (found.far_pa / 60) ** 0.65)


def test_a_leaky_near_room_starves_the_far_one():
    """By hand, all by squares: both holes pass 0.01 at 100 Pa, the opening 0.01 at 100 Pa too, as
    0.6 × (0.01/(0.6 A))² = 100 wants A = 0.01/0.6 × √(0.6/100). With far = p, through = 0.01
    √(p/100), near = 2p and its leak √2 times; 0.01 (1 + √2) comes in at p = 100."""
    hole = Leak(flow_m3_s=0.01, at_pa=100, exponent=0.5)
    area = 0.01 / 0.6 * math.sqrt(0.6 / 100)
    found = rooms(0.01 * (1 + math.sqrt(2)), near=hole, far=hole, relief=None, opening_m2=area)
    assert (found.far_pa, found.near_pa, found.between_pa) == pytest.approx((100, 200, 100))
    assert found.near_leak_m3_s == pytest.approx(0.01 * math.sqrt(2))
    assert found.far_leak_m3_s == pytest.approx(0.01)
    assert (found.valve_m3_s, found.valve_open) == (0, False)


def test_thin_air_and_a_wide_opening_lose_less_between_rooms():
    """By hand: half the density, half the 0.6 Pa; twice the area, a quarter."""
    assert rooms(0.03, density=0.6).between_pa == pytest.approx(0.3)
    assert rooms(0.03, opening_m2=0.1).between_pa == pytest.approx(0.15)


def test_no_supply_holds_no_pressure():
    found = rooms(0.0, far=TESTED, near=TESTED)
    assert (found.near_pa, found.far_pa, found.valve_open) == (0, 0, False)
    tight = rooms(0.0, relief=None)
    assert (tight.near_pa, tight.far_pa) == (0, 0)


leaks = st.builds(
    lambda flow, n: Leak(flow_m3_s=flow, at_pa=60, exponent=n),
    st.floats(0.001, 0.02),
    st.floats(0.5, 1),
)


@given(leaks, leaks, st.floats(0.001, 0.05), st.floats(0.02, 1))
def test_what_comes_in_goes_out(near, far, supply, opening):
    found = rooms(supply, near=near, far=far, opening_m2=opening)
    out = found.near_leak_m3_s + found.far_leak_m3_s + found.valve_m3_s
    assert out == pytest.approx(supply)
    assert found.near_pa == pytest.approx(found.far_pa + found.between_pa)
    assert found.near_pa >= found.far_pa >= 0


@given(leaks, leaks, st.floats(0.001, 0.03), st.floats(1.01, 1.5))
def test_more_supply_never_lowers_the_far_room_and_more_leak_never_raises_it(near, far, q, more):
    base = rooms(q, near=near, far=far).far_pa
    assert rooms(q * more, near=near, far=far).far_pa >= base
    worse = Leak(flow_m3_s=far.flow_m3_s * more, at_pa=60, exponent=far.exponent)
    assert rooms(q, near=near, far=worse).far_pa <= base * (1 + 1e-9)


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: rooms(-1), "a supply of -1 m³/s is negative"),
        (lambda: rooms(math.inf), "a supply of inf m³/s"),
        (lambda: rooms(0.03, opening_m2=0), "an opening of 0 m² is not above 0"),
        (lambda: rooms(0.03, density=0), "a density of 0 kg/m³ is not above 0"),
        (lambda: rooms(0.03, relief=None), "with 0.03 m³/s coming in .* more than 1000 Pa"),
        (lambda: rooms(0.03, opening_m2=0.001), "a room would come to more than 1000 Pa"),
        (lambda: Leak(flow_m3_s=-1, at_pa=60), "a leak of -1 m³/s is negative"),
        (lambda: Leak(flow_m3_s=math.inf, at_pa=60), "a leak of inf m³/s is negative or not"),
        (lambda: Relief(opens_pa=1, flow_m3_s=math.inf, over_pa=1), "a valve's flow of inf"),
        (lambda: rooms(0.03, opening_m2=math.inf), "an opening of inf m² is not above 0"),
        (lambda: Leak(flow_m3_s=1, at_pa=0), "a test at 0 Pa is outside 0 to 1000"),
        (lambda: Leak(flow_m3_s=1, at_pa=1001), "a test at 1001 Pa is outside"),
        (lambda: Leak(flow_m3_s=1, at_pa=60, exponent=0.49), "exponent of 0.49 is outside 0.5 to"),
        (lambda: Leak(flow_m3_s=1, at_pa=60, exponent=1.01), "exponent of 1.01 is outside"),
        (lambda: Relief(opens_pa=-1, flow_m3_s=1, over_pa=1), "opens at -1 Pa is outside 0 to 10"),
        (lambda: Relief(opens_pa=1000, flow_m3_s=1, over_pa=1), "opens at 1000 Pa is outside"),
        (lambda: Relief(opens_pa=1, flow_m3_s=0, over_pa=1), "a valve's flow of 0 m³/s is not"),
        (lambda: Relief(opens_pa=1, flow_m3_s=1, over_pa=0), "a valve's excess of 0 Pa is not"),
        (lambda: leak_m3_s(TIGHT, -1), "a pressure of -1 Pa is outside 0 to 1000 Pa"),
        (lambda: leak_m3_s(TIGHT, 1001), "a pressure of 1001 Pa is outside"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    for exponent in (0.5, 1):
        assert leak_m3_s(Leak(flow_m3_s=1, at_pa=1000, exponent=exponent), 1000) == 1
    assert relief_m3_s(Relief(opens_pa=0, flow_m3_s=1, over_pa=1), 1) == 1
    assert leak_m3_s(Leak(flow_m3_s=1, at_pa=0.5, exponent=1), 1) == 2
    hole = Leak(flow_m3_s=0.01, at_pa=1000, exponent=0.5)
    assert rooms(0.0099, far=hole, relief=None).far_pa == pytest.approx(980.1, abs=0.1)
