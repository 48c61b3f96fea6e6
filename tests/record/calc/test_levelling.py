"""Level books: what is one, and that both ways through it give one answer."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.levelling import (
    NotALevelBook,
    Row,
    Sighted,
    Stepped,
    adjusted_m,
    allowable_m,
    book_of,
    check_collimation,
    check_page,
    closure,
    height_of_collimation,
    opening_rl_m,
    rise_and_fall,
    setup_numbers,
)

# Ground heights by set-up, and the height of the line of sight above datum, in whole millimetres.
heights = st.integers(-9000, 9000)
setups = st.lists(st.tuples(heights, st.lists(heights, min_size=1, max_size=5)), min_size=1)
RUN = book_of([[2.0, 1.5, 0.5], [1.8, -1.1, 1.0]])


def staff(ground_mm, runs):
    """Return the readings a staff would give: line of sight less ground."""
    at, readings = ground_mm, []
    for sight, grounds in runs:
        readings.append([(sight - one) / 1000 for one in (at, *grounds)])
        at = grounds[-1]
    return readings


@given(heights, setups)
def test_levels_that_were_booked_from_the_ground_come_back(ground, runs):
    rows = book_of(staff(ground, runs))
    true = [ground / 1000, *(one / 1000 for _, grounds in runs for one in grounds)]
    for reduce in (rise_and_fall, height_of_collimation):
        page = reduce(rows, ground / 1000)
        assert [one.rl_m for one in page] == pytest.approx(true, abs=1e-6)


@given(heights, setups)
def test_both_ways_agree_and_every_check_of_a_right_page_holds(ground, runs):
    rows = book_of(staff(ground, runs))
    page, sights = rise_and_fall(rows, 50.0), height_of_collimation(rows, 50.0)
    assert [one.rl_m for one in page] == pytest.approx([one.rl_m for one in sights], abs=1e-6)
    assert all(one.holds for one in (*check_page(rows, page), *check_collimation(rows, sights)))


@given(heights, setups, st.integers(0, 200))
def test_a_run_opened_from_any_of_its_points_is_the_same_run(ground, runs, place):
    rows = book_of(staff(ground, runs))
    page = rise_and_fall(rows, 50.0)
    place %= len(rows)
    assert opening_rl_m(rows, place, page[place].rl_m) == pytest.approx(50.0)


@given(setups, st.integers(-50, 50))
def test_a_shared_out_run_ends_on_the_benchmark_and_leaves_the_first_point(runs, off_mm):
    rows = book_of(staff(0, runs))
    before = [one.rl_m for one in rise_and_fall(rows, 50.0)]
    after = adjusted_m(before, setup_numbers(rows), off_mm / 1000)
    assert after[0] == 50.0
    assert after[-1] == pytest.approx(before[-1] - off_mm / 1000)


def test_a_slip_in_an_intermediate_level_is_seen_by_the_second_collimation_check_alone():
    sights = list(height_of_collimation(RUN, 100.0))
    sights[1] = Sighted("2", None, sights[1].rl_m + 0.001)
    assert [one.holds for one in check_collimation(RUN, sights)] == [True, False]


def test_a_slip_in_a_fall_is_seen():
    page = list(rise_and_fall(RUN, 100.0))
    page[-1] = Stepped("5", None, page[-1].fall_m + 0.001, page[-1].rl_m)
    assert [one.holds for one in check_page(RUN, page)] == [False, False]


def test_two_backsights_running_are_named_by_row_and_point():
    rows = [
        Row(point="BM1", backsight_m=1.4),
        Row(point="CP7", backsight_m=1.1),
        Row(point="bend"),
        Row(point="CP8", foresight_m=0.9),
        Row(point="CP9", backsight_m=1.0, intermediate_m=math.nan, foresight_m=1.0),
        Row(point="BM2", intermediate_m=1.018),
    ]
    with pytest.raises(NotALevelBook) as caught:
        rise_and_fall(rows, 50.0)
    faults = caught.value.faults
    assert [(one.row, one.point) for one in faults] == [
        (2, "CP7"),
        (3, "bend"),
        (4, "CP8"),
        (5, "CP9"),
        (5, "CP9"),
        (6, "BM2"),
    ]
    assert "backsight 1.1 with no foresight, two backsights running" in str(caught.value)
    assert "foresight 0.9 with no backsight" in faults[2].what
    assert faults[1].what == "nothing booked"


@pytest.mark.parametrize(
    ("rows", "row"),
    [
        ([], 0),
        ([Row(point="BM1", backsight_m=1.4)], 1),
        ([Row(point="BM1", foresight_m=1.4), Row(point="BM2", foresight_m=1.0)], 1),
        ([Row(point="BM1", backsight_m=1.4), Row(point="BM2", backsight_m=1.0)], 2),
        ([Row(point="BM1", backsight_m=math.inf), Row(point="BM2", foresight_m=1.0)], 1),
    ],
)
def test_a_book_that_opens_or_ends_wrongly_is_refused(rows, row):
    with pytest.raises(NotALevelBook) as caught:
        height_of_collimation(rows, 50.0)
    assert [one.row for one in caught.value.faults] == [row]


def test_a_set_up_of_one_reading_fixes_nothing():
    with pytest.raises(NotALevelBook, match="set-up 2"):
        book_of([[1.4, 1.0], [1.2]])


def test_points_and_their_names_must_be_as_many():
    with pytest.raises(ValueError, match="3 points were levelled, and 2 are named"):
        book_of([[1.4, 1.0, 0.9]], ["BM1", "BM2"])


@pytest.mark.parametrize("places", [[0, 1], [0, 2, 1], [0, 0, 0], [-1, 0, 1], [0, 1, math.inf]])
def test_places_along_the_run_that_go_back_or_nowhere_are_refused(places):
    with pytest.raises(ValueError, match="along the run"):
        adjusted_m([1.0, 2.0, 3.0], places, 0.001)


@pytest.mark.parametrize(("k", "km"), [(0, 1), (12, 0), (-1, 1), (12, math.nan), (math.inf, 1)])
def test_an_allowance_of_nothing_is_refused(k, km):
    with pytest.raises(ValueError, match="must be above 0"):
        allowable_m(k, km)


def test_what_is_not_a_number_is_refused():
    for wrong in (
        lambda: rise_and_fall(RUN, math.nan),
        lambda: closure(math.nan, 50.0, 12, 1),
        lambda: adjusted_m([1.0], [1.0], math.nan),
    ):
        with pytest.raises(ValueError, match="not a number"):
            wrong()


def test_pages_that_are_not_of_this_book_are_refused():
    with pytest.raises(ValueError, match="empty page"):
        check_page(RUN, [])
    with pytest.raises(ValueError, match="5 rows and the page 1"):
        check_collimation(RUN, [Sighted("1", 102.0, 100.0)])


def test_a_page_names_its_points_as_they_were_booked_and_level_ground_rises_by_nothing():
    page = rise_and_fall(book_of([[1.0, 1.0, 0.4]]), 10.0)
    assert [one.point for one in rise_and_fall(RUN, 9.0)] == [row.point for row in RUN]
    assert (page[1].rise_m, page[1].fall_m) == (0.0, None)
