"""Failures that nobody settled."""

import pytest

from record.checks import failed_passed_again as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, TRENCH, against, changed, the_one

BALL = """
## tested AIR-IN

- at: 15:30
- test: ball through the pipe
- result: failed
- reading: stuck at the bend
- limit: ball passes
- instrument: 140 mm ball
"""
FAILED = TRENCH + BALL


def test_a_test_that_passed_is_not_held():
    assert against(rule, TRENCH + changed(BALL, ("result: failed", "result: passed"))) == []


@pytest.mark.parametrize("result", ["failed", "not recorded"])
def test_a_ball_that_stuck_holds(result):
    found = the_one(rule, changed(FAILED, ("result: failed", f"result: {result}")))
    assert found.stops
    assert "ball through the pipe" in found.says


def test_a_later_pass_settles_it_only_if_it_names_the_failure():
    again = changed(BALL, ("at: 15:30", "at: 16:10"), ("result: failed", "result: passed"))
    assert the_one(rule, FAILED + again).stops
    number = the_one(rule, FAILED).numbers[0]
    assert against(rule, FAILED + again.rstrip() + f"\n- retest of: {number}\n") == []


def test_a_release_by_two_settles_a_hold_and_a_release_by_one_does_not():
    release = "\n## hold released AIR-IN\n\n- at: 16:00\n- hold: ball\n- second: {}\n"
    assert against(rule, FAILED + release.format("ck")) == []
    assert the_one(rule, FAILED + release.format("not recorded")).stops


def test_what_failed_years_after_the_fill_is_not_against_the_fill():
    later = day("2041-06-01", "te", changed(BALL, ("at: 15:30", "at: 09:00")))
    assert against(rule, TRENCH + COVERED, later) == []
    assert the_one(rule, TRENCH, later).stops
    assert the_one(rule, FAILED + COVERED, later).says.startswith(
        "ball through the pipe: failed 2031"
    )
