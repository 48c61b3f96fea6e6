"""Carbon dioxide in a room against published figures, arithmetic shown, and limits of the physics.

None of these is a time anyone may stay.
"""

import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from record.calc import room_air
from record.calc.room_air import closed_co2_ppm, steady_co2_ppm, ventilated_co2_ppm

LITRE_A_MINUTE = 1 / 60  # in L/s
CUBIC_FOOT = 0.3048**3
CFM = 60 * CUBIC_FOOT  # in m³/h
FOUR_PEOPLE = 4 * 0.0052  # L/s

generations = st.floats(0.001, 0.05)
flows = st.floats(10, 300)
volumes = st.floats(5, 200)
times_h = st.floats(0, 48)
starts = st.floats(300, 10_000)
factors = st.floats(1, 3)


def closed(elapsed_h, *, start_ppm=400.0, generation_l_s=FOUR_PEOPLE, volume_m3=30.0):
    return closed_co2_ppm(
        start_ppm=start_ppm,
        generation_l_s=generation_l_s,
        volume_m3=volume_m3,
        elapsed_h=elapsed_h,
    )


def steady(flow_m3_h, *, outside_ppm=400.0, generation_l_s=FOUR_PEOPLE):
    return steady_co2_ppm(
        outside_ppm=outside_ppm, generation_l_s=generation_l_s, flow_m3_h=flow_m3_h
    )


def ventilated(
    elapsed_h,
    flow_m3_h=12.0,
    *,
    start_ppm=400.0,
    outside_ppm=400.0,
    generation_l_s=FOUR_PEOPLE,
    volume_m3=30.0,
):
    return ventilated_co2_ppm(
        start_ppm=start_ppm,
        outside_ppm=outside_ppm,
        generation_l_s=generation_l_s,
        flow_m3_h=flow_m3_h,
        volume_m3=volume_m3,
        elapsed_h=elapsed_h,
    )


# The steady state


def test_eight_on_one_fan_come_to_nineteen_hundred():
    """By hand: 100 m³/h among 8 is 12.5 each; 0.0052 L/s is 18.72 L/h; 420 + 18.72 / 12 500 ×
    1 000 000 = 1917.6 ppm, for one as for all eight."""
    one = steady(12.5, outside_ppm=420, generation_l_s=0.0052)
    assert one == pytest.approx(1917.6, abs=1e-6)
    assert steady(100, outside_ppm=420, generation_l_s=8 * 0.0052) == pytest.approx(one)


def test_five_cubic_feet_a_minute_each_hold_a_quarter_of_a_percent():
    """FEMA 453, section 1.7, quoting ASHRAE 62-1981: 5 cfm a person, sedentary, 0.25 %, ±0.02.
    By hand with 0.30 L/min and 400 ppm outside: 2519 ppm."""
    found = steady(5 * CFM, generation_l_s=0.30 * LITRE_A_MINUTE)
    assert found / 1e4 == pytest.approx(0.25, abs=0.02)
    assert found == pytest.approx(2519, abs=1)


@pytest.mark.parametrize(
    ("flow_m3_h", "generation_l_s", "ppm"),
    [(3 * CFM, 0.30 * LITRE_A_MINUTE, 3931), (6, 0.0052, 3520), (3, 0.0052, 6640)],
)
def test_smaller_shares_of_air_come_to_more(flow_m3_h, generation_l_s, ppm):
    """By hand: 3 cfm each (a rate of the US shelter standard, from memory) at 0.30 L/min; 6 and
    3 m³/h each (rates of Swiss protective rooms, from memory) at 18.72 L/h, which is 3120 and
    6240 ppm over 400."""
    assert steady(flow_m3_h, generation_l_s=generation_l_s) == pytest.approx(ppm, abs=1)


def test_people_counted_at_freezing_and_air_at_room_warmth_come_out_low():
    """Persily and de Jonge 2017 (Indoor Air 27:868), as transcribed in a public test file: 0.005608
    L/s at 273 K is 0.006022 at 293.15 K. Mixing the two understates the rise by 7 %."""
    right, mixed = (
        steady(12.5, generation_l_s=generation) - 400 for generation in (0.006022, 0.005608)
    )
    assert right / mixed == pytest.approx(293.15 / 273, rel=1e-4)


