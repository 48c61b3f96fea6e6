"""The weight of earth above: hand-worked layers, and what water takes off."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.earth_load import Soil, earth_load

PSF_KPA = 0.04788026
PCF_KN_M3 = 0.1570875

soils = st.builds(
    lambda thick, moist, more: Soil(thick, moist, moist + more),
    st.floats(0.01, 3),
    st.floats(15, 20),
    st.floats(0, 3),
)


@pytest.mark.parametrize(
    ("layers", "kpa"),
    [
        ([Soil(3 * 0.3048, 120 * PCF_KN_M3, 125 * PCF_KN_M3)], 17.24),
        ([Soil(1.2, 19, 21)], 22.8),
        ([Soil(0.3, 17, 20), Soil(0.9, 19, 21)], 22.2),
    ],
)
def test_layers_add_up(layers, kpa):
    """By hand: 3 ft of 120 lb/ft³ is 360 lb/ft² (17.24 kPa); 1.2 m of 19 kN/m³ is 22.8; 0.3 of 17
    on 0.9 of 19 is 5.1 + 17.1."""
    assert earth_load(layers).total_kpa == pytest.approx(kpa, abs=0.005)


def test_three_feet_in_the_units_of_the_trade():
    load = earth_load([Soil(3 * 0.3048, 120 * PCF_KN_M3, 125 * PCF_KN_M3)])
    assert load.total_kpa / PSF_KPA == pytest.approx(360, rel=1e-5)


def test_below_the_water_it_weighs_more_and_the_grains_carry_less():
    """By hand, 2 m of 18 (20 saturated) with water at 0.5 m: 9 + 30 = 39 kPa in all, 1.5 × 9.81 =
    14.715 of it water, 24.285 on the grains."""
    load = earth_load([Soil(2.0, 18, 20)], 0.5)
    assert load.total_kpa == pytest.approx(39.0)
    assert load.water_kpa == pytest.approx(14.715)
    assert load.effective_kpa == pytest.approx(24.285)


@given(st.lists(soils, min_size=1, max_size=4), st.floats(0, 10))
def test_a_layer_cut_in_two_weighs_the_same(layers, water):
    halves = [
        Soil(each.thickness_m / 2, each.moist_kn_m3, each.saturated_kn_m3)
        for each in layers
        for _ in range(2)
    ]
    one, two = earth_load(layers, water), earth_load(halves, water)
    assert one.total_kpa == pytest.approx(two.total_kpa)
    assert one.water_kpa == pytest.approx(two.water_kpa, abs=1e-9)


@given(st.lists(soils, min_size=1, max_size=4), st.floats(0, 10), st.floats(0, 5))
def test_higher_water_never_leaves_more_on_the_grains(layers, deeper, up):
    higher = max(0.0, deeper - up)
    assert (
        earth_load(layers, higher).effective_kpa <= earth_load(layers, deeper).effective_kpa + 1e-9
    )
    assert earth_load(layers, higher).total_kpa >= earth_load(layers, deeper).total_kpa - 1e-9


def test_water_below_the_layers_is_as_good_as_none():
    layers = [Soil(1.0, 18, 20)]
    assert earth_load(layers, 1.0) == earth_load(layers, 5.0) == earth_load(layers)


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: Soil(-0.1, 18, 20), "layer"),
        (lambda: Soil(1, 21, 20), "unit weights"),
        (lambda: Soil(1, 4.9, 20), "unit weights"),
        (lambda: Soil(1, 18, 30.1), "unit weights"),
        (lambda: Soil(math.nan, 18, 20), "layer"),
        (lambda: Soil(math.inf, 18, 20), "layer"),
        (lambda: earth_load([]), "no earth"),
        (lambda: earth_load([Soil(1, 18, 20)], -0.1), "above it"),
        (lambda: earth_load([Soil(1, 18, 20)], math.inf), "not a number"),
    ],
)
def test_what_cannot_be_is_refused(call, word):
    with pytest.raises(ValueError, match=word):
        call()


def test_the_edges_of_the_range_are_in_it():
    assert earth_load([Soil(0, 5, 30)]).total_kpa == 0
