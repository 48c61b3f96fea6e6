"""Statements that differ."""

from record.checks import nothing_unsettled as rule
from tests.record.building import day
from tests.record.checks.ground import TRENCH, against, the_one

OTHER = day("2031-05-14", "ck", "## run AIR-IN\n\n- size: 125 mm")


def test_a_later_statement_that_knew_of_the_first_is_no_disagreement():
    assert against(rule, TRENCH) == []
    assert against(rule, TRENCH, OTHER) == []


def test_two_that_had_not_seen_each_other_hold_until_one_entry_settles_both():
    found = the_one(rule, TRENCH, OTHER, unseen={2: 1})
    assert (found.about, found.sure, found.stops) == ("AIR-IN", "cannot be told", True)
    assert found.says == "size is told in two ways: ck-1 says 125 mm; ld-4 says 150 mm"
    settled = day(
        "2031-05-15",
        "ld",
        "## run AIR-IN\n\n- mends: ck-1, ld-4\n- because: measured it\n- size: 150 mm",
    )
    assert against(rule, TRENCH, OTHER, settled, unseen={2: 1}) == []


def test_a_disagreement_about_a_valve_on_the_run_holds_too():
    other = day("2031-05-14", "ck", "## valve CV-1\n\n- normal position: shut")
    assert the_one(rule, TRENCH, other, unseen={2: 1}).about == "CV-1"


def test_a_disagreement_about_a_station_says_which():
    row = "## run AIR-IN\n\n| station | ground [m] |\n|---|---|\n| 2 bend | 98.00 |"
    found = the_one(rule, TRENCH, day("2031-05-14", "ck", row), unseen={2: 1})
    assert found.says.startswith("station 2 bend: ground is told in two ways")
    assert "| station | ground |" in found.clears


def test_a_disagreement_about_something_else_does_not_hold():
    other = day("2031-05-14", "ck", "## hull A\n\n- name: big one\n- bearing: 91°")
    assert against(rule, TRENCH, other, unseen={2: 0}) == []