# The closed room


@pytest.mark.parametrize(
    ("elapsed_h", "ppm"),
    [(0.2404, 1000), (1.8429, 5000), (3.8462, 10_000), (11.859, 30_000), (15.865, 40_000)],
)
def test_a_closed_room_of_thirty_cubic_metres_with_four_people(elapsed_h, ppm):
    """By hand: 74.88 L/h in 30 m³ is 2496 ppm/h, over 400; (1000 − 400) / 2496 = 0.2404 h and so
    on. The times are rounded to half a thousandth of an hour or better."""
    assert closed(elapsed_h) == pytest.approx(ppm, abs=2496 * 5e-4)


@pytest.mark.parametrize(("elapsed_h", "ppm"), [(3.03, 30_000), (0.47, 5_000)])
def test_a_closed_room_of_sixty_five_cubic_feet_each(elapsed_h, ppm):
    """FEMA 453 gives the volume; by hand with 0.30 L/min: 18 L/h in 1.8406 m³ is 9779 ppm/h over
    400, (30 000 − 400) / 9779 = 3.03 h. To a hundredth of an hour."""
    found = closed(elapsed_h, generation_l_s=0.30 * LITRE_A_MINUTE, volume_m3=65 * CUBIC_FOOT)
    assert found == pytest.approx(ppm, abs=0.01 * 9779)


def test_an_advice_of_ten_square_feet_each_for_five_hours_is_at_a_level_dangerous_to_life():
    """By hand: 80 ft³ each, 5 h at 0.30 L/min, 40 100 ppm. NIOSH gives 40 000 ppm as immediately
    dangerous to life or health (IDLH 124389)."""
    found = closed(5, generation_l_s=0.30 * LITRE_A_MINUTE, volume_m3=80 * CUBIC_FOOT)
    assert found == pytest.approx(40_100, abs=50)
    assert found > 40_000


# On the way


@pytest.mark.parametrize(
    ("elapsed_h", "flow_m3_h", "ppm"),
    [
        (1, 12, 2457.2),
        (2, 12, 3836.2),
        (5, 12, 5795.5),
        (24, 12, 6639.6),
        (24, 24, 3520.0),
    ],
)
def test_the_same_room_with_a_little_air(elapsed_h, flow_m3_h, ppm):
    """By hand: 74.88 / 12 000 is 6240 ppm over 400, so 6640 − 6240 exp(−0.4 t); with twice the
    flow 3520 − 3120 exp(−0.8 t)."""
    assert ventilated(elapsed_h, flow_m3_h) == pytest.approx(ppm, abs=0.1)


def test_the_same_room_passes_five_thousand_on_its_way():
    """By hand: ln(6240 / 1640) / 0.4 = 3.3407 h, where it still rises by 656 ppm/h."""
    assert ventilated(3.3407) == pytest.approx(5000, abs=0.05)


def test_at_the_first_moment_nothing_has_changed():
    """Reasoned."""
    assert closed(0, start_ppm=777) == 777
    assert ventilated(0, start_ppm=777) == 777


def test_with_hardly_any_air_it_is_as_if_closed():
    """Reasoned: as Q goes to 0 the curve goes to the straight line; after 1 h at 2 m³/h of 30
    it is under it by about half of Qt/V, 3.3 %."""
    line, curve = closed(1) - 400, ventilated(1, 2.0) - 400
    assert curve < line
    assert 1 - curve / line == pytest.approx(1 / 30, rel=0.05)


def test_an_empty_room_is_flushed_by_its_own_volume_to_a_third():
    """Reasoned: one change of air leaves exp(−1), 36.8 %, of what was over outside."""
    found = ventilated(1, 30.0, start_ppm=5400, generation_l_s=0)
    assert found - 400 == pytest.approx(5000 * 0.36788, rel=1e-4)


def test_the_curve_starts_at_the_slope_of_the_balance():
    """dC/dt = G/V − (Q/V)(C0 − Co), by hand 2496 − 0.4 × (3000 − 400) = 1456 ppm/h."""
    rise = ventilated(1e-4, start_ppm=3000) - 3000
    assert rise / 1e-4 == pytest.approx(1456, rel=1e-3)


# What must hold of any room


