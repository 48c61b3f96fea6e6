"""Emergency equipment and the pages that tell of it."""

import pytest

from record.checks import procedure_for_equipment as rule
from tests.record.checks.ground import changed, handed

PUMP = "\n## equipment PU-1\n\n- type: pump\n- name: sump pump\n"
PAGE = """
## procedure PR-6

- event: water coming in
- sign: water on the floor
- signal word: warning
- danger: water and electricity kill

| step | do | touches |
|---|---|---|
| 1 | If it is dry and safe, start the pump. | PU-1 |
"""


def test_a_pump_that_a_step_names_is_right():
    assert handed(rule, PUMP, PAGE) == []


def test_a_pump_no_page_tells_of_holds_the_signature():
    [found] = handed(rule, PUMP, changed(PAGE, ("| PU-1 |", "| none |")))
    assert (found.about, found.stops, found.sure) == ("PU-1", True, "certain")
    assert found.says == "no procedure has a step that touches it (pump, sump pump)"


def test_a_page_for_normal_working_is_none():
    everyday = changed(PAGE, ("event: water coming in", "event: normal working"))
    assert len(handed(rule, PUMP, everyday)) == 1


def test_what_it_is_part_of_is_enough():
    part = "\n## equipment FL-1\n\n- type: alarm\n- part of: PU-1\n"
    assert handed(rule, PUMP, part, PAGE) == []


@pytest.mark.parametrize(("sort", "told"), [("heater", 0), ("not recorded", 1)])
def test_a_heater_is_none_and_what_nobody_named_may_be_one(sort, told):
    found = handed(rule, changed(PUMP, ("type: pump", f"type: {sort}")))
    assert len(found) == told
    assert all(one.sure == "cannot be told" for one in found)


def test_a_step_that_touches_a_part_of_it_is_enough():
    """The pump is part of the sump's alarm set here: touching the pump tells of the set."""
    whole = "\n## equipment ST-1\n\n- type: alarm\n"
    part = changed(PUMP, ("- type: pump", "- type: pump\n- part of: ST-1"))
    assert handed(rule, whole, part, PAGE) == []
