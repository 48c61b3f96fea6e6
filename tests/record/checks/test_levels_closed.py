"""Level books against benchmarks, and against what the sheet says.

Levels of the trench: BM1 at 100.000 m, line of sight 101.200; the crown of the bend is its invert
98.300 + 0.156, so the staff reads 101.200 - 98.456 = 2.744.
"""

import pytest

from record.checks import levels_closed as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

MARKS = """
## benchmark BM1

- what: bolt
- level: 100.000 m
- how: site datum

## benchmark BM2

- what: cut
- level: 100.500 m ± 1 mm
"""
BOOK = """
## levelled fern-bank

| point | backsight [m] | intermediate [m] | foresight [m] | distance [m] |
|---|---|---|---|---|
| BM1 | 1.200 | none | none | 30 |
| AIR-IN 2 crown | none | 2.744 | none | 20 |
| BM2 | none | none | 0.700 | 30 |
"""


def blocks(*changes, trench=TRENCH):
    return MARKS + trench + changed(BOOK, *changes)


def test_a_run_that_closes_and_agrees_with_the_sheet_says_nothing():
    assert against(rule, blocks()) == []


def test_a_sheet_without_any_level_book_says_nothing():
    assert against(rule, TRENCH) == []


def test_a_run_that_does_not_close_is_told_and_does_not_stop():
    """0.710 for 0.700: 10 mm low, 12 √0.06 = 2.94 allowed, cut to 2.9."""
    found = the_one(rule, blocks(("| 0.700 |", "| 0.710 |")))
    assert "DOES NOT CLOSE: -10 mm on BM2 of 2.9 allowed" in found.says
    assert (found.stops, found.sure) == (False, "certain")


def test_a_run_that_came_back_to_no_known_mark_is_told_as_not_known():
    found = the_one(rule, blocks(("| BM2 | none", "| peg | none")))
    assert "never closed" in found.says
    assert (found.stops, found.sure) == (False, "cannot be told")


def test_a_crown_written_as_an_invert_is_found_by_the_book():
    """Invert 98.456 means a crown of 98.612: 156 mm above the book's."""
    wrong = changed(TRENCH, ("98.300 ± 3 mm", "98.456 ± 3 mm"))
    found = the_one(rule, blocks(trench=wrong))
    assert "the book says crown 98.456 m" in found.says
    assert (
        "the sheet crown 98.612 m, worked from invert 98.456 m ± 3 mm; 156 mm apart" in found.says
    )
    assert found.stops


@pytest.mark.parametrize(("invert", "told"), [("98.305", 0), ("98.308", 1)])
def test_a_difference_within_both_tolerances_is_none(invert, told):
    """The book: two readings of 2 mm, √8 = 2.8, no misclosure. The sheet 3 mm: 5.8 together."""
    wrong = changed(TRENCH, ("98.300 ± 3 mm", f"{invert} ± 3 mm"))
    assert len(against(rule, blocks(trench=wrong))) == told


@pytest.mark.parametrize(("invert", "told"), [("98.308", 0), ("98.336", 1)])
def test_another_benchmark_adds_its_tolerance_in_full(invert, told):
    """BM3 says none, so 25 mm: 5.8 + 25 = 30.8 together."""
    wrong = changed(
        TRENCH, ("98.300 ± 3 mm | 99.90 | staff, BM1", f"{invert} ± 3 mm | 99.90 | staff, BM3")
    )
    third = "\n## benchmark BM3\n\n- what: rail\n- level: 99.000 m\n"
    assert len(against(rule, blocks(trench=third + wrong))) == told


def test_the_row_where_the_crews_own_page_slips_is_named():
    """On BM1's 100.000 + 1.200 - 2.744 = 98.456; the page has 98.546, digits swapped. The next
    step then is 1.954 for 2.044."""
    rows = changed(
        BOOK,
        ("distance [m] |", "distance [m] | reduced level [m] |"),
        ("|---|---|---|---|---|", "|---|---|---|---|---|---|"),
        ("| none | 30 |", "| none | 30 | 100.000 |"),
        ("| 20 |", "| 20 | 98.546 |"),
        ("| 0.700 | 30 |", "| 0.700 | 30 | 100.500 |"),
    )
    first, second = against(rule, MARKS + TRENCH + rows)
    assert "row 2" in first.says and "AIR-IN 2 crown: the book steps -1.454 m" in first.says
    assert "row 3" in second.says
    assert not first.stops


def test_a_book_with_a_row_that_has_no_reading_names_the_row():
    found = the_one(rule, blocks(("| none | 2.744 |", "| none | not recorded |")))
    assert "row 2, AIR-IN 2 crown" in found.says


def test_a_level_that_only_the_book_has_is_not_held_against_itself():
    bare = changed(TRENCH, ("98.300 ± 3 mm", "not recorded"))
    assert against(rule, blocks(trench=bare)) == []
