"""Trunks and branches by equal friction, against published sizes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_run import Air
from record.calc.trunk_size import diameter_at_rate_m, rate_pa_m, trunk_size

FOOT, INCH, CFM = 0.3048, 0.0254, 4.719474432e-4
STANDARD = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
CHART = 0.0003 * FOOT
PER_HUNDRED = 249.089 / (100 * FOOT)  # Pa/m of one in.wg in 100 ft
INCHES = [each * INCH for each in (12, 10, 8, 7, 6, 5, 4)]

flows = st.floats(0.01, 1)
rates = st.floats(0.1, 5)


def inches(cfm, per_hundred):
    return diameter_at_rate_m(cfm * CFM, per_hundred * PER_HUNDRED, CHART, STANDARD) / INCH


@pytest.mark.parametrize(
    ("cfm", "expected", "nominal"),
    [(500, 10.53, 10), (1000, 13.66, 14), (2000, 17.73, 18), (4000, 23.03, 24)],
)
def test_sizes_of_a_published_table(cfm, expected, nominal):
    """A public validation table of duct sizing at 0.1 in.wg in 100 ft names the nominal size, some
    rounded down; fluids gives the exact one. 0.01 in."""
    assert inches(cfm, 0.1) == pytest.approx(expected, abs=0.01)
    assert abs(inches(cfm, 0.1) - nominal) <= 1


@pytest.mark.parametrize(
    ("cfm", "per_hundred", "expected"),
    [
        (200, 0.08, 7.825),
        (100, 0.08, 6.047),
        (300, 0.1, 8.696),
        (200, 0.1, 7.475),
        (100, 0.1, 5.776),
    ],
)
def test_sizes_of_equal_friction_by_another_library(cfm, per_hundred, expected):
    """fluids, Colebrook. 0.01 in."""
    assert inches(cfm, per_hundred) == pytest.approx(expected, abs=0.01)


def test_three_hundred_splits_into_two_hundred_and_one_hundred():
    """fluids, at 0.1 in.wg in 100 ft: 8.696, 7.475 and 5.776 in. The rule of a constant factor
    would make the branches 7.394 and 5.604: too narrow."""
    found = trunk_size([200 * CFM, 100 * CFM], 0.1 * PER_HUNDRED, CHART, STANDARD)
    sizes = [each.exact_m / INCH for each in (found.trunk, *found.branches)]
    assert sizes == pytest.approx([8.696, 7.475, 5.776], abs=0.01)
    assert sizes[1] > 7.394 + 0.05
    assert sizes[2] > 5.604 + 0.05
    assert found.trunk.flow_m3_s == pytest.approx(300 * CFM)
    assert found.rate_pa_m == 0.1 * PER_HUNDRED
    assert found.trunk.nominal_m is None
    assert found.trunk.in_nominal is None


@pytest.mark.parametrize(("cfm", "ratio"), [(200, 1.2940), (400, 1.2953)])
def test_a_trunk_of_two_equal_branches_is_not_quite_a_third_wider(cfm, ratio):
    """fluids, Colebrook at 0.08 in.wg: 1.2940 and 1.2953, not the 1.319508 of a constant factor;
    the fit to the printed chart has 2^(1.9/5.02) = 1.29998."""
    found = inches(cfm, 0.08) / inches(cfm / 2, 0.08)
    assert found == pytest.approx(ratio, abs=1e-3)
    assert found == pytest.approx(2 ** (1.9 / 5.02), abs=7e-3)
    assert found < 1.319508 - 0.02


def test_an_eight_inch_trunk_serves_two_six_inch_branches():
    """Common practice, no source: an 8 in trunk serves two 6 in branches. Here by equal friction at
    what a 6 in branch loses with 100 cfm in it: the trunk wants 7.8 in, and 8 is the next."""
    rate = rate_pa_m(100 * CFM, 6 * INCH, CHART, STANDARD)
    found = trunk_size([100 * CFM] * 2, rate * (1 + 1e-9), CHART, STANDARD, INCHES)
    assert [each.nominal_m for each in found.branches] == [6 * INCH] * 2
    assert found.trunk.exact_m / INCH == pytest.approx(7.76, abs=0.03)
    assert found.trunk.nominal_m == 8 * INCH
    assert found.trunk.in_nominal.straight_pa < rate


def test_the_next_wider_pipe_that_can_be_had_is_named_with_the_air_in_it():
    """fluids: 100 cfm in 6 in, 509.3 fpm and 0.0831 in.wg in 100 ft."""
    found = trunk_size([100 * CFM], 0.1 * PER_HUNDRED, CHART, STANDARD, INCHES).trunk
    assert found.nominal_m == 6 * INCH
    assert found.in_nominal.velocity_m_s / (FOOT / 60) == pytest.approx(509.3, abs=0.1)
    assert found.in_nominal.total_pa / PER_HUNDRED == pytest.approx(0.0831, rel=0.01)


def test_a_pipe_of_just_the_width_wanted_will_do():
    exact = diameter_at_rate_m(100 * CFM, 0.1 * PER_HUNDRED, CHART, STANDARD)
    found = trunk_size([100 * CFM], 0.1 * PER_HUNDRED, CHART, STANDARD, [exact, 1.0]).trunk
    assert found.nominal_m == exact


def test_where_no_size_is_wide_enough_none_is_named():
    found = trunk_size([1000 * CFM], 0.1 * PER_HUNDRED, CHART, STANDARD, INCHES).trunk
    assert (found.nominal_m, found.in_nominal) == (None, None)
    assert found.exact_m / INCH == pytest.approx(13.66, abs=0.01)


def test_a_slow_flow_wants_the_width_of_poiseuilles_law():
    """Hagen–Poiseuille turned round: D = (128 μ Q/(π rate))^(1/4)."""
    expected = (128 * 1.814e-5 * 1e-3 / (math.pi * 0.01)) ** 0.25
    assert diameter_at_rate_m(1e-3, 0.01, CHART, STANDARD) == pytest.approx(expected, rel=1e-12)


def test_one_branch_alone_is_its_own_trunk():
    found = trunk_size([0.05], 1.0, CHART, STANDARD)
    assert found.trunk == found.branches[0]


@given(flows, rates)
def test_a_pipe_so_sized_loses_what_was_asked(flow, rate):
    wide = diameter_at_rate_m(flow, rate, CHART, STANDARD)
    assert rate_pa_m(flow, wide, CHART, STANDARD) == pytest.approx(rate)


@given(flows, rates, st.floats(1.01, 3))
def test_more_flow_wants_more_width_and_more_loss_wants_less(flow, rate, more):
    wide = diameter_at_rate_m(flow, rate, CHART, STANDARD)
    assert diameter_at_rate_m(flow * more, rate, CHART, STANDARD) > wide
    assert diameter_at_rate_m(flow, rate * more, CHART, STANDARD) < wide


@given(st.lists(flows, min_size=1, max_size=4), rates)
def test_a_trunk_is_never_narrower_than_a_branch(all_flows, rate):
    found = trunk_size(all_flows, rate, CHART, STANDARD)
    assert all(found.trunk.exact_m >= each.exact_m for each in found.branches)


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: trunk_size([], 1, CHART, STANDARD), "at least one branch"),
        (lambda: diameter_at_rate_m(0, 1, CHART, STANDARD), "a flow of 0 m³/s is not above 0"),
        (lambda: diameter_at_rate_m(1, 0, CHART, STANDARD), "a rate of 0 Pa/m is not above 0"),
        (lambda: diameter_at_rate_m(1, math.inf, CHART, STANDARD), "a rate of inf Pa/m"),
        (lambda: diameter_at_rate_m(0.1, 1e6, CHART, STANDARD), r"loses 1e\+06 Pa/m with 0.1 m³/s"),
        (lambda: diameter_at_rate_m(0.1, 1e-9, CHART, STANDARD), "no pipe up to 3 m wide"),
    ],
)
def test_a_number_outside_its_range_is_told_with_the_limit(refused, told):
    with pytest.raises(ValueError, match=told):
        refused()


def test_the_ends_of_the_range_of_widths_are_as_said():
    """By hand: at 99 m/s, 0.02 m³/s fills √(4 × 0.02/(99 π)) = 16.04 mm; a wall of 1 mm needs 20 mm
    to be within 0.05 D. What each loses is the most that can be asked; a little more is refused."""
    fast = rate_pa_m(0.02, 0.01604, 0, STANDARD)
    assert diameter_at_rate_m(0.02, fast * 0.99, 0, STANDARD) > 0.01604
    with pytest.raises(ValueError, match="no pipe"):
        diameter_at_rate_m(0.02, fast * 1.01, 0, STANDARD)
    rough = rate_pa_m(0.01, 0.020001, 1e-3, STANDARD)
    assert diameter_at_rate_m(0.01, rough * 0.99, 1e-3, STANDARD) > 0.02
    with pytest.raises(ValueError, match="no pipe"):
        diameter_at_rate_m(0.01, rough * 1.01, 1e-3, STANDARD)
    wide = rate_pa_m(2.0, 2.999, CHART, STANDARD)
    assert diameter_at_rate_m(2.0, wide, CHART, STANDARD) == pytest.approx(2.999)
    with pytest.raises(ValueError, match="no pipe"):
        diameter_at_rate_m(2.0, wide * 0.98, CHART, STANDARD)
