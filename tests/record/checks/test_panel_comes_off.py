"""Panels before hand-over: how each comes off is written."""

import pytest

from record.checks import panel_comes_off as rule
from tests.record.checks.ground import handed


def panel(tag, off, room=""):
    where = f"- room: {room}\n" if room else ""
    return f"\n## panel {tag}\n\n{where}- hull: A\n- face: left\n- comes off: {off}\n"


@pytest.mark.parametrize(
    ("off", "told"),
    [("draw four screws", 0), ("n/a, it is painted steel", 0), ("none", 0), ("not recorded", 1)],
)
def test_a_panel_says_how_it_comes_off_or_is_looked_at(off, told):
    found = handed(rule, panel("A-L1", off))
    assert len(found) == told
    assert not any(one.stops for one in found)


def test_those_of_one_room_are_one_finding_that_counts_the_rest():
    [found] = handed(rule, *(panel(f"A-L{n}", "not recorded") for n in range(1, 9)))
    assert found.says.startswith("A-L1, A-L2, A-L3, A-L4, A-L5, A-L6 and 2 more: how it comes off")
    assert found.about == "A"
