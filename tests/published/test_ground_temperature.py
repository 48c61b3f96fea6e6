"""The yearly wave in the ground against EnergyPlus, an open simulation, and limits of physics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.ground_temperature import (
    DAY_S,
    Ground,
    coldest_c,
    coldest_day_at,
    damping_depth_m,
    freezing_reaches_m,
    ground_temperature_c,
)

NREL = Ground(
    mean_c=15, amplitude_k=5, coldest_day=1, diffusivity_m2_s=1.08 / (980 * 2570)
)  # k, density and heat as printed there
HANDBOOK = Ground(mean_c=12, amplitude_k=10, coldest_day=35, diffusivity_m2_s=0.5e-6)
UPLAND = Ground(mean_c=6.5, amplitude_k=11.5, coldest_day=20, diffusivity_m2_s=0.5e-6)

grounds = st.builds(
    Ground,
    mean_c=st.floats(-5, 25),
    amplitude_k=st.floats(0, 25),
    coldest_day=st.floats(0, 365),
    diffusivity_m2_s=st.floats(0.1e-6, 1.2e-6),
)
depths_m = st.floats(0, 12)
days = st.floats(-400, 800)


@pytest.mark.parametrize(
    ("depth_m", "second", "expected"),
    [(0, 0, 10.0), (0, 15_768_000, 20.0), (0, 31_449_600, 10.0), (100, 0, 15.0)],
)
def test_the_surface_and_the_deep_are_as_a_simulation_of_buildings_has_them(
    depth_m, second, expected
):
    """NREL EnergyPlus, unit tests of its ground temperatures, to 0.01."""
    found = ground_temperature_c(NREL, depth_m, second / DAY_S)
    assert found == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(
    ("depth_m", "second", "expected"),
    [(0, 0, 10.0), (0, 15_768_000, 20.0), (100, 0, 15.0)],
)
def test_a_soil_that_carries_heat_better_is_the_same_at_the_surface(depth_m, second, expected):
    """GLHE (open library of ground heat exchangers), its test of a single harmonic."""
    soil = Ground(mean_c=15, amplitude_k=5, coldest_day=0, diffusivity_m2_s=1e-6)
    assert ground_temperature_c(soil, depth_m, second / DAY_S) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("depth_m", "day", "expected"),
    [
        (0, 35, 2.000),
        (1, 35, 6.228),
        (2, 35, 9.431),
        (3, 35, 11.398),
        (2, 218, 14.596),
        (3, 218, 12.624),
        (2, 100, 8.009),
        (3, 300, 14.612),
    ],
)
def test_deeper_ground_lags_behind(depth_m, day, expected):
    """Kusuda and Achenbach's formula, worked apart from this in double precision, to 0.001."""
    assert ground_temperature_c(HANDBOOK, depth_m, day) == pytest.approx(expected, abs=1e-3)


def test_without_the_lag_of_depth_it_is_two_degrees_wrong():
    """EnergyPlus' documentation once printed the formula without z/δ in the cosine: 14.62 °C at
    3 m on day 218. Its code, and this, have 12.62."""
    lagless = 12 - 10 * math.exp(-3 / 2.2403) * math.cos(2 * math.pi * (218 - 35) / 365)
    assert lagless == pytest.approx(14.62, abs=0.005)
    assert ground_temperature_c(HANDBOOK, 3, 218) == pytest.approx(12.62, abs=0.005)


def test_the_coldest_day_comes_late_below():
    """Kusuda and Achenbach, worked apart: δ 2.2403 m, swing 0.2621 of the surface's at 3 m,
    77.8 days late; at 2 m coldest on day 86.9 with 7.905 °C."""
    assert damping_depth_m(HANDBOOK) == pytest.approx(2.2403, abs=1e-4)
    assert (12 - coldest_c(HANDBOOK, 3)) / 10 == pytest.approx(0.2621, abs=1e-4)
    assert coldest_day_at(HANDBOOK, 3) - 35 == pytest.approx(77.8, abs=0.05)
    assert coldest_day_at(HANDBOOK, 2) == pytest.approx(86.9, abs=0.05)
    assert coldest_c(HANDBOOK, 2) == pytest.approx(7.905, abs=1e-3)


