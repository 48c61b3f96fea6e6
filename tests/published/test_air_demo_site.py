"""The demo site's figures on air, worked through by hand from its plan; all of it is invented."""

import pytest

from record.calc.air_run import Length, air_at, run_drop
from record.calc.air_system import Part
from record.calc.air_walls import wall
from record.calc.crank_power import crank_load
from record.calc.fan_curve import FanCurve
from record.calc.fan_point import fan_point
from record.calc.people_air import Mode, shares

CRANK = 100 / 3600  # m³/s at 45 rev/min
AIR = air_at(1180, 10)  # upland; ground is cooler than a room
INTAKE = Length(
    name="AIR-IN",
    length_m=12.60 + 2.60,
    diameter_m=0.152,
    roughness_m=wall("plastic, jointed").roughness_m,
    coefficients=(0.5, 0.15, 0.15),
)


def test_its_pipes_take_next_to_nothing():
    """By hand: Q/(π 0.152²/4) = 0.027778/0.018146 = 1.5308 m/s; ρ = 101325 × (1 − 2.25577e-5 ×
    1180)^5.2559/(287.05 × 283.15) = 1.0818; ½ρV² = 1.2675 Pa; Re = 1.0818 × 1.5308 × 0.152/1.765e-5
    = 14 260; Haaland with ε/D = 4.572e-5/0.152 gives f = 0.02851, so 2.851 × 1.2675 = 3.61 Pa in
    15.2 m, and 0.8 × 1.2675 = 1.01 Pa in entry and bends. Haaland: 2 %."""
    drop = run_drop([INTAKE], CRANK, AIR)
    (one,) = drop.lengths
    assert one.velocity_m_s == pytest.approx(1.5308, abs=1e-3)
    assert one.velocity_pressure_pa == pytest.approx(1.2675, rel=2e-3)
    assert one.reynolds == pytest.approx(14260, rel=2e-3)
    assert drop.straight_pa == pytest.approx(3.61, rel=0.02)
    assert drop.fittings_pa == pytest.approx(1.01, rel=0.01)
    assert drop.total_pa < 0.02 * 255


def test_its_crank_comes_to_a_hundred_against_two_hundred_and_fifty_five():
    """By hand: pipes 4.6, valve 60, so the rest, 190.4 Pa, is left to the filter; a crank that
    gives 255 Pa at 100 m³/h on its sheet comes to 100. 0.027778 × 255/0.35 = 20.2 W."""
    filter_ = Part(name="filter", rated_m3_s=CRANK, rated_pa=190.4, exponent=1)
    valve = Part(name="OV-1", rated_m3_s=CRANK, rated_pa=0, opening_pa=60)
    sheet = FanCurve(
        points=((0.0, 400.0), (CRANK, 255.0), (1.3 * CRANK, 120.0)),
        density_kg_m3=AIR.density_kg_m3,
    )
    found = fan_point(sheet, [INTAKE], [filter_, valve], AIR)
    assert found.flow_m3_s * 3600 == pytest.approx(100, abs=0.2)
    assert found.system.openings_pa == 60
    assert found.system.parts_pa == pytest.approx(190.4, rel=2e-3)
    load = crank_load(
        flow_m3_s=found.flow_m3_s,
        pressure_pa=found.fan_pa,
        efficiency=0.35,
        rate_rev_s=0.75,
        radius_m=0.2,
    )
    assert load.shaft_w == pytest.approx(20.2, abs=0.1)


def test_its_eight_people_come_to_nineteen_hundred_and_eighteen():
    """By hand: 12.5 m³/h each; 420 + 0.0052 × 3.6e6/12.5 = 1917.6 ppm."""
    (share,) = shares([Mode("crank", 100)], 8, each_l_s=0.0052, outside_ppm=420)
    assert (share.each_m3_h, round(share.steady_ppm)) == (12.5, 1918)
