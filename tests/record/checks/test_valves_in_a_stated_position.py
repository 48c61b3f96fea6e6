"""How valves were left before what they sit on goes under."""

from record.checks import valves_in_a_stated_position as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, TRENCH, against, the_one

BALL = """
## valve DV-1

- type: ball
- on run: AIR-IN
- normal position: shut
- reached by: left wall
"""
SHUT = "\n## left as DV-1\n\n- at: 12:00\n- state: shut\n"
SERVED = "\n## serviced DV-1\n\n- at: {}\n- task: seat changed\n"


def test_a_valve_left_as_it_should_be_is_not_named():
    assert against(rule, TRENCH + BALL + SHUT) == []


def test_a_valve_that_nobody_wrote_the_position_of():
    found = the_one(rule, TRENCH + BALL)
    assert (found.about, found.stops, found.sure) == ("DV-1", False, "cannot be told")
    assert found.clears[0] == "## left as DV-1"
    said = the_one(rule, TRENCH + BALL + SHUT.replace("shut", "not recorded"))
    assert said.says.startswith("POSITION NOT KNOWN")


def test_a_valve_left_open_that_should_be_shut():
    found = the_one(rule, TRENCH + BALL + SHUT.replace("shut", "open"))
    assert (found.stops, found.sure) == (False, "certain")
    assert found.says == "NOT NORMAL: left open 2031-05-14 12:00 (ld-14); normally shut"


def test_a_valve_worked_on_after_it_was_left():
    assert against(rule, TRENCH + BALL + SHUT + SERVED.format("11:00")) == []
    assert "then serviced" in the_one(rule, TRENCH + BALL + SHUT + SERVED.format("13:00")).says


def test_a_check_valve_stands_as_the_flow_leaves_it():
    assert against(rule, TRENCH) == []


def test_work_after_it_went_under_is_no_business_of_the_covering():
    later = day("2033-01-05", "te", SERVED.format("11:00"))
    assert against(rule, TRENCH + BALL + SHUT + COVERED, later) == []


def test_a_valve_on_another_pipe_is_not_named():
    other = "\n## run PD-1\n\n- carries: pumped water\n"
    assert against(rule, TRENCH + other + BALL.replace("on run: AIR-IN", "on run: PD-1")) == []
