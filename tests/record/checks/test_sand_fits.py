"""The heap and the room: it runs out 1.47 m and stands 0.99 m, see shaft.py."""

import pytest

from record.checks import sand_fits as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import SHAFT


def test_a_heap_shorter_than_what_is_kept_clear_fits():
    assert handed(rule, SHAFT) == []
    assert handed(rule, changed(SHAFT, ("wall, 1.60 m", "wall, 1.48 m"))) == []


def test_one_a_hand_longer_does_not():
    [found] = handed(rule, changed(SHAFT, ("wall, 1.60 m", "wall, 1.46 m")))
    assert (found.about, found.stops, found.sure) == ("SH-1", True, "certain")
    assert "runs out 1.470 m" in found.says
    assert "more than: kept clear 1.460 m" in found.says


@pytest.mark.parametrize(
    ("old", "new"),
    [("- length: 9.00 m", "- length: 1.40 m"), ("- height: 2.15 m", "- height: 0.90 m")],
)
def test_a_room_too_short_or_too_low_does_not_hold_it(old, new):
    [found] = handed(rule, changed(SHAFT, (old, new)))
    assert found.sure == "certain"
    assert new.split(": ")[0].strip("- ") in found.says


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("section across: 0.75 m", "section across: not recorded"),
        ("receives fill: RM-A", "receives fill: not recorded"),
        ("wall, 1.60 m", "wall to the joint"),
        ("- height: 2.15 m", "- height: not recorded"),
        ("- width: 2.70 m", "- width: not recorded"),
    ],
)
def test_a_measure_nobody_wrote_cannot_be_told_and_stops(old, new):
    [found] = handed(rule, changed(SHAFT, (old, new)))
    assert (found.stops, found.sure) == (True, "cannot be told")


def test_a_shaft_that_is_not_filled_has_no_sand_to_fit():
    empty = changed(SHAFT, ("- fill: dry sand", "- fill: none"), ("wall, 1.60 m", "wall, 0.10 m"))
    assert handed(rule, empty) == []
    unsaid = changed(SHAFT, ("- fill: dry sand", "- fill: not recorded"), ("1.60 m", "0.10 m"))
    assert len(handed(rule, unsaid)) == 1
