"""The crank, turned by those who will turn it, by the watch."""

import pytest

from record.checks import crank_turned_and_timed as rule
from tests.record.checks.ground import changed, handed

CRANK = """
## equipment AU-1

- type: air unit

## equipment HC-1

- type: hand crank
- part of: AU-1
"""
TRIAL = """
## tested AU-1

- test: fan flow by crank
- result: passed
- reading: 100 m³/h at 45 rev/min, four people, 15 min each
- limit: 100 m³/h at 45 rev/min
- instrument: vane meter
"""


def test_a_crank_turned_at_a_counted_rate_is_right():
    assert handed(rule, CRANK, TRIAL) == []


def test_one_never_turned_holds_the_signature():
    [found] = handed(rule, CRANK)
    assert (found.about, found.stops) == ("HC-1", True)


def test_a_trial_by_motor_is_none():
    motor = changed(TRIAL, ("by crank", "by motor"))
    assert len(handed(rule, CRANK, motor)) == 1


def test_one_turned_with_no_watch_is_asked_about():
    [found] = handed(rule, CRANK, changed(TRIAL, ("at 45 rev/min, four people, 15 min each", "")))
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert "how many turns a minute is not told" in found.says


@pytest.mark.parametrize(
    ("result", "sure"), [("failed", "certain"), ("not recorded", "cannot be told")]
)
def test_a_trial_that_did_not_pass_is_none(result, sure):
    [found] = handed(rule, CRANK, changed(TRIAL, ("result: passed", f"result: {result}")))
    assert found.sure == sure


def test_a_unit_with_a_crank_rate_has_a_crank():
    unit = "\n## equipment AU-2\n\n- type: air unit\n- crank rate: {}\n"
    assert [one.about for one in handed(rule, unit.format("45 rev/min"))] == ["AU-2"]
    assert len(handed(rule, unit.format("not recorded"))) == 1
    assert handed(rule, unit.format("n/a, motor only")) == []


def test_a_trial_of_the_crank_itself_is_one_of_the_unit_it_is_part_of():
    unit = changed(CRANK, ("- type: air unit", "- type: air unit\n- crank rate: 45 rev/min"))
    assert handed(rule, unit, changed(TRIAL, ("tested AU-1", "tested HC-1"))) == []


def test_a_flow_form_says_the_rate_in_its_setting():
    form = """
## flow tested HC-1

- test: flow
- point: intake
- flow: 100 m³/h
- pressure difference: not recorded
- setting: crank at 45 rev/min
- air: not recorded
- criterion: 100 m³/h
- criterion from: engineer
- result: passed
- instrument: vane meter
- calibrated: not recorded
- retest of: none
"""
    assert handed(rule, CRANK, form) == []
    assert len(handed(rule, CRANK, changed(form, ("crank at 45 rev/min", "by crank")))) == 1
