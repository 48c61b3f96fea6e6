"""The air at an altitude against published tables and limits of the physics.

Where "fluids" is named, the number was computed with that open library (1.3.1), not with this.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_density import (
    air_density_kg_m3,
    air_viscosity_pa_s,
    altitude_pressure_pa,
    standard_temperature_c,
)

FOOT = 0.3048
PSI = 6894.757

altitudes_m = st.floats(-5000, 11000)
temperatures_c = st.floats(-60, 60)


@pytest.mark.parametrize(
    ("altitude_m", "kelvin", "pascal", "density"),
    [
        (-2000, 301.15, 127780, 1.4782),
        (0, 288.15, 101320, 1.2250),
        (2000, 275.15, 79501, 1.0066),
        (4000, 262.17, 61660, 0.81935),
        (6000, 249.19, 47218, 0.66011),
        (500, 284.90, 95461.3, 1.16727),
        (1000, 281.65, 89876.3, 1.11166),
        (1500, 278.40, 84559.7, 1.05810),
        (3000, 268.66, 70121.2, 0.90925),
    ],
)
def test_the_standard_atmosphere_is_met_at_its_own_altitudes(altitude_m, kelvin, pascal, density):
    """U.S. Standard Atmosphere 1976: the first five rows as tabulated by PDAS and carried in the
    tests of fluids; the last four computed with fluids."""
    own_c = standard_temperature_c(altitude_m)
    assert own_c + 273.15 == pytest.approx(kelvin, abs=0.02)
    assert altitude_pressure_pa(altitude_m) == pytest.approx(pascal, rel=5e-5)
    assert air_density_kg_m3(altitude_m, own_c) == pytest.approx(density, rel=5e-5)


@pytest.mark.parametrize(
    ("geopotential_m", "pascal"),
    [(-500, 107478), (500, 95461), (1000, 89875), (4000, 61640), (10000, 26436)],
)
def test_altitude_is_as_surveyed_and_not_the_tables_geopotential(geopotential_m, pascal):
    """ASHRAE Handbook – Fundamentals 2017, chapter 1, table 1, which counts in geopotential
    metres: turned into surveyed metres by Z = r H / (r − H), to 2 Pa. At 4000 it matters."""
    surveyed_m = 6356766 * geopotential_m / (6356766 - geopotential_m)
    assert altitude_pressure_pa(surveyed_m) == pytest.approx(pascal, abs=2)


def test_a_mile_up_air_has_these_fifteen_percent_less_weight():
    """fluids: at 5280 ft 1.0467 kg/m³, 0.8544 of sea level, each at its standard temperature."""
    mile_m = 5280 * FOOT
    there = air_density_kg_m3(mile_m, standard_temperature_c(mile_m))
    assert there == pytest.approx(1.0467, rel=1e-4)
    assert there / air_density_kg_m3(0, 15) == pytest.approx(0.8544, rel=1e-4)


def test_four_thousand_feet_has_what_the_formula_says_and_not_the_misprint():
    """An ASHRAE-derived web table prints 12.682 psia at 4000 ft; the formula it quotes gives
    12.692."""
    psia = altitude_pressure_pa(4000 * FOOT) / PSI
    assert psia == pytest.approx(12.692, abs=0.002)
    assert abs(psia - 12.682) > 0.008


def test_fifteen_thousand_feet_is_as_cold_as_the_formula_says_and_not_the_misprint():
    """The same web table prints −25.96 °C at 4572 m; its formula, 15 − 0.0065 × 4572, is −14.7."""
    found = standard_temperature_c(4572)
    assert found == pytest.approx(-14.7, abs=0.05)
    assert found > -25.96 + 10


def test_standard_air_has_the_viscosity_of_the_tables():
    """fluids case air at 20 °C: 1.2041 kg/m³ and 1.813e-5 Pa s; 70 °F: 1.814e-5. To 0.3 %."""
    assert air_density_kg_m3(0, 20) == pytest.approx(1.2041, rel=1e-4)
    assert air_viscosity_pa_s(20) == pytest.approx(1.813e-5, rel=3e-3)
    assert air_viscosity_pa_s((70 - 32) / 1.8) == pytest.approx(1.814e-5, rel=3e-3)


@given(altitudes_m, altitudes_m, temperatures_c)
def test_higher_air_is_never_denser(one_m, other_m, temperature_c):
    low, high = sorted((one_m, other_m))
    assert air_density_kg_m3(high, temperature_c) <= air_density_kg_m3(low, temperature_c)


@given(altitudes_m, temperatures_c, temperatures_c)
def test_warmer_air_is_never_denser_and_never_less_viscous(altitude_m, one_c, other_c):
    cold, warm = sorted((one_c, other_c))
    assert air_density_kg_m3(altitude_m, warm) <= air_density_kg_m3(altitude_m, cold)
    assert air_viscosity_pa_s(warm) >= air_viscosity_pa_s(cold)


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: altitude_pressure_pa(12000), "12000 m is outside -5000 to 11000"),
        (lambda: air_density_kg_m3(0, 75), "75 °C is outside -60 to 60"),
        (lambda: air_viscosity_pa_s(math.nan), "nan °C is outside"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    """By hand: μ = 1.458e-6 T^1.5/(T + 110.4), at 213.15 K 1.4023e-5 and at 333.15 K 1.9988e-5."""
    assert altitude_pressure_pa(-5000) > altitude_pressure_pa(11000) > 0
    assert air_viscosity_pa_s(-60) == pytest.approx(1.4023e-5, rel=1e-4)
    assert air_viscosity_pa_s(60) == pytest.approx(1.9988e-5, rel=1e-4)
