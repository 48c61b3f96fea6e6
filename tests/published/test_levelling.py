"""Level runs against published books, and against arithmetic shown beside each check."""

from itertools import pairwise

import pytest

from record.calc.levelling import (
    Row,
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

# ques10.com, problem 29304: point, BS, IS, FS, rise, fall, RL, HI, all as printed there.
PRINTED = """\
1   1.355  .      .     .     .     185.205 186.560
2   .      1.605  .     .     0.250 184.955 .
3   .      2.125  .     .     0.520 184.435 .
4   .      0.685  .     1.440 .     185.875 .
5   2.015  .      1.365 .     0.680 185.195 187.210
6   .      1.355  .     0.660 .     185.855 .
7   .      -1.385 .     2.740 .     188.595 .
8   .      0.685  .     .     2.070 186.525 .
9   1.685  .      2.105 .     1.420 185.105 186.790
10  .      1.155  .     0.530 .     185.635 .
11  .      1.105  .     0.050 .     185.685 .
12  1.085  .      2.015 .     0.910 184.775 185.860
13  .      1.345  .     .     0.260 184.515 .
14  .      1.355  .     .     0.010 184.505 .
15  .      -2.015 .     3.370 .     187.875 .
16  1.655  .      1.305 .     3.320 184.555 186.210
17  .      1.685  .     .     0.030 184.525 .
18  .      .      1.455 0.230 .     184.755 .
"""
COLUMNS = [
    [None if cell == "." else float(cell) for cell in line.split()] for line in PRINTED.splitlines()
]
PRINTED_BOOK = [
    Row(point=f"{point:.0f}", backsight_m=bs, intermediate_m=mid, foresight_m=fs)
    for point, bs, mid, fs, *_ in COLUMNS
]
TEN_READINGS = [[2.228, 1.606, 0.988], [2.090, 2.864, 1.262], [0.602, 1.982], [1.044, 2.684]]
CROWNS = book_of([[1.432, 3.426, 3.526, 3.678, 1.018]], ["BM1", "A", "bend", "B", "BM2"])


def levels(page):
    return [one.rl_m for one in page]


def mm(*values):
    return pytest.approx(list(values), abs=1e-6)


def test_one_set_up_in_feet():
    """Differential levelling notes after Ghilani & Wolf: 820.00 + 8.42 = 828.42, less 1.20."""
    [opening, last] = height_of_collimation(book_of([[8.42, 1.20]]), 820.00)
    assert opening.hpc_m == pytest.approx(828.42)
    assert last.rl_m == pytest.approx(827.22)


def test_a_worked_rise_and_fall_book():
    """zerdly.com, rise and fall worksheet, worked example."""
    rows = book_of([[2.000, 1.500, 0.500], [1.800, 1.000]])
    page = rise_and_fall(rows, 100.000)
    assert [one.rise_m for one in page] == pytest.approx([None, 0.5, 1.0, 0.8])
    assert levels(page) == mm(100.000, 100.500, 101.500, 102.300)
    assert check_page(rows, page)[0].left_m == pytest.approx(2.300)


def test_the_same_book_by_height_of_collimation():
    """zerdly.com, height of collimation worksheet, worked example: HPC 102.000 and 103.300."""
    page = height_of_collimation(book_of([[2.000, 1.500, 0.500], [1.800, 1.000]]), 100.000)
    assert [one.hpc_m for one in page if one.hpc_m] == mm(102.000, 103.300)
    assert levels(page) == mm(100.000, 100.500, 101.500, 102.300)


def test_a_book_with_two_soffits_and_its_benchmark_in_mid_run():
    """ques10.com 29304. Its raw readings print the 8th +1.385 and the 14th 2.105; the table,
    which agrees with itself, has -1.385 and 2.015."""
    opening = opening_rl_m(PRINTED_BOOK, 9, 185.635)
    page = rise_and_fall(PRINTED_BOOK, opening)
    sights = height_of_collimation(PRINTED_BOOK, opening)
    for row, step, sight in zip(COLUMNS, page, sights, strict=True):
        printed = pytest.approx(row[4:], abs=1e-6)
        assert [step.rise_m, step.fall_m, step.rl_m, sight.hpc_m] == printed
        assert sight.rl_m == pytest.approx(row[6])


def test_the_sums_printed_under_that_book():
    """ques10.com 29304: ΣBS 7.795, ΣFS 8.245, Σrise 9.020, Σfall 9.470, difference -0.450."""
    page = rise_and_fall(PRINTED_BOOK, 185.205)
    assert sum(one.rise_m or 0 for one in page) == pytest.approx(9.020)
    assert sum(one.fall_m or 0 for one in page) == pytest.approx(9.470)
    checks = check_page(PRINTED_BOOK, page)
    assert [one.left_m for one in checks] == mm(-0.450, 7.795 - 8.245)
    assert all(one.holds for one in checks)
    sights = height_of_collimation(PRINTED_BOOK, 185.205)
    assert all(one.holds for one in check_collimation(PRINTED_BOOK, sights))


@pytest.mark.parametrize(("reading", "misprint"), [(6, 1.385), (11, 2.105)])
def test_the_raw_readings_printed_wrong_there_do_not_give_its_levels(reading, misprint):
    """ques10.com 29304, its two misprints, the soffit and the change point at 12."""
    rows = list(PRINTED_BOOK)
    old = rows[reading]
    inverted = old.intermediate_m is not None
    rows[reading] = Row(
        point=old.point,
        backsight_m=old.backsight_m,
        intermediate_m=misprint if inverted else None,
        foresight_m=None if inverted else misprint,
    )
    page = rise_and_fall(rows, 185.205)
    assert page[reading].rl_m != pytest.approx(COLUMNS[reading][6], abs=0.05)
    printed = [Stepped("", rise, fall, rl) for *_, rise, fall, rl, _hi in COLUMNS]
    # A wrong change point shows in ΣBS − ΣFS; a wrong intermediate cancels and cannot.
    assert check_page(rows, printed)[0].holds is inverted


def test_twelve_readings_moved_after_the_fifth_and_ninth():
    """Readings of an old textbook exercise; levels by hand, e.g. 58.250 + 0.578 - 0.933 = 57.895,
    and 58.250 + 1.757 - 7.494 = 52.513."""
    rows = book_of(
        [
            [0.578, 0.933, 1.768, 2.450, 2.005],
            [0.567, 1.888, 1.181, 3.679],
            [0.612, 0.705, 1.810],
        ]
    )
    worked = mm(58.250, 57.895, 57.060, 56.378, 56.823, 55.502, 56.209, 53.711, 53.618, 52.513)
    page, sights = rise_and_fall(rows, 58.250), height_of_collimation(rows, 58.250)
    assert levels(page) == worked
    assert levels(sights) == worked
    assert [one.hpc_m for one in sights if one.hpc_m] == mm(58.828, 57.390, 54.323)
    assert sum(one.rise_m or 0 for one in page) == pytest.approx(1.152)
    assert sum(one.fall_m or 0 for one in page) == pytest.approx(6.889)


def test_ten_readings_moved_after_the_third_sixth_and_eighth_are_seven_points():
    """Readings of a textbook exercise; by hand 150.250 + 5.964 - 6.916 = 149.298."""
    rows = book_of(TEN_READINGS)
    page = rise_and_fall(rows, 150.250)
    assert levels(page) == mm(150.250, 150.872, 151.490, 150.716, 152.318, 150.938, 149.298)
    assert levels(height_of_collimation(rows, 432.384))[-1] == pytest.approx(431.432)


def test_a_published_page_that_takes_the_new_backsight_from_the_foresight_fails_its_checks():
    """A published solution of that exercise: ten points for seven, ending at 149.794."""
    readings = [one for setup in TEN_READINGS for one in setup]
    wrong = [Stepped("1", None, None, 150.250)]
    for before, after in pairwise(readings):
        step = before - after
        wrong.append(Stepped("", max(step, 0), max(-step, 0), wrong[-1].rl_m + step))
    assert wrong[-1].rl_m == pytest.approx(149.794)
    assert [one.holds for one in check_page(book_of(TEN_READINGS), wrong)] == [False, True]


def test_a_published_page_that_takes_every_reading_off_in_turn_fails_its_checks():
    """Another published solution: every reading taken off 432.384, ending at 415.034."""
    wrong = [Stepped("0", None, None, 432.384)]
    for reading in (one for setup in TEN_READINGS for one in setup):
        wrong.append(Stepped("", None, reading, wrong[-1].rl_m - reading))
    assert wrong[-1].rl_m == pytest.approx(415.034)
    assert not check_page(book_of(TEN_READINGS), wrong)[0].holds


def test_a_loop_of_thirty_kilometres_shared_out_by_distance():
    """Distances and levels of a published exercise; corrections by hand, 0.244 × 5.245/30.5 and so
    on. The total is nearly four times what third order allows, 12 √30.5 = 66 mm."""
    run = [728.730, 783.213, 891.764, 843.195, 739.708, 702.956, 728.486]
    km = [0, 5.245, 11.271, 17.718, 21.964, 25.247, 30.500]
    corrected = adjusted_m(run, km, 728.486 - 728.730)
    fixed = [after - before for before, after in zip(run, corrected, strict=True)]
    assert fixed == pytest.approx([0, 0.0420, 0.0902, 0.1417, 0.1757, 0.2020, 0.2440], abs=1e-4)
    assert corrected[1:] == pytest.approx(
        [783.2550, 891.8542, 843.3367, 739.8837, 703.1580, 728.7300], abs=1e-4
    )
    assert not closure(728.486, 728.730, 12, 30.5).holds


@pytest.mark.parametrize(
    ("k", "km", "allowed_mm"),
    [
        (12, 1, 12.00),
        (18, 1, 18.00),
        (12, 0.25, 6.00),
        (18, 0.25, 9.00),
        (12, 0.1, 3.79),
        (18, 0.1, 5.69),
        (12, 30.5, 66.27),
        (8.4, 1.6, 10.63),
    ],
)
def test_what_a_run_may_be_out_by(k, km, allowed_mm):
    """k: South Australia's Surveyor-General, 12 and 18 mm; US Army EN0593 p. 4-4, 8.4 mm for
    second order class II. √0.1 = 0.316228, √30.5 = 5.522681, √1.6 = 1.264911."""
    assert allowable_m(k, km) * 1000 == pytest.approx(allowed_mm, abs=0.006)


def test_three_crowns_between_two_benchmarks_close_two_millimetres_high():
    """By hand: 50.000 + 1.432 = 51.432, less each reading; 50.414 - 50.412 = +0.002, against
    12 √0.06 = 12 × 0.244949 = 2.939 mm."""
    sights = height_of_collimation(CROWNS, 50.000)
    assert sights[0].hpc_m == pytest.approx(51.432)
    assert levels(sights) == mm(50.000, 48.006, 47.906, 47.754, 50.414)
    end = closure(sights[-1].rl_m, 50.412, 12, 0.06)
    assert end.misclosure_m == pytest.approx(0.002)
    assert end.allowable_m == pytest.approx(0.00294, abs=1e-5)
    assert end.holds
    assert not closure(50.415, 50.412, 12, 0.06).holds


def test_one_set_up_takes_its_whole_misclosure():
    """By hand: every sight of a lone set-up is 1/1 along, so each crown comes down 2 mm."""
    page = rise_and_fall(CROWNS, 50.000)
    after = adjusted_m(levels(page), setup_numbers(CROWNS), 0.002)
    assert after == pytest.approx((50.000, 48.004, 47.904, 47.752, 50.412))
