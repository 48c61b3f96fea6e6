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
