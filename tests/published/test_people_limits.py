"""Limits of carbon dioxide and where a sum crosses them, against published figures and by hand.

None of these is a time anyone may stay.
"""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc import air_cautions, people_air, people_breath, people_limits
from record.calc.air_cautions import CAUTIONS
from record.calc.people_air import Mode, served, shares
from record.calc.people_limits import LIMITS, Limit, Room, crossings
from record.calc.room_air import closed_co2_ppm, steady_co2_ppm, ventilated_co2_ppm

CUBIC_FOOT = 0.3048**3
LITRE_A_MINUTE = 1 / 60  # in L/s
OSHA = LIMITS[0]


def limit(ppm):
    return Limit("a limit", ppm, "by hand")


def four_people(**more):
    given_ = {"volume_m3": 30, "generation_l_s": 4 * 0.0052, "start_ppm": 400, "outside_ppm": 400}
    return Room(**(given_ | more))


def hours(room, *ppm):
    return [each.crosses_h for each in crossings(room, [limit(each) for each in ppm])]


# The limits


@pytest.mark.parametrize(
    ("source", "ppm"),
    [
        ("OSHA 29 CFR 1910.1000", 5000),
        ("NIOSH and ACGIH", 30_000),
        ("preferably below 0.5 %", 5000),
        ("not above 3 %", 30_000),
        ("NIOSH IDLH", 40_000),
    ],
)
def test_a_limit_is_who_says_so_and_how_much(source, ppm):
    """OSHA 5000 and STEL 30 000 on several secondary pages; IDLH 40 000 NIOSH 124389; ASHRAE 1982
    in FEMA 453: not above 3 %, preferably below 0.5 %."""
    assert [each.ppm for each in LIMITS if source in each.source] == [ppm]


def test_the_vacated_rule_is_not_a_limit():
    """Some pages still state 10 000 ppm for a working day: the 1989 rule, vacated in 1992."""
    assert 10_000 not in [each.ppm for each in LIMITS]
    assert len(LIMITS) == 5


# Where the sum crosses


def test_a_sealed_room_of_four():
    """By hand, 4 × 18.72 L/h in 30 m³, 2496 ppm/h over 400: to 1000, 5000, 10 000, 30 000 and
    40 000 ppm in 0.2404, 1.8429, 3.8462, 11.859 and 15.865 h."""
    assert hours(four_people(), 1000, 5000, 10_000, 30_000, 40_000) == pytest.approx(
        [0.2404, 1.8429, 3.8462, 11.859, 15.865], abs=1e-3
    )


def test_the_same_with_twelve_cubic_metres_an_hour():
    """By hand: to 5000 in 3.3407 h; it ends at 6640 and never comes to 30 000. With 24 it ends at
    3520 and never comes to 5000."""
    assert hours(four_people(flow_m3_h=12), 5000) == pytest.approx([3.3407], abs=1e-3)
    assert hours(four_people(flow_m3_h=12), 30_000, 6640) == [None, None]
    assert hours(four_people(flow_m3_h=24), 5000) == [None]


def test_sixty_five_cubic_feet_each():
    """FEMA 453 minimum volume; 0.30 L/min each from outside air of 400 ppm at the start, by hand:
    3.03 h to 3 %, 0.47 h to 0.5 %."""
    room = Room(
        volume_m3=65 * CUBIC_FOOT,
        generation_l_s=0.30 * LITRE_A_MINUTE,
        start_ppm=400,
        outside_ppm=400,
    )
    assert hours(room, 30_000, 5000) == pytest.approx([3.03, 0.47], abs=0.01)


def test_advice_repeated_in_public_runs_into_danger_to_life():
    """10 ft² (80 ft³) a person for five hours is repeated as advice; by hand at 0.30 L/min that is
    0.090/2.2653 = 4 %, as much as NIOSH calls immediately dangerous. It is nobody's to rely on."""
    room = Room(
        volume_m3=80 * CUBIC_FOOT,
        generation_l_s=0.30 * LITRE_A_MINUTE,
        start_ppm=400,
        outside_ppm=400,
    )
    assert hours(room, LIMITS[-1].ppm)[0] == pytest.approx(5, abs=0.05)


def test_a_rate_at_freezing_point_puts_the_crossing_off():
    """A rate at 0 °C against a volume at 20 °C understates by 7 %: 293.15/273.15 = 1.0732."""
    cold = people_breath.co2_l_s(7, 1.2)
    warm = people_breath.co2_l_s(7, 1.2, temperature_c=20)
    late, true = (hours(four_people(generation_l_s=rate), 5000)[0] for rate in (cold, warm))
    assert late / true == pytest.approx(1.0732, abs=1e-4)


def test_where_it_began_over_the_limit_it_is_there_at_once():
    assert hours(four_people(start_ppm=5000), 5000, 4000) == [0, 0]
    assert hours(four_people(start_ppm=5000, flow_m3_h=24), 5000) == [0]