def test_upland_ground_freezes_deeper_by_the_wave_than_the_office_says():
    """The demo's climate by hand: δ = √(0.5e-6 × 31,536,000/π) = 2.2403, ln(11.5/6.5) = 0.5705,
    1.278 m, where the local office gives 1.10."""
    assert freezing_reaches_m(UPLAND) == pytest.approx(2.2403 * 0.5705, abs=1e-3)
    assert coldest_c(UPLAND, freezing_reaches_m(UPLAND)) == pytest.approx(0, abs=1e-9)


def test_ground_that_never_freezes_and_ground_that_never_thaws():
    """Reasoned: a swing smaller than the mean never reaches 0 °C; a mean below it never leaves."""
    assert (
        freezing_reaches_m(
            Ground(mean_c=12, amplitude_k=12, coldest_day=0, diffusivity_m2_s=0.5e-6)
        )
        == 0
    )
    assert freezing_reaches_m(Ground(mean_c=-1, amplitude_k=12, coldest_day=0,
                                     diffusivity_m2_s=0.5e-6)) is None  # fmt: skip


@given(grounds, depths_m, days)
def test_a_year_later_it_is_the_same(ground, depth_m, day):
    again = ground_temperature_c(ground, depth_m, day + 365)
    assert again == pytest.approx(ground_temperature_c(ground, depth_m, day), abs=1e-6)


@given(grounds, depths_m, days)
def test_it_is_never_colder_than_the_coldest_day_nor_the_swing_larger_below(ground, depth_m, day):
    found = ground_temperature_c(ground, depth_m, day)
    assert coldest_c(ground, depth_m) - 1e-9 <= found
    assert abs(found - ground.mean_c) <= ground.amplitude_k + 1e-9
    assert coldest_c(ground, depth_m) <= coldest_c(ground, depth_m + 0.5) + 1e-12


@given(grounds, depths_m)
def test_the_coldest_day_is_the_coldest(ground, depth_m):
    at = ground_temperature_c(ground, depth_m, coldest_day_at(ground, depth_m))
    assert at == pytest.approx(coldest_c(ground, depth_m), abs=1e-9)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"mean_c": 61}, "mean"),
        ({"mean_c": math.nan}, "mean"),
        ({"amplitude_k": -0.1}, "amplitude"),
        ({"amplitude_k": 60.1}, "amplitude"),
        ({"coldest_day": 365.1}, "coldest day"),
        ({"coldest_day": -0.1}, "coldest day"),
        ({"diffusivity_m2_s": 0.04e-6}, "diffusivity"),
        ({"diffusivity_m2_s": 1.6e-6}, "diffusivity"),
    ],
)
def test_ground_outside_its_range_is_refused_by_name(more, word):
    usual = {"mean_c": 10, "amplitude_k": 10, "coldest_day": 20, "diffusivity_m2_s": 0.5e-6}
    with pytest.raises(ValueError, match=word):
        Ground(**{**usual, **more})


def test_the_edges_of_the_range_are_in_it():
    for mean_c in (-60, 60):
        Ground(mean_c=mean_c, amplitude_k=60, coldest_day=365, diffusivity_m2_s=0.05e-6)
    Ground(mean_c=0, amplitude_k=0, coldest_day=0, diffusivity_m2_s=1.5e-6)


@pytest.mark.parametrize("depth_m", [-0.01, math.inf, math.nan])
def test_a_depth_above_grade_is_refused(depth_m):
    with pytest.raises(ValueError, match="depth"):
        ground_temperature_c(HANDBOOK, depth_m, 0)


def test_a_mean_of_nothing_and_a_mean_just_above():
    """Reasoned: at a mean of 0 °C the wave never lets go of it; half a degree above, 0 °C is
    reached at δ ln(12/0.5)."""
    usual = {"amplitude_k": 12, "coldest_day": 0, "diffusivity_m2_s": 0.5e-6}
    assert freezing_reaches_m(Ground(mean_c=0, **usual)) is None
    near = freezing_reaches_m(Ground(mean_c=0.5, **usual))
    assert near == pytest.approx(2.2403 * math.log(24), abs=1e-3)


def test_a_mean_is_refused_from_either_end():
    for mean_c in (-60.5, 60.5):
        with pytest.raises(ValueError, match="mean"):
            Ground(mean_c=mean_c, amplitude_k=1, coldest_day=0, diffusivity_m2_s=0.5e-6)