@given(flows, factors, generations)
def test_more_air_never_raises_the_steady_state(flow, more, generation):
    least = steady(flow * more, generation_l_s=generation)
    assert 400 < least <= steady(flow, generation_l_s=generation)


@given(generations, factors, flows, times_h, volumes)
def test_more_people_never_lower_it(generation, more, flow, elapsed_h, volume_m3):
    assume(generation * more * 3.6e6 / flow < 49_000)
    few, many = (
        ventilated(elapsed_h, flow, generation_l_s=people, volume_m3=volume_m3)
        for people in (generation, generation * more)
    )
    assert many >= few - 1e-9 * few


@given(starts, generations, flows, volumes, times_h)
def test_it_stays_between_where_it_began_and_where_it_ends(start, generation, flow, volume, time_h):
    ends = steady(flow, generation_l_s=generation)
    found = ventilated(time_h, flow, start_ppm=start, generation_l_s=generation, volume_m3=volume)
    low, high = sorted((start, ends))
    assert low * (1 - 1e-12) <= found <= high * (1 + 1e-12)


@given(generations, flows, volumes, st.floats(0, 10), st.floats(0, 10))
def test_two_stretches_of_time_are_one(generation, flow, volume, one_h, other_h):
    """Reasoned: the air does not remember."""

    def after(hours, start_ppm):
        return ventilated(
            hours, flow, start_ppm=start_ppm, generation_l_s=generation, volume_m3=volume
        )

    assert after(other_h, after(one_h, 400.0)) == pytest.approx(after(one_h + other_h, 400.0))


@given(generations, flows, volumes)
def test_after_a_long_while_the_volume_does_not_matter(generation, flow, volume):
    """Reasoned: forty changes of air leave nothing of the beginning."""
    found = ventilated(40 * volume / flow, flow, generation_l_s=generation, volume_m3=volume)
    assert found == pytest.approx(steady(flow, generation_l_s=generation))


@given(st.floats(0, 5), generations, volumes, flows)
def test_air_brought_in_never_makes_it_worse_than_closed(elapsed_h, generation, volume, flow):
    assume(400 + generation * 3.6e6 / volume * elapsed_h <= 50_000)
    shut = closed(elapsed_h, generation_l_s=generation, volume_m3=volume)
    fed = ventilated(elapsed_h, flow, generation_l_s=generation, volume_m3=volume)
    assert fed <= shut * (1 + 1e-12)


# What is refused, and what is never promised


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: closed(24), "60304 ppm is above 50000 ppm"),
        (lambda: steady(1), "75280 ppm is above 50000 ppm"),
        (lambda: ventilated(0.1, 1.0), "75280 ppm is above 50000 ppm"),
        (lambda: ventilated(0.1, start_ppm=60_000), "ppm is above 50000 ppm"),
        (lambda: steady(0), "flow 0 m³/h is not above 0"),
        (lambda: ventilated(1, 0.0), "flow 0.0 m³/h is not above 0"),
        (lambda: steady(12, outside_ppm=-1), "outside air -1 ppm is negative"),
        (lambda: steady(12, generation_l_s=math.nan), "generation nan L/s is negative or not"),
        (lambda: closed(1, volume_m3=0), "volume 0 m³ is not above 0"),
        (lambda: ventilated(1, volume_m3=0), "volume 0 m³ is not above 0"),
        (lambda: closed(math.inf), "elapsed time inf h is negative or not a number"),
        (lambda: closed(1, volume_m3=math.inf), "volume inf m³ is not above 0"),
        (lambda: closed(-1), "elapsed time -1 h is negative"),
        (lambda: ventilated(-1), "elapsed time -1 h is negative"),
        (lambda: closed(1, start_ppm=-1), "start -1 ppm is negative"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_end_of_what_it_can_tell_is_in_it():
    assert closed(0, start_ppm=50_000) == 50_000


def test_nothing_here_is_named_for_safety_or_gives_a_time():
    """An alarm rules, not arithmetic: no function turns a level into hours that are left."""
    names = [name for name in vars(room_air) if not name.startswith("__")]
    assert [name for name in names if re.search("safe|limit|left|minutes|until|stay", name)] == []
    public = [name for name in names if callable(getattr(room_air, name)) and name[0] != "_"]
    assert public
    assert all(name.endswith("_co2_ppm") for name in public)
