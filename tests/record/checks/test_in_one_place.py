"""One thing, one place: on the grid, in its hull, by its ties, along its run; never on itself.

Hull A looks east from (12.50, 1.00): 1.00 m from near and 1.00 m from left is (13.50, 0.00).
"""

import pytest

from record.checks import in_one_place as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

#: Good to 10 mm, and a hundredth of a degree, which is 1.6 mm at the far corner, 9.396 m away.
HULL = """
## hull A

- x: 12.50 m ± 10 mm
- y: 1.00 m ± 10 mm
- bearing: 90° ± 0.01°
"""
IN_HULL = "\n- hull: A\n- from near: 1.00 m ± 5 mm\n- from left: 1.00 m ± 5 mm"
#: (13.50, 0.00) from P (13.50, 12), Q (17.50, 3) and R (13.50, -7): 12, 5 (of 3, 4, 5) and 7 m.
TIES = "".join(
    f"\n## landmark {tag}\n\n- what: post\n- x: {x} m ± 5 mm\n- y: {y} m ± 5 mm\n"
    for tag, x, y in (("P", 13.5, 12), ("Q", 17.5, 3), ("R", 13.5, -7))
)
TIES += """
## position tied CV-1

| landmark | distance [m] |
|---|---|
| P | 12.000 ± 5 mm |
| Q | 5.000 ± 5 mm |
| R | 7.000 ± 5 mm |
"""


def valve(said, *changes):
    return changed(TRENCH, ("- type: check", f"- type: check{said}"), *changes)


def grid(x, y="0.00", tolerance="5 mm"):
    return f"\n- x: {x} m ± {tolerance}\n- y: {y} m ± {tolerance}"


def test_a_thing_placed_in_one_way_says_nothing():
    assert against(rule, HULL + TRENCH) == against(rule, HULL + valve(IN_HULL)) == []


@pytest.mark.parametrize(("x", "told"), [("13.500", 0), ("13.516", 0), ("13.517", 1)])
def test_the_grid_and_the_hull_are_held_against_each_other_beyond_both(x, told):
    """√(5² + 10² + 1.64²) = 11.3 mm in the hull and 5 mm on the grid: 16.3 mm."""
    found = against(rule, HULL + valve(IN_HULL + grid(x)))
    assert len(found) == told
    for each in found:
        assert "in A 1.000 m from near, 1.000 m from left; 0.017 m apart" in each.says
        assert each.stops and each.about == "CV-1" and each.sure == "certain"


@pytest.mark.parametrize(("q", "told"), [("5.000", 0), ("5.005", 0), ("5.300", 1)])
def test_ties_are_held_against_the_place_in_the_hull(q, told):
    ties = changed(TIES, ("| Q | 5.000", f"| Q | {q}"), ("| R | 7.000 ± 5 mm |\n", ""))
    ties = ties.replace("± 5 mm |", "± 5 mm | south |").replace(
        "[m] |\n|---", "[m] | side |\n|---|---"
    )
    found = against(rule, HULL + valve(IN_HULL) + ties)
    assert len(found) == told
    for each in found:
        assert "its ties meet at" in each.says and each.stops


@pytest.mark.parametrize(("x", "told"), [("5.00", 0), ("5.50", 1)])
def test_a_length_along_the_run_is_held_against_the_grid(x, told):
    """Straight from 98.400 down to 98.150 over 12.50 m is 12.5025 m of pipe: none to spare."""
    straight = ("- size: 150 mm", "- size: 150 mm\n- pipe length: 12.5025 m")
    along = "\n- along run: 5.00 m ± 10 mm"
    found = against(rule, HULL + valve(grid(x) + along, straight))
    assert len(found) == told
    for each in found:
        assert "5.00 m along AIR-IN from its first station" in each.says and each.stops


@pytest.mark.parametrize(("x", "stops"), [("13.60", False), ("15.00", True)])
def test_a_doubt_nobody_wrote_is_looked_at_and_never_hides_a_blunder(x, stops):
    """Nobody wrote how well the hull is known: 0.30 m is assumed, and 1.50 m is beyond it."""
    found = the_one(rule, valve(IN_HULL + grid(x)))
    assert "a part of it assumed" in found.says
    assert found.stops is stops and found.sure == ("certain" if stops else "cannot be told")


def test_a_station_in_a_hull_and_on_the_grid_is_held_alike():
    row = "| 3 hull A | 12.50 | 0.00 |"
    head = "| station | x [m] | y [m] |"
    wide = changed(TRENCH, (head, f"{head} hull | from near [m] | from left [m] |"))
    wide = wide.replace("|---|---|---|---|---|---|\n", "|---|---|---|---|---|---|---|---|---|\n")
    none = " n/a, on the grid |" * 3
    for each in ("| 1 terminal foot | 0.00 | 0.00 |", "| 2 bend | 5.00 | 0.00 |"):
        wide = changed(wide, (each, each + none))
    right = changed(wide, (row, f"{row} A | 0.00 | 1.00 |"))
    assert against(rule, HULL + right) == []
    found = the_one(rule, HULL + changed(wide, (row, f"{row} A | 0.80 | 1.00 |")))
    assert "AIR-IN/3" in found.says and "0.800 m apart" in found.says


def test_a_place_that_hangs_on_itself_stops():
    found = the_one(rule, changed(TRENCH, ("- on run: AIR-IN", "- on run: AIR-IN\n- hull: CV-1")))
    assert found.says == "its place hangs on itself: CV-1 → CV-1"
    assert found.stops
