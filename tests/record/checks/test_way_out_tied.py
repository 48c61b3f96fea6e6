"""The top of a way out, found again from above."""

from record.checks import way_out_tied as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import SHAFT, TIES

THIRD = "| G1 | middle of the top | 8.108 m | west of the pillar |\n"


def test_three_landmarks_are_enough():
    assert handed(rule, SHAFT) == []


def test_two_prove_nothing():
    [found] = handed(rule, changed(SHAFT, (THIRD, "")))
    assert (found.about, found.stops) == ("SH-1", True)
    assert "tied from H1, H2 only" in found.says


def test_none_says_so():
    [found] = handed(rule, changed(SHAFT, (TIES, "")))
    assert "not tied from any landmark" in found.says


def test_ties_to_its_own_lid_count_and_to_another_do_not():
    lid = "\n## door LD-1\n\n- type: lid\n- in: {}\n"
    moved = changed(SHAFT, ("position tied SH-1", "position tied LD-1"))
    assert handed(rule, moved, lid.format("SH-1")) == []
    assert len(handed(rule, moved, lid.format("none"))) == 1
