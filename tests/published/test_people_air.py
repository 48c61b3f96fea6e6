"""Each person's share of the air, and people a supply serves, against published figures.

None of these says how long anyone may stay.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.people_air import Mode, served, shares
from record.calc.people_limits import LIMITS, Limit

CUBIC_FOOT = 0.3048**3
LITRE_A_MINUTE = 1 / 60  # in L/s
OSHA = LIMITS[0]


def limit(ppm):
    return Limit("a limit", ppm, "by hand")


def test_eight_on_a_hundred_have_twelve_and_a_half_each():
    """By hand: 100/8 = 12.5 m³/h each, 420 + 18.72/12 500 × 1e6 = 1917.6 ppm."""
    (share,) = shares([Mode("motor", 100)], 8, each_l_s=0.0052, outside_ppm=420)
    assert share.each_m3_h == 12.5
    assert share.steady_ppm == pytest.approx(1917.6, abs=1e-6)
    assert (share.people, share.mode.name) == (8, "motor")


def test_swiss_rates_in_two_modes():
    """6 m³/h each of fresh air, 3 through the filter (Swiss protective rooms, from memory); by hand
    with 18.72 L/h over 400: 3520 and 6640 ppm."""
    modes = [Mode("fresh", 300), Mode("filter", 150)]
    found = shares(modes, 50, each_l_s=0.0052, outside_ppm=400)
    assert [each.each_m3_h for each in found] == [6, 3]
    assert [each.steady_ppm for each in found] == pytest.approx([3520, 6640], abs=1)


@pytest.mark.parametrize(("cfm", "ppm"), [(5, 2519), (3, 3931)])
def test_cubic_feet_a_minute_each(cfm, ppm):
    """FEMA 453 section 1.7 quoting ASHRAE 62-1981: 5 cfm, 0.25 % ± 0.02; by hand with 0.30 L/min
    over 400, 2519; 3 cfm (US shelter standard, from memory) 3931 ppm."""
    mode = Mode("fan", 10 * cfm * 60 * CUBIC_FOOT)
    (found,) = shares([mode], 10, each_l_s=0.30 * LITRE_A_MINUTE, outside_ppm=400)
    assert found.steady_ppm == pytest.approx(ppm, abs=1)


def test_twenty_four_hold_the_workplace_limit_on_a_hundred():
    """By hand: 18 720/4580 = 4.0873 m³/h each; 100/4.0873 = 24.47; 24 come to 420 + 18 720 ×
    24/100 = 4912.8 ppm, 25 would to 5100."""
    (found,) = served([Mode("motor", 100)], OSHA, each_l_s=0.0052, outside_ppm=420)
    assert found.needed_m3_h == pytest.approx(4.08734, abs=1e-5)
    assert found.people == 24
    assert found.steady_ppm == pytest.approx(4912.8)
    assert (found.limit, found.mode.name) == (OSHA, "motor")


def test_a_supply_that_just_holds_a_limit_serves_the_last_one_too():
    """By hand: 18.72 L/h in 6 m³/h is 3120 ppm over 400; 30 m³/h for 5, whatever the rounding."""
    for people in range(1, 60):
        (found,) = served(
            [Mode("fan", 6.0 * people)], limit(3520), each_l_s=0.0052, outside_ppm=400
        )
        assert found.people == people
        assert found.steady_ppm == pytest.approx(3520)


def test_no_supply_serves_nobody():
    (found,) = served([Mode("off", 0)], OSHA, each_l_s=0.0052, outside_ppm=420)
    assert (found.people, found.steady_ppm) == (0, 420)
    (few,) = served([Mode("leak", 4)], OSHA, each_l_s=0.0052, outside_ppm=420)
    assert (few.people, few.steady_ppm) == (0, 420)


@given(st.floats(1, 500))
def test_people_served_hold_the_limit_and_one_more_does_not(flow):
    (found,) = served([Mode("fan", flow)], OSHA, each_l_s=0.0052, outside_ppm=420)
    if found.people:
        assert found.steady_ppm <= 5000 * (1 + 1e-9)
    (over,) = shares([Mode("fan", flow)], found.people + 1, each_l_s=0.0052, outside_ppm=420)
    assert over.steady_ppm > 5000 * (1 - 1e-9)


# What is refused


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: shares([], 0, each_l_s=1, outside_ppm=1), "0 people is outside 1 to 1000"),
        (lambda: shares([], 1001, each_l_s=1, outside_ppm=1), "1001 people is outside"),
        (lambda: served([], OSHA, each_l_s=0, outside_ppm=1), "0 L/s of one person is not above"),
        (lambda: served([], OSHA, each_l_s=math.inf, outside_ppm=1), "inf L/s of one person"),
        (lambda: served([], OSHA, each_l_s=1, outside_ppm=5000), "5000 ppm is not below 5000"),
        (lambda: served([], OSHA, each_l_s=1, outside_ppm=-1), "-1 ppm is not below 5000"),
        (
            lambda: served([Mode("a", -1)], OSHA, each_l_s=1, outside_ppm=1),
            "a: a flow of -1 m³/h is negative",
        ),
        (
            lambda: served([Mode("a", math.inf)], OSHA, each_l_s=1, outside_ppm=1),
            "a: a flow of inf",
        ),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    mode = [Mode("fan", 10_000)]
    assert [len(shares(mode, people, each_l_s=0.005, outside_ppm=400)) for people in (1, 1000)]
    assert served(mode, OSHA, each_l_s=0.005, outside_ppm=0)[0].people > 0
