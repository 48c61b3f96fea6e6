"""Drills before hand-over: one for each emergency the manual has a page for."""

import pytest

from record.checks import drill_for_every_event as rule
from record.facts.inside import EVENTS
from tests.record.checks.ground import handed

DRILL = """
## procedure PR-{number}

- event: {event}
- sign: it is dark
- signal word: warning
- danger: falling

| step | do | touches |
|---|---|---|
| 1 | Light a torch. | none |
"""
EMERGENCIES = [event for event in EVENTS if event != "normal working"]


def drills(events):
    return [DRILL.format(number=n, event=event) for n, event in enumerate(events, start=1)]


def test_with_a_drill_for_each_there_is_nothing_to_say_and_normal_working_needs_none():
    assert handed(rule, *drills(EMERGENCIES)) == []


@pytest.mark.parametrize("event", EMERGENCIES)
def test_an_emergency_without_a_drill_is_named_and_does_not_stop(event):
    [found] = handed(rule, *drills(other for other in EMERGENCIES if other != event))
    assert found.says == f"no drill is recorded for: {event}; the manual prints drafts"
    assert found.stops is False


def test_a_drill_without_a_step_is_none():
    bare = DRILL.partition("| step")[0]
    rest = drills(event for event in EMERGENCIES if event != "air bad")
    [found] = handed(rule, *rest, bare.format(number=99, event="air bad"))
    assert "air bad" in found.says


def test_those_that_lack_are_one_finding():
    [found] = handed(rule, "\n## remark\n\nDry.\n")
    assert all(event in found.says for event in EMERGENCIES)
