"""What shuts a pipe between the ground and the room."""

import pytest

from record.checks import check_valve_at_low_end as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def test_a_check_valve_at_the_low_end_inside_is_enough():
    assert against(rule, TRENCH) == []


@pytest.mark.parametrize("other", ["ball", "gate", "shut-off", "not recorded"])
def test_a_valve_that_a_hand_must_shut_is_not(other):
    found = the_one(rule, changed(TRENCH, ("type: check", f"type: {other}")))
    assert found.stops
    assert "low end at station 3 hull A" in found.says


@pytest.mark.parametrize("kind", ["flap", "overpressure"])
def test_whatever_shuts_by_itself_is(kind):
    assert against(rule, changed(TRENCH, ("type: check", f"type: {kind}"))) == []


@pytest.mark.parametrize(("at", "sure"), [("1", "certain"), ("not recorded", "cannot be told")])
def test_a_low_end_inside_has_its_valve_there(at, sure):
    moved = changed(TRENCH, ("- at station: 3\n- normal", f"- at station: {at}\n- normal"))
    found = the_one(rule, moved)
    assert (found.sure, found.stops) == (sure, True)
    assert "inside" in found.says


def test_a_low_end_in_the_bank_may_have_its_valve_at_either_end():
    """Levels turned over: the terminal, 12.5 m from the hull, is the low end."""
    outward = changed(
        TRENCH,
        ("98.400", "98.150"),
        ("98.150 ± 3 mm | 99.90 | staff, BM1 |\n\n", "98.400 ± 3 mm | 99.90 | staff, BM1 |\n\n"),
        ("falls to: 3", "falls to: 1"),
    )
    for at in ("1", "3"):
        valve = changed(outward, ("- at station: 3\n- normal", f"- at station: {at}\n- normal"))
        assert against(rule, valve) == []


@pytest.mark.parametrize("on_run", ["none", "not recorded"])
def test_a_valve_on_no_known_run_shuts_nothing(on_run):
    assert the_one(rule, changed(TRENCH, ("on run: AIR-IN", f"on run: {on_run}"))).stops


def test_a_pipe_that_stays_outside_needs_none():
    """The third station moved to 7 m, 5.5 m from the hull's wall, and no longer called hull."""
    land = changed(
        TRENCH, ("| 3 hull A | 12.50", "| 3 gully | 7.00"), ("type: check", "type: ball")
    )
    assert against(rule, land) == []
    assert against(rule, changed(land, ("| 3 gully | 7.00", "| 3 gully | not recorded"))) != []


def test_a_pipe_that_ends_at_the_wall_is_inside_whatever_it_is_called():
    wall = changed(TRENCH, ("| 3 hull A |", "| 3 end |"), ("type: check", "type: ball"))
    assert the_one(rule, wall).stops
    unnamed = changed(
        TRENCH, ("type: check", "type: ball"), ("carries: supply air", "carries: spare")
    )
    assert against(rule, unnamed) == []
