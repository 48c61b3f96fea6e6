"""Lines of pipe on the ground: which way they fall, and where water stands."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.falls import Fall, Level, average_slope, falls, invert_at, low_points, sags
from record.calc.least_fall import least_fall

# Millimetres and decimetres as whole numbers, so that shifting and turning a line is exact.
heights = st.lists(st.integers(-3000, 3000), min_size=2, max_size=12)
steps = st.lists(st.integers(1, 50), min_size=12, max_size=12)


def line(inverts, spacing=None):
    chainages = [sum((spacing or [1] * 99)[:place]) for place in range(len(inverts))]
    return [Level(float(at), float(z)) for at, z in zip(chainages, inverts, strict=True)]


def turned(levels):
    end = levels[-1].chainage_m
    return [Level(end - one.chainage_m, one.invert_m) for one in reversed(levels)]


@given(heights, steps, st.integers(-5000, 5000))
def test_raising_the_whole_line_changes_no_fall_and_no_pond(inverts, spacing, raised):
    low, high = line(inverts, spacing), line([z + raised for z in inverts], spacing)
    assert falls(low) == falls(high)
    assert low_points(low) == low_points(high)
    depths = [(one.chainage_m, one.depth_m, one.from_m, one.to_m) for one in sags(low)]
    assert depths == [(one.chainage_m, one.depth_m, one.from_m, one.to_m) for one in sags(high)]


@given(heights, steps)
def test_walking_the_line_the_other_way_swaps_every_sign(inverts, spacing):
    there = line(inverts, spacing)
    back = turned(there)
    assert [one.drop_m for one in falls(there)] == [-one.drop_m for one in reversed(falls(back))]
    assert average_slope(there) == -average_slope(back)
    assert len(low_points(there)) == len(low_points(back))
    ponds = [(one.depth_m, one.pond_level_m) for one in sags(there)]
    assert ponds == [(one.depth_m, one.pond_level_m) for one in reversed(sags(back))]


@given(heights, steps)
def test_a_pond_never_stands_above_its_crests(inverts, spacing):
    levels = line(inverts, spacing)
    for sag in sags(levels):
        assert sag.depth_m > 0
        before = [one.invert_m for one in levels if one.chainage_m <= sag.from_m]
        after = [one.invert_m for one in levels if one.chainage_m >= sag.to_m]
        assert sag.pond_level_m == min(max(before), max(after))
        assert invert_at(levels, sag.from_m) == pytest.approx(sag.pond_level_m)
        assert invert_at(levels, sag.to_m) == pytest.approx(sag.pond_level_m)
        inside = [one.invert_m for one in levels if sag.from_m < one.chainage_m < sag.to_m]
        assert max(inside) <= sag.pond_level_m
        assert min(inside) == sag.invert_m


@given(heights)
def test_a_shot_is_in_a_pond_exactly_if_it_is_lower_than_one_on_either_side(inverts):
    levels = line(inverts)
    low = {
        levels[at].chainage_m
        for at in range(1, len(inverts) - 1)
        if max(inverts[:at]) > inverts[at] < max(inverts[at + 1 :])
    }
    ponds = sags(levels)
    assert low == {
        one.chainage_m
        for one in levels
        if any(
            sag.from_m < one.chainage_m < sag.to_m and one.invert_m < sag.pond_level_m
            for sag in ponds
        )
    }


def test_a_steady_fall_holds_no_water():
    assert sags(line([10, 9, 8, 7])) == ()
    assert sags(line([10, 10, 10])) == ()


def test_a_flat_bottom_is_one_sag():
    """Crests 10 and 9; the pond at 9 begins half way down from 10 to 8, at 0.5."""
    [sag] = sags(line([10, 8, 8, 9, 7]))
    assert (sag.chainage_m, sag.depth_m, sag.from_m, sag.to_m) == (1, 1, 0.5, 3)


def test_two_bottoms_with_a_dry_hump_between_are_two_sags():
    """The hump at 2 stands above 9.4, the crest of the second."""
    first, second = sags(line([10, 9, 9.5, 9.2, 9.4]))
    assert (first.chainage_m, first.pond_level_m, first.to_m) == (1, 9.5, 2)
    assert (second.chainage_m, second.pond_level_m, second.to_m) == (3, 9.4, 4)


def test_a_hump_under_water_parts_no_pond():
    """The hump at 9.5 lies under a pond held at 10 by both ends."""
    [sag] = sags(line([10, 9.1, 9.5, 9, 10]))
    assert (sag.chainage_m, sag.pond_level_m, sag.from_m, sag.to_m) == (3, 10, 0, 4)


def test_the_depth_of_a_pond_is_as_good_as_its_bottom_and_its_crest():
    """3 mm on the bottom and 4 mm on the lower crest are 5 mm; the higher crest does not count."""
    [sag] = sags([Level(0, 10, 0.5), Level(1, 9, 0.003), Level(2, 9.5, 0.004)])
    assert sag.tolerance_m == pytest.approx(0.005)
    [sag] = sags([Level(0, 10), Level(1, 9), Level(2, 9.5, 0.004)])
    assert sag.tolerance_m is None


def test_low_points_are_where_water_gathers_ends_included():
    assert low_points(line([10, 9, 8])) == (2,)
    assert low_points(line([8, 9, 8])) == (0, 2)
    assert low_points(line([9, 8, 8, 9])) == (1,)
    assert low_points(line([9, 9])) == (0,)


@pytest.mark.parametrize(
    ("drop", "tolerance", "verdict"),
    [
        (0.012, 0.006, "falls"),
        (-0.012, 0.006, "rises"),
        (0.008, 0.006, "cannot be told"),
        (-0.008, 0.006, "cannot be told"),
        (0.0, 0.006, "cannot be told"),
        (0.0, 0.0, "level"),
        (0.012, None, "cannot be told"),
    ],
)
def test_a_fall_within_its_tolerance_cannot_be_told(drop, tolerance, verdict):
    """6 mm at both ends is 8.5 mm on the drop (6 × √2): 12 mm is told, 8 mm is not."""
    [one] = falls([Level(0, 0.0, tolerance), Level(1, -drop, tolerance)])
    assert one.verdict == verdict


def test_a_drop_just_as_great_as_its_tolerance_is_not_proved():
    assert Fall(0, 1, 0.5, 0.5, 0.5).verdict == "cannot be told"


@given(st.integers(-50, 50), st.integers(0, 50), st.integers(0, 50) | st.none())
def test_a_worse_tolerance_never_proves_more(drop, tolerance, more):
    better = Fall(0, 1, drop, drop, tolerance)
    worse = Fall(0, 1, drop, drop, None if more is None else tolerance + more)
    assert worse.verdict in (better.verdict, "cannot be told")
    assert worse.booked == better.booked


def test_a_drop_without_a_tolerance_still_says_which_way_it_was_booked():
    [one] = falls([Level(0, 9.0), Level(4, 9.1, 0.005)])
    assert (one.booked, one.certain, one.tolerance_m) == ("rises", None, None)


@pytest.mark.parametrize("work", [falls, sags, low_points, average_slope])
@pytest.mark.parametrize(
    ("levels", "said"),
    [
        ([], "has 0"),
        ([Level(0, 9)], "at least two"),
        ([Level(0, 9), Level(0, 8)], "does not come after 0 m"),
        ([Level(3, 9), Level(2, 8)], "2 m does not come after 3 m"),
        ([Level(0, math.nan), Level(1, 8)], "nan"),
        ([Level(0, 9), Level(math.inf, 8)], "inf"),
        ([Level(0, 9, -0.1), Level(1, 8)], "-0.1"),
    ],
)
def test_shots_that_are_no_line_are_refused(work, levels, said):
    with pytest.raises(ValueError, match=said):
        work(levels)


def test_nothing_is_known_beyond_the_last_shot():
    with pytest.raises(ValueError, match="7 m is outside the shots"):
        invert_at(line([9, 8]), 7)


def test_a_size_between_two_rows_takes_the_steeper():
    """7 in stands between 6 (1/8) and 8 (1/16 in per foot)."""
    assert least_fall("drain", 7 * 0.0254).slope == pytest.approx(1 / 96)
    assert least_fall("drain", 0.070).slope == pytest.approx(1 / 48)
    assert least_fall("drain", 0.5 * 0.0254).slope == pytest.approx(1 / 48)
    assert least_fall("dwelling drain", 0.5 * 0.0254).slope == pytest.approx(1 / 48)
    assert least_fall("condensate", 0.5 * 0.0254).slope == pytest.approx(1 / 96)


@pytest.mark.parametrize(
    ("use", "size"), [("gutter", 0.1), ("drain", 0.0), ("drain", math.nan), ("drain", math.inf)]
)
def test_a_use_or_size_without_a_rule_is_refused(use, size):
    with pytest.raises(ValueError, match=r"no least fall|not a size"):
        least_fall(use, size)
