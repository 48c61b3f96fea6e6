"""Depth of frost against the worked example of the army manuals, and a root finder apart."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.frost_depth import SURFACES, Soil, frost_depth, frost_factor, stefan_m

LB_FT3_KG_M3 = 16.018463
BTU_H_FT_F_W_MK = 1.730735
FT_M = 0.3048
K_D_PER_F_D = 5 / 9


def soil(pcf, water, btu):
    return Soil(
        conductivity_w_mk=btu * BTU_H_FT_F_W_MK, dry_density_kg_m3=pcf * LB_FT3_KG_M3, water=water
    )


EXAMPLE = soil(100, 0.15, 0.78)

soils = st.builds(
    Soil,
    conductivity_w_mk=st.floats(0.2, 3),
    dry_density_kg_m3=st.floats(1000, 2200),
    water=st.floats(0.03, 0.6),
)
indices = st.floats(10, 3000)


def test_the_manuals_soil_holds_as_much_heat_as_printed():
    """UFC 3-130-06, homogeneous soil (from memory of it): L 2,160 Btu/ft³, C 28.25 Btu/(ft³ °F).
    144 Btu a pound is 334.9 kJ/kg where this takes 334, hence 0.4 %."""
    assert EXAMPLE.latent_j_m3 / 37_258.95 == pytest.approx(2160, rel=4e-3)
    assert EXAMPLE.heat_j_m3k / 67_066.1 == pytest.approx(28.25, rel=1e-3)


def test_the_manuals_example_of_one_soil():
    """UFC 3-130-06 (from memory of it): nFI 2,500 °F d over 160 days, mean 37.2 °F: vs 15.6 °F,
    α 0.33, μ 0.20, λ 0.89 by chart, frost about 5.8 ft. Solved, λ is 0.8956 and frost 5.895 ft;
    Stefan's 6.583 ft. To 2 %, and to 0.5 % where only the constants differ."""
    found = frost_depth(
        EXAMPLE,
        freezing_index_k_d=2500 * K_D_PER_F_D,
        winter_days=160,
        mean_c=5.2 * K_D_PER_F_D,
    )
    assert found.thermal_ratio == pytest.approx(0.33, abs=0.005)
    assert found.fusion == pytest.approx(0.20, abs=0.006)
    assert found.factor == pytest.approx(0.8956, abs=1e-3)
    assert found.depth_m / FT_M == pytest.approx(5.8, rel=0.02)
    assert found.depth_m / FT_M == pytest.approx(5.895, rel=5e-3)
    assert found.stefan_m / FT_M == pytest.approx(6.583, rel=5e-3)


@pytest.mark.parametrize(
    ("fusion", "ratio", "factor"),
    [
        (0.2, 0.33, 0.8976),
        (0.1, 0, 0.9839),
        (0.5, 0.5, 0.7668),
        (0.2, 1, 0.7762),
        (0.05, 2, 0.8105),
        (1, 0.2, 0.7774),
    ],
)
def test_the_factor_is_the_root_of_neumanns_equation(fusion, ratio, factor):
    """Roots found with scipy 1.17, apart from this, to the last digit kept."""
    assert frost_factor(fusion, ratio) == pytest.approx(factor, abs=5.1e-5)


def test_a_mild_place():
    """Worked with scipy: 125 lb/ft³ at 5 %, k 1.5, nFI 900 °F d over 100 days, mean 45 °F: α 1.444,
    μ 0.2594, λ 0.6728, frost 5.709 ft. The short form 1/√(1 + μ(α + 0.5)) gives 0.815, a fifth too
    much: a trap of one public notebook, which says so itself."""
    found = frost_depth(
        soil(125, 0.05, 1.5),
        freezing_index_k_d=900 * K_D_PER_F_D,
        winter_days=100,
        mean_c=13 * K_D_PER_F_D,
    )
    assert found.thermal_ratio == pytest.approx(1.444, abs=1e-3)
    assert found.fusion == pytest.approx(0.2594, rel=5e-3)
    assert found.factor == pytest.approx(0.6728, abs=1.5e-3)
    assert found.depth_m / FT_M == pytest.approx(5.709, rel=5e-3)
    short = 1 / math.sqrt(1 + found.fusion * (found.thermal_ratio + 0.5))
    assert short == pytest.approx(0.815, abs=1e-3)
    assert short / found.factor > 1.2


def test_stefan_in_plain_numbers():
    """By hand: L = 334e3 × 1600 × 0.15 = 8.016e7; √(2 × 1.5 × 500 × 86,400 / 8.016e7) = 1.2715."""
    plain = Soil(conductivity_w_mk=1.5, dry_density_kg_m3=1600, water=0.15)
    assert plain.latent_j_m3 == pytest.approx(8.016e7)
    assert stefan_m(plain, 500) == pytest.approx(1.2715, abs=1e-4)


