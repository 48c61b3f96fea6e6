"""Water in air against the ASHRAE tables, the WMO's formula and limits of the physics.

Where "psychrolib" is named, the number was computed with that open library (2.5.0), not with this.
"""

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from record.calc.dew_point import (
    condensed_kg_h,
    dew_point_c,
    humidity_ratio,
    saturation_pressure_pa,
    vapour_pressure_pa,
    volume_m3_kg,
)

SEA_LEVEL_PA = 101325

airs_c = st.floats(-30, 50)
humidities = st.floats(0.05, 1)
pressures_pa = st.floats(60_000, 110_000)


def magnus_pa(temperature_c):
    """WMO-No. 8 (2008), over water: 6.112 exp(17.62 t / (243.12 + t)) hPa."""
    return 611.2 * math.exp(17.62 * temperature_c / (243.12 + temperature_c))


@pytest.mark.parametrize(
    ("temperature_c", "pascal"),
    [
        (-20, 103.24),
        (-5, 401.74),
        (5, 872.6),
        (25, 3169.7),
        (50, 12351.3),
        (100, 101418.0),
        (150, 476101.4),
    ],
)
def test_the_pressure_of_vapour_is_that_of_the_tables(temperature_c, pascal):
    """ASHRAE Handbook – Fundamentals 2017, chapter 1, table 3, as carried in the tests of
    psychrolib, to the 300 ppm stated there."""
    assert saturation_pressure_pa(temperature_c) == pytest.approx(pascal, rel=300e-6)


def test_there_is_a_little_vapour_over_very_cold_ice():
    """Same table: 1.08 Pa at −60 °C, to its last digit."""
    assert saturation_pressure_pa(-60) == pytest.approx(1.08, abs=0.01)


def test_the_two_curves_meet_where_ice_and_water_do():
    """Reasoned: at the triple point, 0.01 °C and 611.657 Pa (from memory of IAPWS), all three
    phases have one pressure; a step there would make a dew point that does not exist."""
    under, over = saturation_pressure_pa(0.01), saturation_pressure_pa(math.nextafter(0.01, 1))
    assert under == pytest.approx(611.657, rel=1e-4)
    assert over == pytest.approx(under, rel=1e-5)
    assert over >= under


def test_there_is_no_step_at_freezing():
    """Reasoned: near freezing the slopes are 50 Pa/K over ice and 44 over water (L p / R T², with
    2834 and 2501 kJ/kg), so a thousandth of a kelvin is never worth as much as 0.06 Pa."""
    near_c = [step / 1000 for step in range(-20, 31)]
    rises_pa = [
        saturation_pressure_pa(warm) - saturation_pressure_pa(cool)
        for cool, warm in itertools.pairwise(near_c)
    ]
    assert min(rises_pa) > 0.04
    assert max(rises_pa) < 0.06


def test_below_freezing_it_is_ice_that_counts():
    """WMO-No. 8 by hand: at −10 °C 6.112 exp(−224.6/262.62) = 2.599 hPa over ice (the constants
    from memory of its annex 4.B), and 2.870 over water that has not frozen."""
    assert saturation_pressure_pa(-10) == pytest.approx(259.9, abs=0.1)
    assert magnus_pa(-10) == pytest.approx(287.0, rel=2e-3)


@pytest.mark.parametrize(
    ("temperature_c", "pascal"), [(0, 611.20), (10, 1226.03), (20, 2332.60), (30, 4233.72)]
)
def test_the_formula_of_the_weather_services_gives_nearly_the_same(temperature_c, pascal):
    """WMO-No. 8 worked by hand; it lies up to 0.3 % below ASHRAE at 20 to 30 °C."""
    assert magnus_pa(temperature_c) == pytest.approx(pascal, abs=0.01)
    assert saturation_pressure_pa(temperature_c) == pytest.approx(pascal, rel=0.003)


@pytest.mark.parametrize(
    ("temperature_c", "ratio", "within"),
    [
        (-20, 0.0006373, 0.01),
        (-5, 0.0024863, 0.005),
        (5, 0.005425, 0.005),
        (25, 0.020173, 0.005),
        (50, 0.086863, 0.01),
    ],
)
def test_saturated_air_holds_what_the_table_says(temperature_c, ratio, within):
    """ASHRAE Handbook – Fundamentals 2017, chapter 1, table 2, real gas; ideal gases lie up to
    0.6 % below."""
    found = humidity_ratio(temperature_c, 1, SEA_LEVEL_PA)
    assert found == pytest.approx(ratio, rel=within)
    assert found < ratio * 1.001


