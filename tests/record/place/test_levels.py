"""Level runs as they were booked in day sheets: reduced, closed, adjusted, and put in place."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.calc.levelling import book_of, rise_and_fall
from record.place.level_rows import books
from record.place.levels import OPEN_M, READING_M, level_runs
from tests.record.building import day
from tests.record.place.measuring import DAY, book, mark, pipe, seen, site
from tests.record.place.published_books import PUBLISHED, Book

AIR_IN = pipe("1 foot | 27.00 | 2.00 | staff", "2 bend | 24.00 | 6.00 | staff")
BM1, BM2 = mark("BM1", "50.000 m"), mark("BM2", "50.412 m ± 1 mm", "levelled from BM1")
#: Three crowns from BM1, closed on BM2 over 60 m: by hand 50 + 1.432 - 1.018 = 50.414, 2 mm high,
#: of 12 √0.06 = 2.94 allowed.
CROWNS = (
    ("BM1", 1.432, None, None, 28),
    ("AIR-IN 1 crown", None, 3.426, None, 26),
    ("AIR-IN 2 crown", None, 3.526, None, 22),
    ("BM2", None, None, 1.018, 32),
)


def run_of(*blocks, rows=CROWNS, marks=(BM1, BM2, AIR_IN), **more):
    built = seen(site(*marks), day(DAY, "ld", book(*rows, **more), *blocks))
    [run] = level_runs(built)
    return run


def level_of(built, tag="AIR-IN", key="2", name="level"):
    return built.thing(tag).part(key).value(name)


@pytest.mark.parametrize("case", PUBLISHED, ids=lambda case: case.name)
def test_a_published_book_comes_out_of_the_record_as_it_was_printed(case: Book):
    run = run_of(rows=case.rows, marks=(mark(case.mark, case.level),))
    assert not run.faults and not run.sums
    assert [point.reduced_m for point in run.points] == pytest.approx(case.levels_m, abs=1e-6)


@pytest.mark.parametrize(
    ("opening", "row", "printed"),
    [
        # askfilo 3337383433303333, two published solutions that are wrong. One holds a foresight
        # against the new backsight, so that the first change point is counted twice: its third
        # step, from 151.490 m, goes to 151.490 + 0.988 - 2.090 = 150.388 m.
        ("150.250 m", 4, {2: "151.490", 3: "150.388"}),
        # The other takes every reading from the opening level: 432.384 - 2.228 = 430.156 m, then
        # less 1.606, 428.550 m, where the readings give a rise of 0.622.
        ("432.384 m", 2, {0: "430.156", 1: "428.550"}),
    ],
)
def test_a_published_solution_that_is_wrong_is_caught_at_the_row_where_it_goes_wrong(
    opening, row, printed
):
    [case] = [case for case in PUBLISHED if case.name == "moved three times"]
    rows = [(*one, printed.get(place, "none")) for place, one in enumerate(case.rows)]
    run = run_of(rows=rows, marks=(mark("P1", opening),), extra=("reduced level [m]",))
    assert [number for number, _ in run.slips] == [row]


def test_a_book_whose_own_page_agrees_has_no_slips():
    [case] = [case for case in PUBLISHED if case.name == "moved three times"]
    rows = [(*one, f"{level:.3f}") for one, level in zip(case.rows, case.levels_m, strict=True)]
    run = run_of(rows=rows, marks=(mark("P1", "150.250 m"),), extra=("reduced level [m]",))
    assert run.slips == ()


def test_a_run_that_closes_is_told_with_what_was_allowed():
    run = run_of()
    assert run.closes is True
    assert run.misclosure_m == pytest.approx(0.002)
    assert run.allowed_m == pytest.approx(0.012 * math.sqrt(0.06))
    assert "closed +2 mm on BM2 of 2.9 allowed" in run.words


def test_a_closed_run_shares_its_misclosure_and_counts_the_correction_as_a_doubt():
    """One set-up: the whole 2 mm is taken off, 51.432 - 3.526 - 0.002 = 47.904. Two readings of
    2 mm each and the 2 mm: √(2² + 2² + 2²) = 3.46 mm."""
    bend = run_of().points[2]
    assert bend.reduced_m == pytest.approx(47.906)
    assert bend.level_m == pytest.approx(47.904)
    assert bend.own_m == pytest.approx(math.sqrt(12) / 1000)


def test_a_run_that_does_not_close_is_kept_unadjusted_with_all_it_is_out_by():
    """1.018 read as 1.118: 100 mm low against 2.9. Tolerance √2 × 2 + 98 mm by hand."""
    run = run_of(rows=(*CROWNS[:-1], ("BM2", None, None, 1.118, 32)))
    assert run.closes is False
    assert "DOES NOT CLOSE: -98 mm on BM2 of 2.9 allowed" in run.words
    assert run.points[2].level_m == run.points[2].reduced_m
    assert run.points[2].own_m == pytest.approx(0.002 * math.sqrt(2) + 0.098)


def test_a_run_that_came_back_to_nothing_known_is_worth_the_declared_default():
    run = run_of(marks=(BM1, AIR_IN))
    assert run.closes is None and "never closed" in run.words
    assert run.points[1].own_m == OPEN_M > READING_M


def test_without_any_distance_it_cannot_be_told_how_much_is_allowed():
    run = run_of(rows=[(*row[:4], "not recorded") for row in CROWNS])
    assert run.closes is None and run.misclosure_m == pytest.approx(0.002)
    assert "no distance is recorded" in run.words


def test_the_allowance_the_job_asks_for_goes_before_the_usual_one():
    """US second order class II, 8.4 mm on a kilometre: 8.4 √0.06 = 2.06 mm, so 2 mm closes."""
    tight = run_of(fields="- allowed over 1 km: 8.4 mm\n- allowed from: engineer")
    assert tight.allowed_m == pytest.approx(0.0084 * math.sqrt(0.06))
    assert tight.closes and "engineer" in tight.allowed_words
    assert run_of(fields="- allowed over 1 km: 8 mm\n- allowed from: engineer").closes is False


@pytest.mark.parametrize(
    ("k_mm", "km", "allowed_mm"),
    [(12, 1, 12.00), (18, 1, 18.00), (12, 0.25, 6.00), (18, 0.25, 9.00), (12, 0.1, 3.79),
     (18, 0.1, 5.69), (12, 30.5, 66.27), (8.4, 1.6, 10.63)],
)  # fmt: skip
def test_what_is_allowed_goes_with_the_root_of_the_length(k_mm, km, allowed_mm):
    """k of third and fourth order: South Australia, Surveyor-General; 8.4, second order class II:
    US Army EN0593, p. 4-4. Roots by hand."""
    rows = [(*CROWNS[0][:4], km * 500), *CROWNS[1:3], (*CROWNS[3][:4], km * 500)]
    run = run_of(rows=rows, fields=f"- allowed over 1 km: {k_mm} mm\n- allowed from: job")
    assert run.allowed_m * 1000 == pytest.approx(allowed_mm, abs=0.005)


def test_a_published_loop_of_thirty_kilometres_does_not_close():
    """askfilo 3338343738343531: from 728.730 m round by five marks to 728.486, 30.5 km: 244 mm
    low against 66.27. Each leg as one set-up, its distance that of the foresight."""
    levels = (728.730, 783.213, 891.764, 843.195, 739.708, 702.956, 728.486)
    along_km = (0, 5.245, 11.271, 17.718, 21.964, 25.247, 30.500)
    rows = [("BM1", 200.0, None, None, "not recorded")]
    for number in range(1, 7):
        back = None if number == 6 else 200.0
        ahead = round(200.0 - (levels[number] - levels[number - 1]), 3)
        leg_m = round((along_km[number] - along_km[number - 1]) * 1000)
        rows.append(("BM1" if number == 6 else f"M{number}", back, None, ahead, leg_m))
    run = run_of(rows=rows, marks=(mark("BM1", "728.730 m"),))
    assert [point.reduced_m for point in run.points] == pytest.approx(levels, abs=1e-6)
    assert (round(run.misclosure_m, 4), run.closes) == (-0.244, False)
    assert run.allowed_m == pytest.approx(0.06627, abs=5e-6)


def test_a_reading_that_is_missing_names_its_row():
    rows = (CROWNS[0], ("AIR-IN 1 crown", None, None, None, 26), *CROWNS[2:])
    [(number, says)] = run_of(rows=rows).faults
    assert number == 2 and "AIR-IN 1 crown" in says


def test_a_staff_held_upside_down_reads_above_the_line_of_sight():
    """50.000 + 1.432 + 1.2 = 52.632, less the 2 mm the run closed by."""
    rows = [(*row, "upright") for row in CROWNS]
    rows[1] = ("soffit", None, 1.2, None, 26, "inverted")
    run = run_of(rows=rows, extra=("staff",))
    assert run.points[1].level_m == pytest.approx(52.630)


def test_two_runs_booked_one_under_the_other_are_two():
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS, *CROWNS)))
    assert [len(rows) for rows in books(built)] == [4, 4]


def test_a_book_goes_on_past_a_row_that_was_withdrawn_and_stops_at_another_block():
    withdrawn = "## withdrawn\n\n- mends: ld-9\n- because: that was the other pipe\n"
    sheets = (site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS), "## remark AIR-IN\n\nWet.\n",
                                          book(*CROWNS)))  # fmt: skip
    assert [len(rows) for rows in books(seen(*sheets))] == [4, 4]
    assert [len(rows) for rows in books(seen(*sheets, day(DAY, "ld", withdrawn, part="b")))] == [
        3,
        4,
    ]


def test_rows_of_one_name_are_one_run_whatever_stands_between():
    named = "- run name: L1"
    sheet = day(DAY, "ld", book(*CROWNS[:2], fields=named), "## remark AIR-IN\n\nWet.\n",
                book(*CROWNS[2:], fields=named))  # fmt: skip
    (run,) = level_runs(seen(site(BM1, BM2, AIR_IN), sheet))
    assert run.closes and "run L1 from BM1" in run.words


def test_a_station_without_a_level_takes_the_one_that_was_levelled_with_its_basis():
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS)))
    level = level_of(built)
    assert (level.part.value, float(level.height.si)) == ("crown", pytest.approx(47.904))
    [first, *_] = built.thing("AIR-IN").part("2").held("level")
    assert "levelled, run of 2031-05-14" in first.worked and "closed +2 mm" in first.worked
    assert first.on == DAY


def test_a_level_that_a_crew_wrote_stays_what_they_wrote():
    typed = pipe("2 bend | 47.700 | staff", columns="crown [m] | how")
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS), typed))
    assert float(level_of(built).height.si) == 47.700
    assert not any(held.worked for held in built.thing("AIR-IN").part("2").held("level"))


def test_a_level_that_was_said_to_be_none_is_not_filled_in():
    typed = pipe("2 bend | n/a, buried before | staff", columns="level | how")
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS), typed))
    assert str(level_of(built)).startswith("n/a")


def test_a_staff_on_the_ground_gives_the_ground_and_no_level_of_the_pipe():
    rows = (*CROWNS[:2], ("AIR-IN 2 ground", None, 1.882, None, 22), CROWNS[3])
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*rows)))
    assert float(level_of(built, name="ground").si) == pytest.approx(49.548)
    assert str(level_of(built)) == "not recorded"


def test_a_shot_that_does_not_say_what_it_was_held_on_gives_no_level():
    rows = (CROWNS[0], ("AIR-IN 2", None, 3.526, None, 22), CROWNS[3])
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*rows)))
    assert str(level_of(built)) == "not recorded"


def test_mending_a_benchmark_moves_what_was_levelled_from_it_and_nothing_else():
    other = pipe("1 foot | 30.00 | 2.00 | 48.100 | staff", tag="D-1",
                 columns="x [m] | y [m] | crown [m] | how")  # fmt: skip
    mend = "## benchmark BM1\n\n- mends: ld-2\n- because: the bolt is lower\n- level: 49.900 m\n"
    before = seen(site(BM1, AIR_IN, other), day(DAY, "ld", book(*CROWNS)))
    after = seen(site(BM1, AIR_IN, other), day(DAY, "ld", book(*CROWNS)), day(DAY, "ck", mend))
    moved = float(level_of(after).height.si) - float(level_of(before).height.si)
    assert moved == pytest.approx(-0.100)
    assert level_of(after, "D-1", "1") == level_of(before, "D-1", "1")
    unmoved = {tag for tag in before.things if after.things[tag] == before.things[tag]}
    assert unmoved == {"fern-bank", "D-1"}


def test_a_benchmark_that_sank_later_does_not_move_what_was_levelled_before():
    later = day("2032-03-01", "ld", "## benchmark BM1\n\n- level: 49.900 m\n")
    sheets = (site(BM1, BM2, AIR_IN), day(DAY, "ld", book(*CROWNS)))
    assert level_of(seen(*sheets, later)) == level_of(seen(*sheets))


def test_a_withheld_reading_leaves_no_level_behind():
    hidden = book(*CROWNS, fields="- readers: owner")
    built = seen(site(BM1, BM2, AIR_IN), day(DAY, "ld", hidden), reader="technician")
    assert str(level_of(built)) == "not recorded"
    assert level_runs(built) == ()


@settings(max_examples=30, deadline=None)
@given(st.lists(st.lists(st.integers(200, 3800), min_size=2, max_size=4), min_size=1, max_size=4))
def test_a_book_typed_into_a_sheet_comes_back_as_the_readings_that_went_in(setups):
    """Reduce, book, post, read, reduce again: to the millimetre the same levels."""
    readings = [[mm / 1000 for mm in one] for one in setups]
    rows = book_of(readings)
    worked = rise_and_fall(rows, 50.0)
    typed = [
        (
            "BM1" if place == 0 else f"point {place}",
            row.backsight_m, row.intermediate_m, row.foresight_m, 20, f"{step.rl_m:.3f}",
        )
        for place, (row, step) in enumerate(zip(rows, worked, strict=True))
    ]  # fmt: skip
    run = run_of(rows=typed, marks=(BM1,), extra=("reduced level [m]",))
    assert [p.reduced_m for p in run.points] == pytest.approx([s.rl_m for s in worked], abs=1e-9)
    assert (run.slips, run.faults, run.sums) == ((), (), ())
