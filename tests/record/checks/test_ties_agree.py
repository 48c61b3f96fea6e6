"""Tape ties against each other and against the place on the sheet: the bend is at (5, 0)."""

import pytest

from record.checks import ties_agree as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

#: (5, 0) from P (0, 12) and Q (9, 3): 13 and 5 by Pythagoras; from R (5, -7): 7.
MARKS = "".join(
    f"\n## landmark {tag}\n\n- what: post\n- x: {x} m ± 5 mm\n- y: {y} m ± 5 mm\n"
    for tag, x, y in (("P", 0, 12), ("Q", 9, 3), ("R", 5, -7))
)
TIES = """
## position tied AIR-IN

| landmark | point | distance [m] |
|---|---|---|
| P | 2 | 13.000 ± 10 mm |
| Q | 2 | 5.000 ± 10 mm |
| R | 2 | 7.000 ± 10 mm |
"""


def blocks(*changes, trench=TRENCH):
    return MARKS + trench + changed(TIES, *changes)


def test_ties_that_meet_where_the_sheet_says_say_nothing():
    assert against(rule, blocks()) == []


def test_ties_that_disagree_stop_for_the_check_is_a_hold():
    found = the_one(rule, blocks(("7.000", "7.300")))
    assert "three cannot say which" in found.says and found.stops


@pytest.mark.parametrize(
    ("gone", "says"),
    [
        (("| Q | 2 | 5.000 ± 10 mm |\n| R | 2 | 7.000 ± 10 mm |\n", ""), "it lies on a ring of"),
        (("| R | 2 | 7.000 ± 10 mm |\n", ""), "two places"),
    ],
)
def test_too_few_ties_are_to_be_looked_at_and_do_not_stop(gone, says):
    found = the_one(rule, blocks(gone))
    assert says in found.says and not found.stops


@pytest.mark.parametrize(("x", "told"), [("5.04", 0), ("5.40", 1)])
def test_a_place_is_held_against_its_ties_beyond_both_tolerances(x, told):
    """The station says none and "staff": 50 mm by its method; the ties some 15 mm more."""
    moved = changed(TRENCH, ("| 2 bend | 5.00 |", f"| 2 bend | {x} |"))
    found = against(rule, blocks(trench=moved))
    assert len(found) == told
    for each in found:
        assert "written at 5.400, 0.000, its ties meet at 5.000, 0.000" in each.says
        assert each.stops
