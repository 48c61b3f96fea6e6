"""Which way a valve that works by itself lets through."""

import pytest

from record.checks import valve_turned_right as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

OVER = "\n## valve OV-1\n\n- type: overpressure\n- on run: AIR-IN\n- flow: {}\n"


def test_a_check_valve_on_supply_air_that_lets_in_is_right():
    assert against(rule, TRENCH) == []


@pytest.mark.parametrize("flow", ["outward", "from the fan to the terminal", "out of the hull"])
def test_one_that_lets_supply_air_out_stops_the_fill(flow):
    found = the_one(rule, changed(TRENCH, ("flow: inward", f"flow: {flow}")))
    assert (found.about, found.stops, found.sure) == ("CV-1", True, "certain")
    assert found.says == f"it lets through outward ({flow}), and must let through inward"


def test_what_presses_the_room_must_get_out_by_an_overpressure_valve():
    assert against(rule, TRENCH + OVER.format("outward")) == []
    assert the_one(rule, TRENCH + OVER.format("inward")).about == "OV-1"


def test_a_drain_lets_go_toward_its_low_end():
    """The low end, station 3, stands at hull A: what runs off comes in, into a gully."""
    drain = changed(TRENCH, ("carries: supply air", "carries: condensate"))
    assert against(rule, drain) == []
    assert the_one(rule, changed(drain, ("flow: inward", "flow: to the bank"))).about == "CV-1"


@pytest.mark.parametrize("flow", ["not recorded", "left to right", "in and out", "none"])
def test_a_way_nobody_can_tell_is_asked_for_before_it_is_covered(flow):
    found = the_one(rule, changed(TRENCH, ("flow: inward", f"flow: {flow}")))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_valve_worked_by_hand_has_no_right_way():
    assert against(rule, changed(TRENCH, ("type: check", "type: ball"), ("inward", "any"))) == []


@pytest.mark.parametrize(("carries", "told"), [("not recorded", 1), ("drinking water", 0)])
def test_where_it_is_not_recorded_what_the_pipe_carries_no_way_is_known_to_be_right(carries, told):
    found = against(rule, changed(TRENCH, ("carries: supply air", f"carries: {carries}")))
    assert [(one.about, one.sure, one.stops) for one in found] == [
        ("CV-1", "cannot be told", True)
    ] * told


def test_a_drain_of_which_the_low_end_is_not_known_has_no_known_right_way():
    drain = changed(
        TRENCH,
        ("carries: supply air", "carries: condensate"),
        ("falls to: 3", "falls to: not recorded"),
        ("98.400 ± 3 mm", "not recorded"),
    )
    assert the_one(rule, drain).sure == "cannot be told"
