"""When a buried pipe is wetted from inside: hand-worked months, and limits of physics."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.condensing_season import Air, Month, middle_day, months, peak, seasons
from record.calc.ground_temperature import Ground, ground_temperature_c

STEADY = Ground(mean_c=12, amplitude_k=0, coldest_day=0, diffusivity_m2_s=0.5e-6)
SEA_LEVEL_PA = 101_325

airs = st.lists(st.builds(Air, st.floats(-10, 32), st.floats(0.3, 0.95)), min_size=12, max_size=12)


def year_of(outside, ground=STEADY, depth_m=2.0, flow_m3_h=100.0):
    return months(outside, ground, depth_m=depth_m, flow_m3_h=flow_m3_h, pressure_pa=SEA_LEVEL_PA)


def test_a_muggy_month_leaves_as_much_as_the_library_says():
    """psychrolib 2.5.0: 30 °C at 70 % cooled to 12 °C, 100 m³/h leaves 27.30 kg a day, to 0.5 %;
    25 °C at 50 % leaves 0.1341 kg/h. Ground without a swing stands at 12 °C all year."""
    outside = [Air(5, 0.6)] * 6 + [Air(30, 0.7), Air(25, 0.5)] + [Air(5, 0.6)] * 4
    year = year_of(outside)
    assert year[6].water_kg_day == pytest.approx(27.30, rel=5e-3)
    assert year[7].water_kg_day == pytest.approx(24 * 0.1341, rel=0.01)
    assert [m.number for m in year if m.wet] == [7, 8]
    assert seasons(year) == ((7, 8),)
    assert peak(year).number == 7


def test_the_middle_of_a_month():
    """By the calendar: the mean of its first moment and that of the next month, in 2031."""
    new_year = date(2031, 1, 1).toordinal()
    for number in range(1, 13):
        first = date(2031, number, 1).toordinal() - new_year
        after = date(2031 + number // 12, number % 12 + 1, 1).toordinal() - new_year
        assert middle_day(number) == (first + after) / 2


def test_south_of_the_line_the_season_goes_on_over_new_year():
    """Reasoned: with the warm months at both ends of the year there is one season, not two."""
    outside = [Air(28, 0.8)] * 2 + [Air(8, 0.5)] * 8 + [Air(28, 0.8)] * 2
    assert seasons(year_of(outside)) == ((11, 2),)


def test_the_ground_asked_is_that_of_the_month_and_the_depth():
    swinging = Ground(mean_c=12, amplitude_k=10, coldest_day=35, diffusivity_m2_s=0.5e-6)
    year = year_of([Air(20, 0.6)] * 12, swinging, depth_m=1.5)
    assert [m.ground_c for m in year] == [
        pytest.approx(ground_temperature_c(swinging, 1.5, middle_day(n))) for n in range(1, 13)
    ]


def test_all_year_and_never():
    assert seasons(year_of([Air(30, 0.9)] * 12)) == ((1, 12),)
    dry = year_of([Air(30, 0.1)] * 12)
    assert seasons(dry) == () and peak(dry) is None


def test_of_two_months_alike_the_earlier_is_the_peak():
    assert peak([Month(5, 14, 10, 2.0), Month(8, 14, 10, 2.0)]).number == 5


@given(airs)
def test_a_month_is_wet_just_when_its_dew_point_is_above_the_ground(outside):
    for month in year_of(outside):
        assert month.wet == (month.dew_point_c > month.ground_c and month.water_kg_day > 0)
        if month.dew_point_c > month.ground_c + 0.01:
            assert month.wet
        assert month.water_kg_day >= 0


@given(airs)
def test_seasons_hold_every_wet_month_once(outside):
    year = year_of(outside)
    held = []
    for first, last in seasons(year):
        at = first
        while True:
            held.append(at)
            if at == last:
                break
            at = at % 12 + 1
    assert sorted(held) == [m.number for m in year if m.wet]


@given(airs, st.floats(1, 300))
def test_twice_the_air_leaves_twice_the_water(outside, flow):
    once, twice = year_of(outside, flow_m3_h=flow), year_of(outside, flow_m3_h=2 * flow)
    for one, two in zip(once, twice, strict=True):
        assert two.water_kg_day == pytest.approx(2 * one.water_kg_day)


@pytest.mark.parametrize("count", [0, 11, 13])
def test_a_year_has_twelve_months(count):
    with pytest.raises(ValueError, match=f"{count} months"):
        year_of([Air(10, 0.5)] * count)
