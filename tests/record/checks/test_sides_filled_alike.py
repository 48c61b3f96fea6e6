"""The two sides of a hull go up together."""

import pytest

from record.checks import sides_filled_alike as rule
from tests.record.checks.ground import against, changed, the_one

LIFTS = """
## hull A

- fill difference: 0.20 m
- fill difference by: engineer

## covering FILL

- what: backfill
- hides: A

## backfilled FILL

| lift | side | material | to level |
|---|---|---|---|
| 1 | all round | pea gravel | 96.90 m |
| 2 | left | sand | 97.10 m |
| 3 | right | sand | 97.10 m |
| 4 | left | sand | 97.30 m |
"""
NEXT = "| 5 | right | sand | 97.30 m |\n"


def test_a_lift_within_the_limit_over_the_other_side_is_right():
    """97.30 - 97.10 = 0.20 m, the engineer's limit, is not more than it."""
    assert [one for one in against(rule, LIFTS) if one.sure == "certain"] == []


def test_one_a_finger_higher_stops_until_the_other_side_is_brought_up():
    high = changed(LIFTS, ("| 4 | left | sand | 97.30 m |", "| 4 | left | sand | 97.32 m |"))
    [found] = [one for one in against(rule, high) if one.sure == "certain"]
    assert (found.about, found.stops) == ("A", True)
    assert "0.220 m" in found.says and "(engineer)" in found.says
    [found] = [one for one in against(rule, high + NEXT) if one.sure == "certain"]
    assert found.stops is False
    assert found.says.endswith("levelled up since")


@pytest.mark.parametrize(("level", "told"), [("97.40 m", 0), ("97.41 m", 1)])
def test_without_a_limit_a_foot_is_usual(level, told):
    none = changed(
        LIFTS, ("- fill difference: 0.20 m", "- fill difference: not recorded"), ("97.30 m", level)
    )
    found = [one for one in against(rule, none) if "more than" in one.says]
    assert len(found) == told
    assert all(one.sure == "cannot be told" and one.stops for one in found)


def test_a_side_whose_level_nobody_wrote_cannot_be_told_and_stops():
    unsaid = changed(LIFTS, ("| 4 | left | sand | 97.30 m |", "| 4 | left | sand | not recorded |"))
    found = the_one(rule, unsaid)
    assert (found.stops, found.sure) == (True, "cannot be told")


def test_the_first_side_to_rise_is_judged_once_the_other_follows():
    one = LIFTS[: LIFTS.index("| 3 | right")]
    found = the_one(rule, one)
    assert "the other side is not recorded" in found.says


@pytest.mark.parametrize("side", ["left and right, level", "all round", "over the crown", "both"])
def test_a_lift_that_says_both_sides_is_let_be(side):
    blocks = changed(LIFTS, ("| 4 | left |", f"| 4 | {side} |"))
    assert against(rule, blocks) == []


def test_a_trench_has_no_sides():
    assert against(rule, changed(LIFTS, ("- hides: A", "- hides: none"))) == []


def test_turf_is_no_fill():
    high = changed(LIFTS, ("97.30 m", "97.60 m"), ("what: backfill", "what: turf"))
    assert against(rule, high) == []