@given(soils, st.floats(100, 3000), st.floats(20, 250), st.floats(0, 20))
def test_warm_ground_never_lets_frost_deeper_than_stefan(ground, index, winter, mean):
    found = frost_depth(ground, freezing_index_k_d=index, winter_days=winter, mean_c=mean)
    assert 0 < found.depth_m <= found.stefan_m * (1 + 1e-9)
    colder = frost_depth(ground, freezing_index_k_d=index, winter_days=winter, mean_c=mean / 2)
    assert found.depth_m <= colder.depth_m + 1e-9


@given(soils, indices)
def test_four_times_the_cold_goes_twice_as_deep_by_stefan(ground, index):
    assert stefan_m(ground, 4 * index) == pytest.approx(2 * stefan_m(ground, index))


@given(st.floats(0.01, 3), st.floats(0, 5))
def test_the_factor_solves_the_equation_it_is_named_for(fusion, ratio):
    gamma = frost_factor(fusion, ratio) / math.sqrt(2 / fusion)
    bell = math.exp(-gamma * gamma)
    left = bell / math.erf(gamma) - ratio * bell / math.erfc(gamma)
    assert left == pytest.approx(math.sqrt(math.pi) * gamma / fusion, rel=1e-6)


def test_no_winter_no_frost():
    assert stefan_m(EXAMPLE, 0) == 0


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"conductivity_w_mk": 0.09}, "conductivity"),
        ({"conductivity_w_mk": 5.1}, "conductivity"),
        ({"dry_density_kg_m3": 499}, "density"),
        ({"dry_density_kg_m3": 2501}, "density"),
        ({"water": 0}, "water"),
        ({"water": 1.01}, "water"),
    ],
)
def test_a_soil_that_is_none_is_refused(more, word):
    usual = {"conductivity_w_mk": 1.5, "dry_density_kg_m3": 1600, "water": 0.15}
    with pytest.raises(ValueError, match=word):
        Soil(**{**usual, **more})


def test_the_edges_of_the_range_are_in_it():
    Soil(conductivity_w_mk=0.1, dry_density_kg_m3=500, water=1)
    Soil(conductivity_w_mk=5, dry_density_kg_m3=2500, water=0.01)
    assert frost_factor(20, 100) > 0
    frost_depth(EXAMPLE, freezing_index_k_d=1, winter_days=365, mean_c=0)
    frost_depth(EXAMPLE, freezing_index_k_d=300, winter_days=365, mean_c=60)


@pytest.mark.parametrize(
    ("fusion", "ratio", "word"),
    [(0, 1, "fusion"), (20.1, 1, "fusion"), (1, -0.1, "ratio"), (1, 100.1, "ratio")],
)
def test_a_factor_outside_the_chart_is_refused(fusion, ratio, word):
    with pytest.raises(ValueError, match=word):
        frost_factor(fusion, ratio)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"freezing_index_k_d": 0}, "index"),
        ({"freezing_index_k_d": math.inf}, "index"),
        ({"winter_days": 0}, "winter"),
        ({"winter_days": 366}, "winter"),
        ({"mean_c": -0.1}, "stays frozen"),
        ({"mean_c": 60.1}, "mean"),
    ],
)
def test_a_winter_that_is_none_is_refused(more, word):
    usual = {"freezing_index_k_d": 500, "winter_days": 120, "mean_c": 6}
    with pytest.raises(ValueError, match=word):
        frost_depth(EXAMPLE, **{**usual, **more})


@pytest.mark.parametrize("index", [-1, math.inf, math.nan])
def test_an_index_below_nothing_is_refused(index):
    with pytest.raises(ValueError, match="index"):
        stefan_m(EXAMPLE, index)


def test_what_lies_on_top():
    """TM 5-852-4, Table 4-1: freezing index at the surface over that of the air."""
    assert SURFACES == {
        "snow": 1.0,
        "concrete": 0.75,
        "asphalt": 0.7,
        "bare soil": 0.7,
        "shaded": 0.9,
        "turf": 0.5,
        "trees": 0.3,
    }


def test_the_least_winter_is_still_one():
    """Reasoned: half a kelvin day is a winter, and frost goes √½ as deep by Stefan as for one."""
    half = frost_depth(EXAMPLE, freezing_index_k_d=0.5, winter_days=1, mean_c=0)
    assert half.stefan_m == pytest.approx(stefan_m(EXAMPLE, 1) / math.sqrt(2))