@pytest.mark.parametrize(
    ("temperature_c", "ratio"), [(5, 0.005402), (25, 0.020081), (50, 0.086327)]
)
def test_saturated_air_as_an_ideal_gas(temperature_c, ratio):
    """psychrolib, same formula."""
    assert humidity_ratio(temperature_c, 1, SEA_LEVEL_PA) == pytest.approx(ratio, rel=2e-4)


def test_the_handbooks_first_example_of_a_warm_dry_room():
    """ASHRAE Handbook – Fundamentals 2017, chapter 1, example 1, read off the chart: 40 °C, wet
    bulb 20 °C gives φ 14 %, W 0.0065, dew point 7 °C, 0.896 m³/kg; psychrolib 13.98 %, 0.006401,
    7.434, 0.8962."""
    assert humidity_ratio(40, 0.14, SEA_LEVEL_PA) == pytest.approx(0.0065, abs=1e-4)
    assert dew_point_c(40, 0.14) == pytest.approx(7, abs=0.5)
    assert volume_m3_kg(40, 0.14, SEA_LEVEL_PA) == pytest.approx(0.896, rel=0.01)
    assert humidity_ratio(40, 0.1398, SEA_LEVEL_PA) == pytest.approx(0.006401, rel=1e-3)
    assert dew_point_c(40, 0.1398) == pytest.approx(7.434, abs=0.01)
    assert volume_m3_kg(40, 0.1398, SEA_LEVEL_PA) == pytest.approx(0.8962, abs=1e-4)


@pytest.mark.parametrize(
    ("temperature_c", "humidity", "dew_c", "magnus_c"),
    [
        (25, 0.6, 16.70, 16.69),
        (20, 0.5, 9.27, 9.26),
        (30, 0.7, 23.93, 23.93),
        (20, 0.7, 14.37, None),
    ],
)
def test_the_dew_point_of_ordinary_air(temperature_c, humidity, dew_c, magnus_c):
    """psychrolib; and the WMO's formula turned round, 243.12 x / (17.62 − x), by hand. 0.02 K."""
    found = dew_point_c(temperature_c, humidity)
    assert found == pytest.approx(dew_c, abs=0.01)
    if magnus_c is not None:
        x = math.log(humidity * magnus_pa(temperature_c) / 611.2)
        assert 243.12 * x / (17.62 - x) == pytest.approx(magnus_c, abs=0.006)
        assert found == pytest.approx(magnus_c, abs=0.02)


def test_a_room_at_twenty_degrees_and_seventy_percent():
    """psychrolib: W 0.010214, v 0.84410. 0.1 %."""
    assert humidity_ratio(20, 0.7, SEA_LEVEL_PA) == pytest.approx(0.010214, rel=1e-3)
    assert volume_m3_kg(20, 0.7, SEA_LEVEL_PA) == pytest.approx(0.84410, rel=1e-3)


@pytest.mark.parametrize(
    ("temperature_c", "humidity", "density"), [(20, 0.5, 1.19890), (30, 0.7, 1.15152)]
)
def test_moist_air_weighs_this(temperature_c, humidity, density):
    """psychrolib, moist air density (1 + W) / v. 0.05 %."""
    ratio = humidity_ratio(temperature_c, humidity, SEA_LEVEL_PA)
    volume = volume_m3_kg(temperature_c, humidity, SEA_LEVEL_PA)
    assert (1 + ratio) / volume == pytest.approx(density, rel=5e-4)


def condensed(flow_m3_h, temperature_c, humidity, cooled_to_c, pressure_pa=SEA_LEVEL_PA):
    return condensed_kg_h(
        flow_m3_h=flow_m3_h,
        temperature_c=temperature_c,
        relative_humidity=humidity,
        cooled_to_c=cooled_to_c,
        pressure_pa=pressure_pa,
    )


@pytest.mark.parametrize(
    ("flow_m3_h", "temperature_c", "humidity", "cooled_to_c", "kg_h", "within"),
    [
        (100, 30, 0.7, 12, 1.1376, 0.005),
        (60, 32, 0.6, 13, 0.5869, 0.005),
        (100, 25, 0.5, 12, 0.1341, 0.01),
    ],
)
def test_summer_air_cooled_in_the_ground_leaves_this_much_water(
    flow_m3_h, temperature_c, humidity, cooled_to_c, kg_h, within
):
    """psychrolib; the first is (100 / v1) = 113.03 kg of dry air an hour times 0.018795 − 0.008730,
    27.30 kg a day."""
    found = condensed(flow_m3_h, temperature_c, humidity, cooled_to_c)
    assert found == pytest.approx(kg_h, rel=within)


