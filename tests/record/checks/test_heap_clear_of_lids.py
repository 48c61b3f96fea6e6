"""What the heap would bury. It covers the floor from 9.00 - 1.47 = 7.53 m to the far wall."""

import pytest

from record.checks import heap_clear_of_lids as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import SHAFT

STORE = """
## store S-2

- hull: A
- from near: {near} m
- from left: 0.95 m
- bottom: 96.20 m
- along: 0.80 m
- across: 0.60 m
- height: 0.29 m

| item | what | count |
|---|---|---|
| 1 shovel | shovel | {count} |
"""
FAN = """
## equipment FN-1

- type: fan
- hull: A
- from near: 8.40 m
- from left: 0.30 m
- bottom: {bottom} m
- along: 0.40 m
- across: 0.40 m
- height: 0.40 m
"""


def test_a_store_whose_lid_lies_clear_of_the_toe_is_let_be():
    """Its far end is at 6.70 + 0.80 = 7.50 m, 30 mm short of the toe; its place is good to 10."""
    assert handed(rule, SHAFT, STORE.format(near="6.70", count=1)) == []


def test_a_store_under_the_heap_is_told_and_one_that_was_emptied_is_not():
    [found] = handed(rule, SHAFT, STORE.format(near="7.90", count=1))
    assert (found.about, found.stops, found.sure) == ("S-2", True, "certain")
    assert "runs out 1.470 m" in found.says
    assert handed(rule, SHAFT, STORE.format(near="7.90", count=0)) == []


def test_a_store_nobody_counted_is_told_too():
    assert len(handed(rule, SHAFT, STORE.format(near="7.90", count="not recorded"))) == 1


def test_what_hangs_above_the_heap_is_let_be():
    """At 0.20 m from the wall the heap stands (1.47 - 0.20) tan 34° = 0.86 m: 97.36 m."""
    assert handed(rule, SHAFT, FAN.format(bottom="97.60")) == []
    [found] = handed(rule, SHAFT, FAN.format(bottom="97.20"))
    assert found.about == "FN-1"


@pytest.mark.parametrize("what", ["- face: far", "- section along: 0.75 m"])
def test_a_heap_of_which_it_is_not_known_where_it_lies_cannot_be_told(what):
    [found] = handed(rule, changed(SHAFT, (what, what.partition(":")[0] + ": not recorded")))
    assert (found.about, found.stops, found.sure) == ("SH-1", True, "cannot be told")
    assert ("(face)" in found.says) is (what == "- face: far")


def test_its_own_hatch_is_not_in_its_way():
    hatch = (
        "\n## door HT-1\n\n- type: hatch\n- in: SH-1\n- swing: lifts off\n- hull: A\n- face: far\n"
    )
    hatch += "- from left: 1.05 m\n- bottom: 97.25 m\n- width: 0.60 m\n- height: 0.75 m\n"
    assert handed(rule, SHAFT, hatch) == []


def test_a_store_without_a_list_may_hold_what_is_needed():
    bare = STORE[: STORE.index("\n| item")]
    assert len(handed(rule, SHAFT, bare.format(near="7.90"))) == 1


def test_one_just_at_the_toe_is_told_and_not_for_certain():
    """Its far end is at 6.75 + 0.80 = 7.55 m, 20 mm under the toe: some 14 mm of sand."""
    [found] = handed(rule, SHAFT, STORE.format(near="6.75", count=1))
    assert found.sure == "cannot be told"
