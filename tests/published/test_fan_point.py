"""A fan's curve and the resistance of its way of air, against published examples and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_run import Air, Length, air_at
from record.calc.air_system import STANDARD_KG_M3, Part, system_drop
from record.calc.fan_curve import FanCurve, fan_in, fan_pressure_pa
from record.calc.fan_point import fan_point

MM_WG = 9.80665  # Pa
STANDARD = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
SMALL = FanCurve(points=((0.0, 400.0), (0.02, 350.0), (0.05, 100.0)))

# boilerfans.in, "System resistance vs fan curve": flow m³/s, pressure mm of water.
PRINTED = [(10, 800), (15, 700), (20, 550), (25, 380), (30, 200)]


def opening(pascal, at_m3_s, **more):
    return Part(name="opening", rated_m3_s=at_m3_s, rated_pa=pascal, **more)


def test_a_published_fan_meets_its_system_at_twenty_two():
    """The page named above: its fan against 100 mm at 10 m³/s, rising with the square; it reads off
    about 22 m³/s and 480 mm."""
    fan = FanCurve(points=tuple((flow, mm * MM_WG) for flow, mm in PRINTED))
    found = fan_point(fan, [], [opening(100 * MM_WG, 10)], STANDARD)
    assert found.flow_m3_s == pytest.approx(22, abs=0.1)
    assert found.fan_pa / MM_WG == pytest.approx(480, rel=0.01)
    assert found.system.total_pa == pytest.approx(found.fan_pa)


@pytest.mark.parametrize(
    ("flow", "mm"), [(10, 100), (15, 225), (20, 400), (22, 484), (25, 625), (30, 900)]
)
def test_the_system_of_the_same_page(flow, mm):
    """The same page prints its system: 100 at 10, 225 at 15 … 900 mm at 30."""
    drop = system_drop([], [opening(100 * MM_WG, 10)], flow, STANDARD)
    assert drop.total_pa / MM_WG == pytest.approx(mm)


def test_a_slow_flow_meets_a_falling_line_where_algebra_says():
    """By hand: Poiseuille's law is a straight line, 128 μ L/(π D⁴); so is the fan from 5 Pa at none
    to none at 6e-4 m³/s; they meet at 5/(5/6e-4 + slope)."""
    pipe = Length(name="pipe", length_m=20, diameter_m=0.05, roughness_m=1e-4)
    slope = 128 * 1.814e-5 * 20 / (math.pi * 0.05**4)
    fan = FanCurve(points=((0.0, 5.0), (6e-4, 0.0)))
    found = fan_point(fan, [pipe], [], STANDARD)
    flow = 5 / (5 / 6e-4 + slope)
    assert found.flow_m3_s == pytest.approx(flow, rel=1e-9)
    assert found.air_w == pytest.approx(flow * flow * slope, rel=1e-9)
    assert found.system.run.lengths[0].regime == "laminar"


def test_a_valve_takes_its_opening_and_then_the_flow():
    """By hand: 60 to open and 40 (Q/0.02)² more; at 0.01, 60 + 10; still air is held back by the
    valve and pushes nothing through."""
    valve = opening(40, 0.02, opening_pa=60)
    drop = system_drop([], [valve], 0.01, STANDARD)
    assert (drop.openings_pa, drop.parts_pa) == (60, pytest.approx(10))
    assert drop.total_pa == pytest.approx(70)
    assert [(each.name, each.opening_pa) for each in drop.parts] == [("opening", 60)]
    still = system_drop([], [valve], 0, STANDARD)
    assert (still.total_pa, still.openings_pa) == (0, 0)


def test_a_fan_too_weak_to_open_a_valve_moves_nothing():
    """Reasoned: 50 Pa at most, 60 to open."""
    weak = FanCurve(points=((0.0, 50.0), (0.05, 0.0)))
    found = fan_point(weak, [], [opening(40, 0.02, opening_pa=60)], STANDARD)
    assert (found.flow_m3_s, found.fan_pa, found.air_w) == (0, 50, 0)


def test_pipe_parts_and_opening_add_up():
    """fluids: 20 m of 6 in at 100 cfm 13.566 Pa; by hand a mat at rated flow 80, an opening at half
    its rated flow a quarter of 40, and 60 to open."""
    flow = 100 * 4.719474432e-4
    pipe = Length(name="pipe", length_m=20, diameter_m=0.1524, roughness_m=0.0003 * 0.3048)
    mat = Part(name="mat", rated_m3_s=flow, rated_pa=80, exponent=1)
    drop = system_drop([pipe], [mat, opening(40, 2 * flow, opening_pa=60)], flow, STANDARD)
    assert drop.total_pa == pytest.approx(13.566 + 80 + 10 + 60, rel=1e-3)
    assert drop.run.total_pa == pytest.approx(13.566, rel=5e-3)
    assert drop.flow_m3_s == flow


def test_in_thin_air_an_opening_costs_less_and_a_mat_the_same():
    """Reasoned: turbulent loss goes with density, laminar with viscosity alone. Half the density:
    half of 40, all of 80; and at n 1.5 the square root of a half of 30."""
    thin = Air(density_kg_m3=STANDARD_KG_M3 / 2, viscosity_pa_s=1.8e-5)
    parts = [opening(40, 0.02), Part(name="mat", rated_m3_s=0.02, rated_pa=80, exponent=1)]
    parts.append(opening(30, 0.02, exponent=1.5))
    found = [each.flow_pa for each in system_drop([], parts, 0.02, thin).parts]
    assert found == pytest.approx([20, 80, 30 * math.sqrt(0.5)])


def test_standard_air_is_what_sheets_are_written_for():
    """0.075 lb/ft³ in SI."""
    assert pytest.approx(0.075 * 0.45359237 / 0.3048**3, rel=1e-4) == STANDARD_KG_M3
    assert Part(name="x", rated_m3_s=1, rated_pa=1).rated_kg_m3 == STANDARD_KG_M3
    assert SMALL.density_kg_m3 == STANDARD_KG_M3


# The curve


def test_a_sheet_is_read_on_straight_lines():
    """By hand: half way from 350 to 100."""
    assert fan_pressure_pa(SMALL, 0.035) == pytest.approx(225)
    assert [fan_pressure_pa(SMALL, flow) for flow in (0, 0.02, 0.05)] == [400, 350, 100]


@pytest.mark.parametrize("flow", [-0.001, 0.0501, math.nan])
def test_nothing_is_read_beyond_the_sheet(flow):
    with pytest.raises(ValueError, match=r"outside the sheet, which goes from 0 to 0.05 m³/s"):
        fan_pressure_pa(SMALL, flow)


@pytest.mark.parametrize(
    ("speed", "density", "flow", "pascal"),
    [(1, 1.2014, 1, 1), (0.8, 1.2014, 0.8, 0.64), (1, 0.6007, 1, 0.5), (1.1, 1.0, 1.1, 1.00716)],
)
def test_the_fan_laws(speed, density, flow, pascal):
    """ANSI/AMCA 210, from memory: flow with speed, pressure with its square and with density; by
    hand 1.21/1.2014 = 1.00716."""
    found = fan_in(SMALL, density_kg_m3=density, speed=speed)
    assert [q / 0.05 for q, _ in found.points] == pytest.approx([0, 0.4 * flow, flow])
    assert [p / 400 for _, p in found.points] == pytest.approx(
        [pascal, 0.875 * pascal, pascal / 4], rel=1e-4
    )
    assert found.density_kg_m3 == density


def test_on_openings_alone_altitude_leaves_the_flow_and_takes_pressure():
    """Reasoned: fan and opening lose alike with density, so they meet at the same flow."""
    low = fan_point(SMALL, [], [opening(100, 0.03)], STANDARD)
    high = fan_point(SMALL, [], [opening(100, 0.03)], air_at(3000, 20))
    assert high.flow_m3_s == pytest.approx(low.flow_m3_s)
    ratio = air_at(3000, 20).density_kg_m3 / 1.2014
    assert high.fan_pa / low.fan_pa == pytest.approx(ratio)
    assert high.curve.density_kg_m3 == air_at(3000, 20).density_kg_m3


def test_a_crank_turned_slower_on_openings_moves_less_in_proportion():
    """Reasoned from the fan laws: on a square-law way of air, flow goes with the speed."""
    whole = fan_point(SMALL, [], [opening(100, 0.03)], STANDARD)
    slow = fan_point(SMALL, [], [opening(100, 0.03)], STANDARD, speed=0.75)
    assert slow.flow_m3_s == pytest.approx(0.75 * whole.flow_m3_s)


def test_a_point_off_the_sheet_is_not_invented():
    late = FanCurve(points=((0.02, 350.0), (0.05, 100.0)))
    with pytest.raises(ValueError, match=r"at 0.02 m³/s, the lowest flow of its sheet, the fan"):
        fan_point(late, [], [opening(1000, 0.02)], STANDARD)
    with pytest.raises(ValueError, match="650 Pa too weak"):
        fan_point(late, [], [opening(1000, 0.02)], STANDARD)
    with pytest.raises(ValueError, match="too weak"):
        fan_point(late, [], [opening(350.5, 0.02)], STANDARD)
    with pytest.raises(ValueError, match=r"at 0.05 m³/s, the highest .* 90 Pa to spare"):
        fan_point(late, [], [opening(10, 0.05)], STANDARD)


def test_a_point_just_on_the_ends_of_the_sheet_is_found():
    """By hand: the way takes just 100 Pa at the last point, 350 at the first."""
    late = FanCurve(points=((0.02, 350.0), (0.05, 100.0)))
    at_end = fan_point(late, [], [opening(100, 0.05)], STANDARD)
    at_start = fan_point(late, [], [opening(350, 0.02)], STANDARD)
    assert (at_end.flow_m3_s, at_start.flow_m3_s) == pytest.approx((0.05, 0.02))


# What must hold of any fan

rated = st.floats(20, 2000)


@given(rated, st.floats(1.001, 3))
def test_more_resistance_never_gives_more_air(pascal, more):
    fan = FanCurve(points=((0.0, 400.0), (0.02, 350.0), (0.05, 0.0)))
    free = fan_point(fan, [], [opening(pascal, 0.03)], STANDARD)
    tight = fan_point(fan, [], [opening(pascal * more, 0.03)], STANDARD)
    assert tight.flow_m3_s < free.flow_m3_s
    assert tight.fan_pa >= free.fan_pa


@given(rated, st.floats(0.6, 0.99))
def test_a_faster_crank_never_gives_less(pascal, slower):
    fan = FanCurve(points=((0.0, 400.0), (0.05, 0.0)))
    parts = [opening(pascal, 0.03, opening_pa=20)]
    slow = fan_point(fan, [], parts, STANDARD, speed=slower)
    assert slow.flow_m3_s <= fan_point(fan, [], parts, STANDARD).flow_m3_s


@given(rated, st.floats(0.1, 10), st.floats(0.1, 10))
def test_the_units_of_flow_and_pressure_do_not_matter(pascal, flow_unit, pressure_unit):
    """Reasoned: both curves written in other units meet at the same place, in those units."""
    fan = FanCurve(points=((0.0, 400.0), (0.02, 350.0), (0.05, 0.0)))
    other = FanCurve(points=tuple((q * flow_unit, p * pressure_unit) for q, p in fan.points))
    here = fan_point(fan, [], [opening(pascal, 0.03)], STANDARD)
    there = fan_point(other, [], [opening(pascal * pressure_unit, 0.03 * flow_unit)], STANDARD)
    assert there.flow_m3_s == pytest.approx(here.flow_m3_s * flow_unit)
    assert there.fan_pa == pytest.approx(here.fan_pa * pressure_unit)


# What is refused


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: FanCurve(points=((0.0, 1.0),)), "at least two points"),
        (lambda: FanCurve(points=((0.0, 2.0), (0.0, 1.0))), "the flows do not rise: 0 m³/s comes"),
        (lambda: FanCurve(points=((0.0, 200.0), (0.1, 210.0))), "rises from 200 to 210 Pa between"),
        (lambda: FanCurve(points=((-0.1, 2.0), (0.1, 1.0))), "2 Pa at -0.1 m³/s is negative"),
        (lambda: FanCurve(points=((0.0, 2.0), (0.1, -1.0))), "-1 Pa at 0.1 m³/s is negative"),
        (lambda: FanCurve(points=((0.0, 2.0), (math.inf, 1.0))), "inf m³/s is negative or not"),
        (lambda: FanCurve(points=((0.0, math.inf), (1.0, 1.0))), "inf Pa at 0 m³/s"),
        (lambda: FanCurve(points=SMALL.points, density_kg_m3=0), "density of 0 kg/m³ is not above"),
        (lambda: fan_in(SMALL, density_kg_m3=1.2, speed=0.49), "0.49 of the sheet's is outside"),
        (lambda: fan_in(SMALL, density_kg_m3=1.2, speed=1.51), "outside 0.5 to 1.5"),
        (lambda: fan_in(SMALL, density_kg_m3=math.inf), "density of inf kg/m³ is not above 0"),
        (lambda: fan_in(SMALL, density_kg_m3=0), "density of 0 kg/m³ is not above 0"),
        (lambda: opening(1, 0), "opening: a rated flow of 0 m³/s is not above 0"),
        (lambda: opening(1, math.inf), "opening: a rated flow of inf m³/s is not above 0"),
        (lambda: opening(math.inf, 1), "opening: a rated pressure of inf Pa is negative"),
        (lambda: opening(-1, 1), "opening: a rated pressure of -1 Pa is negative"),
        (lambda: opening(1, 1, opening_pa=-1), "opening: an opening of -1 Pa is negative"),
        (lambda: opening(1, 1, exponent=0.99), "exponent of 0.99 is outside 1 to 2"),
        (lambda: opening(1, 1, exponent=2.01), "exponent of 2.01 is outside 1 to 2"),
        (lambda: opening(1, 1, rated_kg_m3=0), "rated density of 0 kg/m³ is not above 0"),
        (lambda: system_drop([], [], -1, STANDARD), "a flow of -1 m³/s is negative"),
        (lambda: system_drop([], [], math.inf, STANDARD), "a flow of inf m³/s is negative or"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_every_range_are_in_it():
    assert fan_in(SMALL, density_kg_m3=STANDARD_KG_M3).points == SMALL.points
    assert fan_in(SMALL, density_kg_m3=1.2, speed=0.5).most_m3_s == pytest.approx(0.025)
    assert fan_in(SMALL, density_kg_m3=1.2, speed=1.5).least_m3_s == 0
    level = FanCurve(points=((0.0, 100.0), (0.1, 100.0), (0.2, 0.0)))
    assert fan_pressure_pa(level, 0.05) == 100
    assert opening(0, 1, exponent=1).rated_pa == 0