def test_the_flow_is_of_the_air_that_enters_and_its_dry_part_is_less():
    """Same case by parts: 113.03 kg of dry air in 100 m³, W 0.018795 and 0.008730."""
    assert 100 / volume_m3_kg(30, 0.7, SEA_LEVEL_PA) == pytest.approx(113.03, rel=1e-3)
    assert humidity_ratio(30, 0.7, SEA_LEVEL_PA) == pytest.approx(0.018795, rel=1e-3)
    assert humidity_ratio(12, 1, SEA_LEVEL_PA) == pytest.approx(0.008730, rel=1e-3)


def test_air_cooled_to_just_above_its_dew_point_leaves_none():
    """Reasoned: what it holds does not change until it is saturated."""
    dew_c = dew_point_c(25, 0.5)
    assert condensed(100, 25, 0.5, dew_c + 0.01) == 0
    assert condensed(100, 25, 0.5, dew_c - 0.01) > 0


def test_fog_is_at_its_dew_point():
    """Reasoned: saturated air has its own temperature for a dew point."""
    for temperature_c in (-20, 0, 0.01, 5, 35):
        assert dew_point_c(temperature_c, 1) == pytest.approx(temperature_c, abs=1e-9)


def test_thin_air_holds_more_water_to_the_kilogram():
    """By hand, 872.6 Pa at 5 °C: 0.621945 × 872.6 / (80 000 − 872.6) = 0.006859."""
    assert humidity_ratio(5, 1, 80_000) == pytest.approx(0.006859, rel=1e-3)


# What must hold of any air


@given(airs_c, airs_c, pressures_pa)
def test_cooler_air_never_holds_more_water(one_c, other_c, pressure_pa):
    cool, warm = sorted((one_c, other_c))
    assert humidity_ratio(cool, 1, pressure_pa) <= humidity_ratio(warm, 1, pressure_pa)


@given(st.floats(-100, 200), st.floats(1e-3, 10))
def test_warmth_always_raises_the_pressure_of_vapour(temperature_c, warmer_k):
    assume(temperature_c + warmer_k <= 200)
    assert saturation_pressure_pa(temperature_c + warmer_k) > saturation_pressure_pa(temperature_c)


@given(airs_c, humidities)
def test_a_dew_point_is_never_above_the_air_and_holds_its_vapour(temperature_c, humidity):
    dew_c = dew_point_c(temperature_c, humidity)
    assert dew_c <= temperature_c
    held = saturation_pressure_pa(dew_c)
    assert held == pytest.approx(vapour_pressure_pa(temperature_c, humidity), rel=2e-6)


@given(airs_c, humidities, humidities)
def test_moister_air_never_has_a_lower_dew_point(temperature_c, one, other):
    dry, moist = sorted((one, other))
    assert dew_point_c(temperature_c, dry) <= dew_point_c(temperature_c, moist)


@given(airs_c, humidities, st.floats(0, 40), st.floats(0, 40), pressures_pa)
def test_cooling_further_never_leaves_less_water(temperature_c, humidity, one_k, other_k, pressure):
    little, much = sorted((one_k, other_k))
    left = condensed(50, temperature_c, humidity, temperature_c - little, pressure)
    more = condensed(50, temperature_c, humidity, temperature_c - much, pressure)
    dry_kg_h = 50 / volume_m3_kg(temperature_c, humidity, pressure)
    assert 0 <= left <= more < dry_kg_h * humidity_ratio(temperature_c, humidity, pressure)


# What is refused


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: saturation_pressure_pa(201), "201 °C is outside -100 to 200"),
        (lambda: saturation_pressure_pa(math.nan), "nan °C is outside"),
        (lambda: dew_point_c(20, 0), "humidity of 0 is not above 0, to 1"),
        (lambda: dew_point_c(20, 47), "humidity of 47 is not above 0, to 1"),
        (lambda: dew_point_c(-95, 0.01), "dew point below -100 °C"),
        (lambda: humidity_ratio(20, 0.5, 0), "pressure of 0 Pa is not above 0"),
        (lambda: humidity_ratio(101, 1, 101325), "not below the pressure, 101325 Pa"),
        (lambda: condensed(-1, 20, 0.5, 10), "flow of -1 m³/h is negative"),
        (lambda: condensed(1, 20, 0.5, 21), "air at 20 °C is not cooled to 21 °C"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()
