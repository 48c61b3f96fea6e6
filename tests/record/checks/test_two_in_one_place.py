"""Things in the trench, and what else is recorded where they lie.

The pipe runs along y = 0 from x = 0 to 12.50 m, its middle at 98.300 + 0.076 = 98.376 m at the
bend and 98.426 m half-way to it, 80 mm thick each way from there. It is 160 mm wide.
"""

import pytest

from record.checks import two_in_one_place as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

CONDUIT = """
## run CON-1

- carries: power
- outside diameter: 50 mm
- insulation: none
- pipe length: 4.00 m

| station | x [m] | y [m] | centre [m] | how | position tolerance |
|---|---|---|---|---|---|
| 1 | 2.50 | -2.00 | {level} ± 5 mm | staff | 5 mm |
| 2 | 2.50 | 2.00 | {level} ± 5 mm | staff | 5 mm |
"""
#: Its length by the level of its ends, so that it cannot have strayed between its stations.
STRAIGHT = changed(
    TRENCH,
    ("- least fall: 1 %", "- insulation: none\n- pipe length: 12.50 m\n- least fall: 1 %"),
    (
        "| how |\n|---|---|---|---|---|---|",
        "| how | position tolerance |\n|---|---|---|---|---|---|---|",
    ),
).replace("| staff, BM1 |", "| staff, BM1 | 5 mm |")


def crossing(level):
    return against(rule, STRAIGHT + CONDUIT.format(level=level))


def test_a_conduit_that_passes_under_the_pipe_is_right():
    """Half-way to the bend the middle is at 98.426: 105 mm of radius under it is 98.321."""
    assert crossing("98.30") == []


def test_one_through_the_pipe_stops_the_fill():
    [found] = crossing("98.42")
    assert (found.about, found.stops, found.sure) == ("AIR-IN", True, "certain")
    assert "CON-1, run, power, 1 to 2, share one place" in found.says


def test_one_that_may_just_touch_within_its_doubt_is_let_be():
    """At 98.33 m they share 9 mm, and each is in doubt by 5 mm."""
    assert crossing("98.33") == []


def test_pipes_that_join_are_joined():
    joined = CONDUIT.replace("| 2.50 | -2.00 |", "| 2.50 | 0.05 |")
    assert against(rule, STRAIGHT + joined.format(level="98.42")) == []


def test_a_valve_and_its_run_belong_together():
    assert against(rule, STRAIGHT) == []


BOX = """
## equipment FN-1

- type: fan
- hull: A
- from near: 1.00 m ± 10 mm
- from left: 0.30 m ± 10 mm
- bottom: 97.00 m ± 10 mm
- along: 0.40 m
- across: 0.40 m
- height: 0.40 m

## store S-1

- hull: A
- from near: {near} m ± 10 mm
- from left: 0.30 m ± 10 mm
- bottom: 97.00 m ± 10 mm
- along: 0.40 m
- across: 0.40 m
- height: 0.40 m

## covering FILL

- what: lining
- hides: FN-1
"""


@pytest.mark.parametrize(("near", "told"), [("1.40", 0), ("1.39", 0), ("1.37", 1)])
def test_two_boxes_side_by_side_are_right_and_one_in_the_other_is_not(near, told):
    """They share 0, 10 and 30 mm; each is in doubt by 10."""
    found = against(rule, BOX.format(near=near))
    assert len(found) == told
    assert all(one.about == "FN-1" and "S-1" in one.says for one in found)


def test_a_part_may_lie_within_its_whole():
    part = BOX.format(near="1.00").replace("- type: fan", "- type: fan\n- part of: AU-1")
    assert len(against(rule, part + "\n## equipment AU-1\n\n- type: air unit\n")) == 1
    whole = "\n## equipment AU-1\n\n- type: air unit\n- hull: A\n- from near: 0.90 m ± 10 mm\n"
    whole += "- from left: 0.20 m ± 10 mm\n- bottom: 96.90 m ± 10 mm\n- along: 0.60 m\n"
    whole += "- across: 0.60 m\n- height: 0.60 m\n"
    clear = BOX.format(near="3.00").replace("- type: fan", "- type: fan\n- part of: AU-1")
    assert against(rule, clear + whole) == []
    alone = BOX.format(near="3.00") + whole
    assert the_one(rule, alone).about == "FN-1"


#: The fan stands 1.00 to 1.40 m from the near end and 0.30 to 0.70 m from the left, so from
#: x = 13.50 to 13.90 and y = 0.70 to 0.30 m on the grid, 97.00 to 97.40 m high.
THROUGH = """
## run CON-1

- carries: power
- outside diameter: 50 mm
- insulation: none
- pipe length: 4.00 m

| station | x [m] | y [m] | centre [m] | how | position tolerance |
|---|---|---|---|---|---|
| 1 | {x} | 2.50 | {level} ± 5 mm | staff | 5 mm |
| 2 | {x} | -1.50 | {level} ± 5 mm | staff | 5 mm |
"""
WITHIN = """
## run CON-1

- carries: power
- outside diameter: 50 mm
- insulation: none
- pipe length: 2.00 m

| station | hull | from near [m] | from left [m] | centre [m] | how | position tolerance |
|---|---|---|---|---|---|---|
| 1 | A | 1.20 | 0.10 | {level} ± 5 mm | staff | 5 mm |
| 2 | A | 1.20 | 2.10 | {level} ± 5 mm | staff | 5 mm |
"""


def test_a_conduit_on_the_grid_meets_a_box_that_was_measured_in_the_hull():
    """The hull's own place is not better known than that: through the middle it is certain."""
    boxes = BOX.format(near="5.00").replace("x: 12.50 m", "x: 12.50 m ± 5 mm")
    [found] = against(rule, boxes + THROUGH.format(x="13.70", level="97.200"))
    assert (found.about, "CON-1" in found.says) == ("FN-1", True)
    assert against(rule, boxes + THROUGH.format(x="14.60", level="97.200")) == []
    assert against(rule, boxes + THROUGH.format(x="13.70", level="98.200")) == []


def test_a_conduit_in_the_hull_meets_it_too():
    boxes = BOX.format(near="5.00")
    [found] = against(rule, boxes + WITHIN.format(level="97.200"))
    assert found.about == "FN-1"
    assert against(rule, boxes + WITHIN.format(level="97.600")) == []
