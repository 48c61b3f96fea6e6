"""A forgotten pipe shows up by its place: under the trench, round a hull, behind a board."""

import pytest

from record.checks import in_the_way as rule
from record.checks import json_form
from tests.record.building import day, view_of
from tests.record.checks.ground import COVERED, TRENCH, against, changed, readiness, the_one

FORGOTTEN = """
## run DR-9

- carries: spare
- size: 50 mm
- outside diameter: 60 mm
- inside diameter: 50 mm
- insulation: none

| station | x [m] | y [m] | invert [m] | ground [m] | how |
|---|---|---|---|---|---|
| 1 start | 2.00 | {y} ± 10 mm | {level} ± 10 mm | 99.90 | staff, BM1 |
| 2 end | 6.00 | {y} ± 10 mm | {level} ± 10 mm | 99.90 | staff, BM1 |
"""
OTHER = "\n## covering {tag}\n\n- what: backfill\n- hides: DR-9\n- planned: {day}\n"


def pipe(y="0.40", level="98.600"):
    return FORGOTTEN.format(y=y, level=level)


def test_what_is_named_is_not_in_the_way():
    named = changed(TRENCH, ("- hides: AIR-IN", "- hides: AIR-IN, DR-9")) + pipe()
    assert against(rule, TRENCH) == against(rule, named) == []


def test_a_pipe_beside_the_one_that_is_named_stops_the_fill():
    found = the_one(rule, TRENCH + pipe(y="0.05"))
    assert (found.about, found.stops, found.sure) == ("DR-9", True, "certain")
    assert "lies round AIR-IN, in the way of FILL, named by nobody" in found.says
    assert "- hides: AIR-IN, DR-9" in found.clears


def test_one_across_the_trench_and_above_it_is_in_the_way_too():
    across = pipe().replace("| 1 start | 2.00 | 0.40", "| 1 start | 4.00 | -5.00")
    assert len(against(rule, TRENCH + across)) == 1
    assert len(against(rule, TRENCH + pipe(level="99.700"))) == 1


def test_just_beyond_the_trench_it_is_looked_at_by_its_tolerance_and_farther_not_at_all():
    """
    The trench is open 0.60 m beside the pipe, AIR-IN reaches 0.13 m off its axis (0.08, and 0.05
    of insulation that nobody wrote of), DR-9 0.03 m off its own: from 0.76 m on they are apart.
    """
    near = the_one(rule, TRENCH + pipe(y="0.78"))
    assert (near.stops, near.sure) == (False, "cannot be told")
    assert "recorded 20 mm outside, within its tolerance" in near.says
    assert the_one(rule, TRENCH + pipe(y="0.74")).stops
    assert against(rule, TRENCH + pipe(y="3.00")) == []


def test_far_below_the_trench_it_is_not_in_the_way():
    assert against(rule, TRENCH + pipe(level="96.000")) == []


def test_being_less_sure_of_its_place_opens_no_way():
    found = the_one(rule, TRENCH + pipe().replace("± 10 mm", "± 500 mm"))
    assert (found.stops, found.sure) == (True, "cannot be told")
    unlevelled = pipe().replace("| 98.600 ± 10 mm |", "| not recorded |")
    assert the_one(rule, TRENCH + unlevelled).stops


@pytest.mark.parametrize(
    ("tag", "on", "stops"),
    [("FIRST", "2031-05-20", None), ("FIRST", "2031-05-19", None), ("LAST", "2031-05-21", False)],
)
def test_one_that_another_covering_names_is_that_ones_business_if_it_goes_on_first(tag, on, stops):
    found = against(rule, TRENCH + pipe() + OTHER.format(tag=tag, day=on))
    assert [one.stops for one in found] == ([] if stops is None else [stops])
    for one in found:
        assert "named only by LAST, planned later" in one.says


