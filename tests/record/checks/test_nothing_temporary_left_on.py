"""Plugs, straps and caps before what they are on goes under."""

import pytest

from record.checks import nothing_temporary_left_on as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, TRENCH, against, changed, readiness, the_one

PLUG = """
## temporary TP-1

- what: plug
- on thing: AIR-IN
- where: bend
- off before: the first air
"""
IN_REACH = PLUG + "- stays in reach: yes\n"
OFF = "\n## taken off TP-1\n\n- note: photographed\n"
CAP = "\n## left as AIR-IN\n\n- at: 12:00\n- state: transit plug in, red cap\n- until: hand-over\n"


def test_a_plug_in_a_pipe_that_goes_under_stops_it():
    found = the_one(rule, TRENCH + PLUG)
    assert (found.about, found.stops, found.sure) == ("TP-1", True, "certain")
    assert found.says == "plug on AIR-IN, bend; must be off before the first air; it is still on"
    assert "## taken off TP-1" in found.clears[0]


def test_a_plug_that_came_off_is_not_named():
    assert against(rule, TRENCH) == []
    assert against(rule, TRENCH + PLUG + OFF) == []
    assert against(rule, TRENCH + PLUG, day("2031-05-15", "ld", OFF)) == []


def test_a_plug_that_stays_in_reach_is_only_to_be_looked_at():
    assert the_one(rule, TRENCH + IN_REACH).stops is False
    assert the_one(rule, TRENCH + IN_REACH.replace("reach: yes", "reach: no")).stops


@pytest.mark.parametrize("said", ["FILL", "FILL, and the photo of it"])
def test_what_must_be_off_before_this_covering_stops_it_though_in_reach(said):
    assert the_one(rule, TRENCH + changed(IN_REACH, ("the first air", said))).stops
    other = TRENCH + changed(IN_REACH, ("the first air", "FILL-2"))
    assert the_one(rule, other).stops is False


def test_what_the_covering_itself_names_stops_it():
    named = changed(TRENCH, ("hides: AIR-IN", "hides: AIR-IN, TP-1"))
    assert the_one(rule, named + IN_REACH).stops


def test_a_strap_on_a_valve_of_the_pipe_is_on_what_goes_under():
    found = the_one(rule, TRENCH + changed(PLUG, ("on thing: AIR-IN", "on thing: CV-1")))
    assert found.stops and "on CV-1" in found.says


def test_a_plug_on_another_pipe_is_another_coverings_business():
    other = "\n## run PD-1\n\n- carries: pumped water\n"
    assert against(rule, TRENCH + other + changed(PLUG, ("thing: AIR-IN", "thing: PD-1"))) == []


def test_on_what_it_is_nobody_wrote():
    found = the_one(rule, TRENCH + changed(PLUG, ("on thing: AIR-IN", "on thing: not recorded")))
    assert (found.stops, found.sure) == (True, "cannot be told")
    unsaid = changed(PLUG, ("off before: the first air", "off before: not recorded"))
    assert the_one(rule, TRENCH + unsaid).stops


def test_a_plug_put_in_after_it_was_covered_does_not_stop_what_is_on():
    later = day("2031-05-20", "te", PLUG)
    assert against(rule, TRENCH + COVERED, later) == []
    assert len(against(rule, TRENCH + PLUG + COVERED)) >= 1


def test_a_plug_on_when_it_was_covered_is_told_of_though_it_came_off_since():
    off = day("2031-05-20", "ld", OFF)
    told = readiness(TRENCH + PLUG + COVERED, off).findings
    assert ("TP-1", "right before it was covered") in [(one.about, one.rule) for one in told]


def test_a_state_that_ends_is_to_be_looked_at():
    """The demo's intake: told as "left as … until hand-over", and not as a thing of its own."""
    found = the_one(rule, TRENCH + CAP)
    assert (found.about, found.stops) == ("AIR-IN", False) and "until hand-over" in found.says
    out = "\n## left as AIR-IN\n\n- at: 13:00\n- state: transit plug out\n"
    assert against(rule, TRENCH + CAP + out) == []
    assert against(rule, TRENCH + COVERED + CAP.replace("12:00", "17:00")) == []
