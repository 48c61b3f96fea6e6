"""Falls of pipes against published rules, and against arithmetic shown beside each check."""

import pytest

from record.calc.falls import Level, average_slope, falls, invert_at, sags
from record.calc.least_fall import least_fall

INCH = 0.0254
FOOT = 0.3048
WITH_A_BACKFALL = [
    Level(0, 10.000),
    Level(3, 9.940),
    Level(6, 9.900),
    Level(9, 9.925),
    Level(12, 9.880),
]


@pytest.mark.parametrize(
    ("inches_a_foot", "percent", "one_in"),
    [(1 / 16, 0.5208, 192), (1 / 8, 1.0417, 96), (1 / 4, 2.0833, 48), (1 / 2, 4.1667, 24)],
)
def test_inches_a_foot_are_these_slopes(inches_a_foot, percent, one_in):
    """By hand: 1/8 in over 12 in is 1/96 = 0.010417; the others likewise."""
    [one] = falls([Level(0, 0), Level(FOOT, -inches_a_foot * INCH)])
    assert one.slope * 100 == pytest.approx(percent, abs=1e-4)
    assert 1 / one.slope == pytest.approx(one_in)


@pytest.mark.parametrize(
    ("size_in", "inches_a_foot"),
    [(1.25, 1 / 4), (2, 1 / 4), (2.5, 1 / 4), (3, 1 / 8), (4, 1 / 8), (6, 1 / 8), (8, 1 / 16)],
)
def test_drains_by_the_plumbing_code(size_in, inches_a_foot):
    """IPC Table 704.1, as adopted in Chicago 18-29-704.1: 2 1/2 in or less 1/4, 3 to 6 in 1/8,
    8 in or larger 1/16 in per foot."""
    rule = least_fall("drain", size_in * INCH)
    assert rule.slope == pytest.approx(inches_a_foot / 12)
    assert "704.1" in rule.source


@pytest.mark.parametrize(("size_in", "inches_a_foot"), [(2, 1 / 4), (3, 1 / 4), (4, 1 / 8)])
def test_drains_by_the_residential_code(size_in, inches_a_foot):
    """IRC 2024 P3005.3, as quoted by an inspection guide (weak: not the code itself): 3 in and
    smaller 1/4, 4 in and larger 1/8 in per foot."""
    rule = least_fall("dwelling drain", size_in * INCH)
    assert rule.slope == pytest.approx(inches_a_foot / 12)
    assert "P3005.3" in rule.source


def test_ten_feet_of_small_drain_drop_two_and_a_half_inches():
    """IRC 2024 P3005.3, same guide: 10 ft at 1/4 in per foot is 2.5 in."""
    assert least_fall("dwelling drain", 3 * INCH).slope * 10 * FOOT == pytest.approx(2.5 * INCH)


def test_twenty_feet_of_small_drain_drop_five_inches():
    """A public drain slope calculator's worked example (weak): 20 ft at 1/4 in per foot, 5 in."""
    assert least_fall("drain", 2 * INCH).slope * 20 * FOOT == pytest.approx(5 * INCH)


def test_a_condensate_drain_at_one_percent_is_short_of_an_eighth():
    """IMC 307.2.1, as quoted in Baltimore City Code 314.2.1: not less than one-eighth unit vertical
    in 12 units horizontal (1% slope). By hand, 1/8 in 12 is 1.0417 %."""
    rule = least_fall("condensate", 0.75 * INCH)
    assert rule.slope == pytest.approx(0.010417, abs=1e-6)
    assert rule.slope > 0.01
    assert "307.2.1" in rule.source
    assert "1 %" in rule.printed


def test_a_quarter_metre_in_twelve_and_a_half_is_two_percent():
    """By hand: 0.250 / 12.5 = 2.000 %; at 5 m 98.400 - 0.100, at 10 m 98.400 - 0.200."""
    line = [Level(0, 98.400), Level(12.5, 98.150)]
    assert falls(line)[0].slope == pytest.approx(0.02)
    assert invert_at(line, 5) == pytest.approx(98.300)
    assert invert_at(line, 10) == pytest.approx(98.200)


def test_an_average_of_one_percent_hides_a_backfall():
    """By hand: 0.060/3, 0.040/3, -0.025/3, 0.045/3; and 0.120/12 from end to end."""
    slopes = [100 * one.slope for one in falls(WITH_A_BACKFALL)]
    assert slopes == pytest.approx([2.000, 1.3333, -0.8333, 1.500], abs=1e-4)
    assert average_slope(WITH_A_BACKFALL) == pytest.approx(0.01)


def test_the_backfall_holds_a_pond():
    """By hand: the crest at 9 m holds 9.925, 0.025 over the invert at 6 m; that level is met
    between 3 m and 6 m at 3 + 3 × 0.015/0.040 = 4.125 m, so the pond is 4.875 m long."""
    [sag] = sags(WITH_A_BACKFALL)
    assert (sag.chainage_m, sag.invert_m, sag.pond_level_m, sag.to_m) == (6, 9.900, 9.925, 9)
    assert sag.depth_m == pytest.approx(0.025)
    assert sag.from_m == pytest.approx(4.125)
    assert sag.length_m == pytest.approx(4.875)
