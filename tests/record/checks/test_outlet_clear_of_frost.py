"""Drain outlets and the frost depth of the place.

The crown of the pipe is its invert + 152 mm inside + 4 mm wall. At station 1 that is
98.400 + 0.156 = 98.556 m, under ground at 99.90 m: 1.344 m of earth. At station 3 it is
98.150 + 0.156 = 98.306 m: 1.594 m.
"""

import pytest

from record.checks import outlet_clear_of_frost as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

WEEP = changed(
    TRENCH,
    (
        "- at station: 3\n- discharges: gully in the plant room",
        "- at station: 1\n- discharges: gravel",
    ),
    ("freeze protection: n/a, inside the hull", "freeze protection: none"),
)


def frost(depth, blocks=WEEP):
    return blocks + f"\n## site fern-bank\n\n- frost depth: {depth}\n"


def test_an_outlet_below_the_frost_is_right_and_one_a_hair_above_it_is_not():
    assert against(rule, frost("1.34 m")) == []
    found = the_one(rule, frost("1.35 m"))
    assert (found.about, found.stops, found.sure) == ("DL-1", True, "certain")
    assert found.says == (
        "its outlet, AIR-IN station 1 terminal foot, lies under 1.344 m (4' 4 15/16\") of earth, "
        "within the frost depth of 1.350 m (4' 5 1/8\"); freeze protection none"
    )


@pytest.mark.parametrize("guard", ["heating cable", "n/a, runs empty by itself"])
def test_what_guards_it_is_taken_as_it_is_said(guard):
    told = changed(WEEP, ("freeze protection: none", f"freeze protection: {guard}"))
    assert against(rule, frost("2.00 m", told)) == []


def test_an_outlet_inside_the_hull_does_not_freeze_by_the_ground():
    inside = changed(WEEP, ("- at station: 1", "- at station: 3"))
    assert against(rule, frost("2.00 m", inside)) == []


@pytest.mark.parametrize(
    ("blocks", "lacks"),
    [
        (WEEP, "frost depth of the site not recorded"),
        (frost("1.10 m").replace("| 99.90 |", "| not recorded |"), "cover not recorded"),
    ],
)
def test_a_depth_nobody_wrote_is_told_and_stops(blocks, lacks):
    found = the_one(rule, blocks)
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert lacks in found.says


def test_a_drain_pipe_lets_go_at_its_own_low_end():
    bank = changed(
        TRENCH,
        ("carries: supply air", "carries: drain water\n- freeze protection: none"),
        ("falls to: 3", "falls to: 1"),
        ("98.400 ± 3 mm", "98.000 ± 3 mm"),
    )
    assert "AIR-IN" in {one.about for one in against(rule, frost("2.00 m", bank))}
    assert against(rule, frost("1.10 m", bank)) == []
