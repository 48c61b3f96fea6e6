"""How far off the straight line a pipe may lie, by its length: the ellipse of its stations."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from record.answers import behind
from record.place.runs import stations
from record.place.strays import LONGER, Stray, strays
from tests.record.answers.shelter import numbers, panel, run, shelter
from tests.record.place.measuring import pipe, seen, site


def test_seventy_millimetres_of_slack_over_six_metres_seventy_six_let_it_stray_half_a_metre():
    """By hand: ½√(6.83² − 6.76²) = ½√(46.6489 − 45.6976) = ½ × 0.97535 = 0.4877."""
    stray = Stray(6.83, 6.76, True)
    assert stray.most_m == pytest.approx(0.4877, abs=1e-4)
    assert stray.abreast_m(3.38) == stray.most_m


def test_abreast_of_a_station_only_about_the_slack_is_left():
    """(L² − c²)/2L = 0.9513/13.66 = 0.0696, the slack being 0.07."""
    stray = Stray(6.83, 6.76, True)
    assert stray.abreast_m(0.0) == pytest.approx(0.0696, abs=1e-4)
    assert stray.abreast_m(6.76) == pytest.approx(stray.abreast_m(0.0))


def test_a_pipe_no_longer_than_its_stations_are_apart_strays_nowhere():
    assert [Stray(5.0, 5.0, True).abreast_m(s) for s in (0, 2.5, 5)] == [0, 0, 0]


angle = st.floats(0, 2 * math.pi)


@settings(max_examples=300, deadline=None)
@given(
    st.floats(0.5, 20), st.floats(0, 0.2), st.lists(st.tuples(angle, st.floats(0.05, 1)),
    min_size=1, max_size=6), st.floats(0, 1),
)  # fmt: skip
def test_no_line_of_that_length_between_the_stations_leaves_the_bound(apart, extra, bends, at):
    """A line bent at random, scaled until it is just as long as the pipe, and a point on it."""
    pipe_m = apart * (1 + extra)
    offsets = [(math.cos(a) * r * apart / 2, math.sin(a) * r * apart / 2) for a, r in bends]
    on = [(0.0, 0.0), *(((k + 1) * apart / (len(bends) + 1), 0.0) for k in range(len(bends)))]

    def line(times):
        moved = [(x + times * dx, times * dy) for (x, _), (dx, dy) in
                 zip(on[1:], offsets, strict=True)]  # fmt: skip
        return [(0.0, 0.0), *moved, (apart, 0.0)]

    def length(times):
        return math.fsum(math.dist(*two) for two in pairwise(line(times)))

    assume(length(0.0) <= pipe_m)
    low, high = 0.0, 4.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if length(middle) <= pipe_m else (low, middle)
    points = line(low)
    first = min(int(at * (len(points) - 1)), len(points) - 2)
    one, other = points[first], points[first + 1]
    part = at * (len(points) - 1) - first
    x, y = one[0] + part * (other[0] - one[0]), one[1] + part * (other[1] - one[1])
    foot = min(max(x, 0.0), apart)
    bound = Stray(pipe_m, apart, True).abreast_m(x)
    assert math.hypot(x - foot, y) <= bound + 1e-6 * apart


@pytest.mark.parametrize("along", [0.0, 0.2, 0.5, 0.9, 1.0])
def test_the_bound_is_reached_by_a_pipe_bent_once(along):
    """A pipe with one bend on the ellipse: both its halves together are just its length."""
    stray = Stray(10.5, 10.0, True)
    x, y = along * 10.0, stray.abreast_m(along * 10.0)
    assert math.hypot(x, y) + math.hypot(10.0 - x, y) == pytest.approx(10.5)


def run_of(length, *rows):
    fields = f"- pipe length: {length}\n" if length else ""
    built = seen(site(pipe(*rows, fields=fields, columns="x [m] | y [m] | centre [m] | how")))
    thing = built.thing("AIR-IN")
    return strays(thing, stations(thing, {}))


ROWS = ("1 a | 0.00 | 0.00 | 48.000 | staff", "2 b | 3.00 | 0.00 | 48.000 | staff",
        "3 c | 3.00 | 4.00 | 48.000 | staff")  # fmt: skip


def test_all_of_the_slack_may_lie_in_any_one_stretch():
    """7.10 m of pipe over 3 and 4 m: 0.10 m to spare, in the one or in the other."""
    one, other = run_of("7.10 m", *ROWS)
    assert (one.pipe_m, other.pipe_m) == (pytest.approx(3.10), pytest.approx(4.10))
    assert one.proved


def test_the_tolerance_of_a_pipes_length_is_slack_too():
    one, _ = run_of("7.00 m ± 20 mm", *ROWS)
    assert one.pipe_m == pytest.approx(3.02)


def test_a_length_nobody_wrote_is_a_declared_allowance_and_unproven():
    """A hundredth longer: ½√(1.01² − 1) = 0.0709 of the distance."""
    one, other = run_of("", *ROWS)
    assert not one.proved and "unproven" in one.words
    assert one.pipe_m == pytest.approx(3.0 * LONGER)
    assert other.most_m == pytest.approx(4.0 * math.sqrt(1.01**2 - 1) / 2)


def test_a_station_without_a_place_leaves_the_slack_of_the_others_not_known():
    rows = (ROWS[0], ROWS[1], "3 c | not recorded | not recorded | 48.000 | staff")
    one, other = run_of("7.00 m", *rows)
    assert other is None and not one.proved


def test_a_station_without_a_level_makes_no_pipe_straighter():
    rows = (ROWS[0], "2 b | 3.00 | 0.00 | not recorded | staff", ROWS[2])
    known, unknown = run_of("", *ROWS)[0], run_of("", *rows)[0]
    assert unknown.most_m > known.most_m


ENDS = [("1", "102.60", "203.00", "51.00 ± 3 mm", "20 mm"),
        ("2", "102.60", "197.00", "51.00 ± 3 mm", "20 mm")]  # fmt: skip


def across(length):
    (item,) = behind(shelter(panel(), run(stations=ENDS, pipe_length=length)), "P-1").items
    return item


def test_slack_widens_what_may_be_behind_a_panel_and_not_what_is_recorded():
    """6.00 m between stations at y 203 and 197, through the left wall at y 200. Straight: 0.60 ±
    0.08 and √(20² + 10²) = 22.4 mm. With 6.06 m it strays ½√(6.06² − 6²) = ½√0.7236 =
    0.4253 there."""
    straight, slack = across("6.00 m"), across("6.06 m")
    assert numbers(straight.across) == numbers(slack.across) == (0.52, 0.68)
    assert numbers(straight.across_may_reach) == (0.4976, 0.7024)
    assert slack.across_may_reach.from_m == pytest.approx(0.4976 - 0.4253, abs=1e-4)
    assert slack.across_may_reach.to_m == pytest.approx(0.7024 + 0.4253, abs=1e-4)
    assert "0.43 m off the straight line by its length" in slack.basis


def test_at_its_station_a_pipe_with_slack_is_known_better_than_half_way():
    """The same pipe ending in the wall: station at y 200.02, 3.00 m from the next. Within 2.00 m
    behind the panel and no farther the far half does not count."""
    near = [("1", "102.60", "200.02", "51.00 ± 3 mm", "20 mm"),
            ("2", "102.60", "212.02", "51.00 ± 3 mm", "20 mm")]  # fmt: skip
    (item,) = behind(
        shelter(panel(), run(stations=near, pipe_length="12.06 m")), "P-1", reach_m=0.5
    ).items
    (half,) = behind(
        shelter(panel(), run(stations=near, pipe_length="12.06 m")), "P-1", reach_m=5.0
    ).items
    assert item.tolerance_across_m < half.tolerance_across_m


@pytest.mark.parametrize("from_x", ["102.60", "102.10"])
def test_an_upright_pipe_whose_foot_has_no_level_may_stray_no_less(from_x):
    """A riser of 2.00 m behind the wall, 0.14 m off half-way at most; with its foot's level not
    recorded it may be 5 m long, and any of it is what is met."""

    def riser(level):
        ends = [
            ("1", from_x, "200.30", level, "20 mm"),
            ("2", "102.60", "200.30", "52.00", "20 mm"),
        ]
        (item,) = behind(shelter(panel(), run(stations=ends)), "P-1").items
        return item.across_may_reach

    known, unknown = riser("50.00"), riser("not recorded")
    assert unknown.from_m < known.from_m and unknown.to_m > known.to_m