def test_a_room_begun_stale_falls_and_does_not_cross_again():
    """Reasoned: from 4000 down to a steady 3520 it never comes up to 4500."""
    assert hours(four_people(start_ppm=4000, flow_m3_h=24), 4500) == [None]


rooms = {
    "generation_l_s": st.floats(0.001, 0.05),
    "volume_m3": st.floats(5, 200),
    "start_ppm": st.floats(300, 4000),
}


@given(**rooms)
def test_sealed_the_sum_is_at_the_limit_when_it_crosses(generation_l_s, volume_m3, start_ppm):
    """Put back into the balance it was turned round from."""
    room = four_people(generation_l_s=generation_l_s, volume_m3=volume_m3, start_ppm=start_ppm)
    (after,) = hours(room, 5000)
    found = closed_co2_ppm(
        start_ppm=start_ppm,
        generation_l_s=generation_l_s,
        volume_m3=volume_m3,
        elapsed_h=after,
    )
    assert found == pytest.approx(5000)


@given(flow_m3_h=st.floats(1, 30), **rooms)
def test_ventilated_too(flow_m3_h, generation_l_s, volume_m3, start_ppm):
    if 400 + generation_l_s * 3.6e6 / flow_m3_h > 50_000:
        return
    room = four_people(
        generation_l_s=generation_l_s,
        volume_m3=volume_m3,
        start_ppm=start_ppm,
        flow_m3_h=flow_m3_h,
    )
    (after,) = hours(room, 5000)
    steady = steady_co2_ppm(outside_ppm=400, generation_l_s=generation_l_s, flow_m3_h=flow_m3_h)
    assert (after is None) == (steady <= 5000)
    if after is not None:
        found = ventilated_co2_ppm(
            start_ppm=start_ppm,
            outside_ppm=400,
            generation_l_s=generation_l_s,
            flow_m3_h=flow_m3_h,
            volume_m3=volume_m3,
            elapsed_h=after,
        )
        assert found == pytest.approx(5000, rel=1e-6)


@given(st.floats(1.01, 3))
def test_twice_the_room_crosses_twice_as_late_and_twice_the_people_half(more):
    base = hours(four_people(), 5000)[0]
    assert hours(four_people(volume_m3=30 * more), 5000)[0] == pytest.approx(base * more)
    assert hours(four_people(generation_l_s=0.0208 * more), 5000)[0] == pytest.approx(base / more)


def test_hardly_any_air_is_as_none():
    """Reasoned: as the flow goes to nothing the curve goes to the straight line."""
    assert hours(four_people(flow_m3_h=1e-6), 5000) == pytest.approx(hours(four_people(), 5000))


# What is refused, and what is never promised


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: four_people(volume_m3=0), "a volume of 0 m³ is not above 0"),
        (lambda: four_people(generation_l_s=0), "a generation of 0 L/s is not above 0"),
        (lambda: four_people(generation_l_s=math.inf), "a generation of inf L/s"),
        (lambda: four_people(start_ppm=-1), "a start of -1 ppm is negative"),
        (lambda: four_people(outside_ppm=-1), "outside air of -1 ppm is negative"),
        (lambda: four_people(flow_m3_h=-1), "a flow of -1 m³/h is negative"),
        (lambda: four_people(flow_m3_h=math.inf), "a flow of inf m³/h is negative or not a num"),
        (lambda: hours(four_people(), 0), "a limit: 0 ppm is outside 0 to 50000"),
        (lambda: hours(four_people(), 50_001), "a limit: 50001 ppm is outside 0 to 50000"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    assert hours(four_people(start_ppm=0, outside_ppm=0), 50_000)[0] > 0
    assert hours(four_people(), 0.5) == [0]


def test_every_figure_about_people_carries_the_rule_of_the_alarm():
    """No result may be printed without it."""
    results = [
        *crossings(four_people()),
        *shares([Mode("fan", 100)], 8, each_l_s=0.0052, outside_ppm=420),
        *served([Mode("fan", 100)], OSHA, each_l_s=0.0052, outside_ppm=420),
    ]
    assert {each.caution for each in results} == {air_cautions.ALARM_RULES}
    assert "nobody's permission to stay" in CAUTIONS[air_cautions.ALARM_RULES]


def test_every_caution_has_its_sentence():
    keys = [value for name, value in vars(air_cautions).items() if re.fullmatch("[A-Z_]+", name)]
    keys = [each for each in keys if isinstance(each, str)]
    assert sorted(keys) == sorted(CAUTIONS)
    assert all(each.endswith(".") for each in CAUTIONS.values())


def test_nothing_here_is_named_for_safety_or_for_time_that_is_left():
    """An alarm rules, not arithmetic."""
    fields = [
        name
        for module in (people_air, people_limits)
        for what in vars(module).values()
        for name in (getattr(what, "__name__", ""), *getattr(what, "__annotations__", ()))
    ]
    assert "crosses_h" in fields
    assert [
        each for each in fields if re.search("safe|left|remain|until|stay|countdown", each)
    ] == []
