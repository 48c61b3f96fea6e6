"""Stations with their place and level."""

import pytest

from record.checks import every_station_levelled as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

BEND = "| 2 bend | 5.00 | 0.00 | 98.300 ± 3 mm | 99.90 | staff, BM1 |\n"


def test_a_run_with_every_station_levelled_is_not_held():
    assert against(rule, TRENCH) == []


def test_a_station_without_a_level_is_named():
    found = the_one(rule, changed(TRENCH, ("98.300 ± 3 mm", "not recorded")))
    assert found.says == "2 bend: its level is not recorded"
    assert found.stops


def test_a_station_without_a_place_is_named():
    found = the_one(rule, changed(TRENCH, ("| 2 bend | 5.00", "| 2 bend | not recorded")))
    assert found.says == "2 bend: its place is not recorded"


def test_a_run_of_one_station_has_no_other_end():
    first = "| 1 terminal foot | 0.00 | 0.00 | 98.400 ± 3 mm | 99.90 | staff, BM1 |\n"
    assert "one station" in the_one(rule, changed(TRENCH, (BEND, ""), (first, ""))).says


def test_a_crown_without_the_pipes_size_gives_no_invert():
    """The invert is the crown less half of outside and inside diameter; without, it is a guess."""
    crowns = changed(TRENCH, ("invert [m]", "crown [m]"))
    assert against(rule, crowns) == []
    unknown = changed(crowns, ("inside diameter: 152 mm", "inside diameter: not recorded"))
    assert "invert cannot be worked from its crown" in the_one(rule, unknown).says


@pytest.mark.parametrize("carries", ["spare", "power", "drinking water"])
def test_any_pipe_has_its_levels_and_an_invert_only_where_it_must_fall(carries):
    spare = changed(
        TRENCH,
        ("carries: supply air", f"carries: {carries}"),
        ("invert [m]", "crown [m]"),
        ("inside diameter: 152 mm", "inside diameter: not recorded"),
    )
    assert against(rule, spare) == []
    bare = changed(spare, ("98.300 ± 3 mm", "not recorded"))
    assert the_one(rule, bare).says == "2 bend: its level is not recorded"