def test_a_pipe_of_no_known_place_may_lie_there():
    half = pipe().replace("| 2 end | 6.00 |", "| 2 end | not recorded |").replace("2.00", "60.00")
    found = the_one(rule, TRENCH + half)
    assert found.stops and "may lie under FILL" in found.says
    bare = "\n## run DR-8\n\n- carries: spare\n- size: 50 mm\n"
    found = the_one(rule, TRENCH + bare)
    assert (found.about, found.stops, found.sure) == ("DR-8", False, "cannot be told")


def test_what_was_laid_after_the_earth_was_on_was_not_forgotten_under_it():
    later = day("2031-06-01", "ld", pipe())
    assert against(rule, TRENCH + COVERED, later) == []
    assert len(against(rule, TRENCH + COVERED + pipe())) == 1


def test_round_a_hull_what_is_in_the_room_is_no_business_of_the_earth():
    hull = changed(TRENCH, ("- hides: AIR-IN", "- hides: AIR-IN, A"))
    room = "\n## equipment FAN\n\n- type: air unit\n- hull: A\n- from near: 1.00 m\n"
    room += "- from left: 2.60 m\n- above floor: 1.00 m\n"
    assert against(rule, hull + room) == []
    beside = pipe().replace("| 2.00 |", "| 14.00 |").replace("| 6.00 |", "| 20.00 |")
    found = the_one(rule, hull + beside.replace("0.40", "1.30"))
    assert found.stops and "lies round A" in found.says


PANELS = """
## panel P-1

- hull: A
- face: left
- from near: 2.00 m
- bottom: 96.60 m
- width: 1.20 m
- height: 2.00 m
- thickness: 12 mm
- packing thickness: 40 mm

## fit-out FO-1

- what: fixing
- hull: A
- from near: 2.50 m
- from left: 0.00 m
- above floor: 1.00 m
- along: 0.10 m
- across: 0.02 m
- height: 0.10 m

## covering LIN

- what: lining
- hides: {hides}
- planned: 2031-05-20
"""
CABLE = """
## run EL-1

- carries: power
- size: 20 mm
- outside diameter: 20 mm
- inside diameter: 16 mm
- insulation: none

| station | hull | from near [m] | from left [m] | centre [m] | how |
|---|---|---|---|---|---|
| 1 low | A | {a} | 0.02 | 97.00 ± 5 mm | tape |
| 2 high | A | {a} | 0.02 | 98.00 ± 5 mm | tape |
"""


@pytest.mark.parametrize("hides", ["FO-1", "FO-1, P-1"])
def test_behind_the_boards_a_pipe_nobody_named_stops_the_lining(hides):
    """The boards are those it names, else those that what it names lies behind."""
    blocks = TRENCH + PANELS.format(hides=hides)
    assert against(rule, blocks, covering="LIN") == []
    found = the_one(rule, blocks + CABLE.format(a="2.60"), covering="LIN")
    assert found.about == "EL-1" and found.stops
    assert "lies behind panel P-1, in the way of LIN" in found.says
    assert against(rule, blocks + CABLE.format(a="6.00"), covering="LIN") == []


def test_the_boards_it_puts_on_may_be_said_by_themselves():
    blocks = TRENCH + PANELS.format(hides="CV-1\n- panels: P-1")
    found = against(rule, blocks + CABLE.format(a="2.60"), covering="LIN")
    assert [(one.about, one.stops) for one in found] == [("EL-1", True), ("FO-1", False)]


def test_what_is_withheld_from_a_reader_is_not_told_to_them():
    secret = pipe().replace("## run DR-9\n", "## run DR-9\n\n- readers: owner")
    told = readiness(TRENCH + secret, reader="trade")
    assert "DR-9" not in str(json_form(told))
    assert "DR-9" in str(json_form(readiness(TRENCH + secret)))


def test_as_of_the_day_before_it_was_laid_it_is_not_there():
    later = (
        day("2031-05-13", "ld", "## site fern-bank\n\n- name: F\n- datum: b\n- grid: g"),
        day("2031-05-14", "ld", TRENCH),
        day("2031-05-15", "ld", pipe()),
    )
    assert view_of(*later, as_of="2031-05-14").built.thing("DR-9") is None
