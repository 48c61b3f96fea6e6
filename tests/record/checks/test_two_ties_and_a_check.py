"""Valves, outlets and hatches under earth, and the landmarks they are taped from."""

import re

from record.checks import two_ties_and_a_check as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

MARKS = "".join(
    f"\n## landmark {tag}\n\n- what: {what}\n- x: {x} m\n- y: {y} m\n"
    for tag, what, x, y in (
        ("H1", "house corner", "0.00", "12.00"),
        ("H2", "house corner", "9.00", "12.00"),
        ("G1", "gate pillar", "-5.00", "0.00"),
    )
)
#: Station 2 stands at 5.00, 0.00: from H1 13 (5, 12, 13), from G1 10, from H2 √(16 + 144).
TIES = """
## position tied AIR-IN

| landmark | point | distance | side |
|---|---|---|---|
| H1 | 2 | 13.00 m | south of the house |
| H2 | 2 | 12.65 m | south of the house |
| G1 | 2 | 10.00 m | east of the pillar |
"""
BURIED = changed(TRENCH, ("- on run: AIR-IN\n- at station: 3", "- on run: AIR-IN\n- at station: 2"))
SECOND = "| H2 | 2 | 12.65 m | south of the house |\n"
THIRD = "| G1 | 2 | 10.00 m | east of the pillar |\n"


def test_a_valve_inside_the_hull_needs_no_ties():
    assert against(rule, TRENCH + MARKS) == []


def test_a_buried_valve_tied_from_three_landmarks_is_not_told():
    assert against(rule, BURIED + MARKS + TIES) == []


def test_two_ties_without_a_check_stop_the_fill():
    found = the_one(rule, BURIED + MARKS + changed(TIES, (THIRD, "")))
    assert (found.about, found.stops) == ("CV-1", True)
    assert "(check valve) is tied from H1, H2 only" in found.says


def test_the_same_landmark_twice_is_no_check():
    twice = TIES.replace("| G1 | 2 | 10.00 m | east of the pillar |", "| H1 | 2 | 13.01 m | none |")
    assert the_one(rule, BURIED + MARKS + twice).about == "CV-1"


def test_a_valve_nobody_tied_says_so():
    assert "not tied from any landmark" in the_one(rule, BURIED).says


def test_only_earth_makes_it_needed():
    foamed = changed(BURIED, ("what: backfill", "what: foam"))
    assert against(rule, foamed) == []


def test_a_drain_that_lets_go_in_the_ground_is_tied_as_well():
    weep = changed(
        TRENCH,
        (
            "- at station: 3\n- discharges: gully in the plant room",
            "- at station: 2\n- discharges: gravel",
        ),
    )
    assert the_one(rule, weep).about == "DL-1"
    assert against(rule, weep + MARKS + TIES) == []


def test_the_outlet_of_a_drain_pipe_is_to_be_looked_at_and_does_not_stop():
    bank = changed(
        TRENCH,
        ("carries: supply air", "carries: drain water"),
        ("falls to: 3", "falls to: 1"),
        ("98.400 ± 3 mm", "98.000 ± 3 mm"),
    )
    bank = re.sub(r"## drain.*?(?=## valve)", "", bank, flags=re.DOTALL)
    found = the_one(rule, bank)
    assert (found.about, found.stops) == ("AIR-IN", False)
    assert "AIR-IN station 1 terminal foot" in found.says
