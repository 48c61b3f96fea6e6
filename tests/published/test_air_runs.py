"""Runs of air pipe as built, length by length, against published figures and the physics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_run import Air, Length, air_at, regime, run_drop
from record.calc.air_walls import wall

FOOT, INCH, CFM = 0.3048, 0.0254, 4.719474432e-4
STANDARD = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
CHART = wall("galvanised duct, chart").roughness_m

flows = st.floats(1e-4, 0.2)
factors = st.floats(1.001, 3)


def six_inch(length_m=20.0, *coefficients, name="AIR-IN"):
    return Length(
        name=name,
        length_m=length_m,
        diameter_m=6 * INCH,
        roughness_m=CHART,
        coefficients=coefficients,
    )


def test_twenty_metres_of_six_inch_with_five_fittings():
    """fluids: 20 × 0.6783 + 1.95 × 4.021 = 21.41 Pa (0.5 %); 509.3 fpm, Re 26113, f 0.02571."""
    drop = run_drop([six_inch(20.0, 0.5, 0.15, 0.15, 0.15, 1.0)], 100 * CFM, STANDARD)
    assert drop.total_pa == pytest.approx(21.41, rel=0.005)
    assert drop.straight_pa == pytest.approx(20 * 0.6783, rel=0.005)
    assert drop.fittings_pa == pytest.approx(1.95 * 4.021, rel=0.005)
    (one,) = drop.lengths
    assert one.velocity_m_s / (FOOT / 60) == pytest.approx(509.3, abs=0.1)
    assert one.velocity_pressure_pa == pytest.approx(4.021, rel=0.001)
    assert one.reynolds == pytest.approx(26113, rel=1e-3)
    assert one.friction_factor == pytest.approx(0.02571, abs=2e-5)
    assert (one.name, one.regime) == ("AIR-IN", "turbulent")
    assert one.total_pa == pytest.approx(drop.total_pa)


def test_two_sizes_in_a_row_each_lose_their_own():
    """fluids: 100 cfm lose 20.68 Pa in 100 ft of 6 in; Poiseuille's law, 128 μ L Q/(π D⁴), holds in
    a duct so wide that the flow is laminar."""
    wide = Length(name="plenum", length_m=30.48, diameter_m=2.5, roughness_m=CHART)
    drop = run_drop([six_inch(30.48), wide], 100 * CFM, STANDARD)
    poiseuille = 128 * 1.814e-5 * 30.48 * 100 * CFM / (math.pi * 2.5**4)
    assert drop.lengths[1].regime == "laminar"
    assert drop.lengths[1].total_pa == pytest.approx(poiseuille)
    assert drop.total_pa == pytest.approx(20.68 + poiseuille, rel=2e-3)
    assert [each.name for each in drop.lengths] == ["AIR-IN", "plenum"]
    assert drop.flow_m3_s == 100 * CFM


def test_still_air_loses_nothing():
    """Reasoned: no motion, no friction; and the length is still looked over."""
    drop = run_drop([six_inch(20.0, 1.0)], 0, STANDARD)
    assert (drop.total_pa, drop.straight_pa, drop.fittings_pa) == (0, 0, 0)
    (one,) = drop.lengths
    figures = (one.velocity_m_s, one.velocity_pressure_pa, one.reynolds, one.friction_factor)
    assert (figures, one.regime) == ((0, 0, 0, 0), "still")
    with pytest.raises(ValueError, match=r"AIR-IN: length -1.0 m is negative"):
        run_drop([six_inch(-1.0)], 0, STANDARD)


def test_a_huge_pipe_loses_next_to_nothing():
    """Reasoned: the loss goes down with the fifth power of the width."""
    huge = Length(name="huge", length_m=100, diameter_m=5, roughness_m=CHART)
    assert run_drop([huge], 100 * CFM, STANDARD).total_pa < 1e-4


def test_no_run_at_all_loses_nothing():
    assert run_drop([], 0.05, STANDARD).total_pa == 0


@pytest.mark.parametrize(
    ("reynolds", "told"),
    [
        (0, "still"),
        (1, "laminar"),
        (2300, "laminar"),
        (2301, "transitional"),
        (3999, "transitional"),
        (4000, "turbulent"),
    ],
)
def test_how_air_flows_is_told_by_its_reynolds_number(reynolds, told):
    """Laminar up to 2300, Colebrook proved from 4000: Moody 1944, from memory."""
    assert regime(reynolds) == told


def test_thin_air_costs_less_by_as_much_as_it_is_thinner():
    """Reasoned: in a fitting the loss goes with the density alone. U.S. Standard Atmosphere 1976,
    by fluids: pressure at 1000 m 89876.3 of 101325 Pa; temperature the same in both."""
    fittings = Length(name="bends", length_m=0, diameter_m=0.15, roughness_m=0, coefficients=(2,))
    low, high = (run_drop([fittings], 0.05, air_at(z, 20)).total_pa for z in (0, 1000))
    assert high / low == pytest.approx(89876.3 / 101325, rel=1e-5)
    assert air_at(0, 20).viscosity_pa_s == pytest.approx(1.813e-5, rel=3e-3)


def test_the_fault_of_a_length_is_told_with_its_name():
    bad = Length(name="AIR-OUT", length_m=5, diameter_m=0.02, roughness_m=0)
    with pytest.raises(ValueError, match=r"AIR-OUT: air at 159.2 m/s is faster than 100 m/s"):
        run_drop([six_inch(), bad], 0.05, STANDARD)
    with pytest.raises(ValueError, match="AIR-IN: flow -1 m³/s is not above 0"):
        run_drop([six_inch()], -1, STANDARD)


@given(flows, factors)
def test_more_flow_never_costs_less(flow, more):
    run = [six_inch(10.0, 0.3), six_inch(5.0)]
    assert run_drop(run, flow * more, STANDARD).total_pa > run_drop(run, flow, STANDARD).total_pa


@given(flows, st.floats(0.01, 100))
def test_the_unit_of_length_does_not_matter(flow, unit):
    """Reasoned: measured in lengths of `unit` metres, with all else carried over (flow by its cube,
    density by one over its cube, viscosity and pressure by one over it), the same pressure."""
    run = [six_inch(10.0, 0.3)]
    pascal = run_drop(run, flow, STANDARD).total_pa
    other = Length(
        name="other",
        length_m=10.0 / unit,
        diameter_m=6 * INCH / unit,
        roughness_m=CHART / unit,
        coefficients=(0.3,),
    )
    velocity = flow / (math.pi * (6 * INCH) ** 2 / 4)
    if velocity / unit > 90 or flow / unit**3 > 1e6:
        return  # the number, not the air, is beyond the limit of speed
    air = Air(
        density_kg_m3=STANDARD.density_kg_m3 * unit**3,
        viscosity_pa_s=STANDARD.viscosity_pa_s * unit,
    )
    assert run_drop([other], flow / unit**3, air).total_pa / unit == pytest.approx(pascal)


@given(flows)
def test_the_order_of_lengths_does_not_matter(flow):
    run = [six_inch(10.0, 0.3), six_inch(5.0, 1.0, name="x")]
    there = run_drop(run, flow, STANDARD).total_pa
    assert run_drop(run[::-1], flow, STANDARD).total_pa == pytest.approx(there)
