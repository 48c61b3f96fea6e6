"""A trunk and what branches off it.

fluids 1.0: at 0.1 in w.g. in 100 ft, 200 and 100 cfm want 7.475 and 5.776 in (190 and 147 mm), and
the trunk that carries both 8.696 in, 221 mm. Two alike want a trunk some 1.3 times as wide.
"""

import pytest

from record.checks import trunk_large_enough as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

BRANCH = (
    "\n## run {tag}\n\n- carries: {carries}\n- inside diameter: {inside}\n- {way}: AIR-IN, tee\n"
)


def two(one, other, carries="supply air", way="from"):
    return BRANCH.format(tag="BR-1", carries=carries, inside=one, way=way) + BRANCH.format(
        tag="BR-2", carries=carries, inside=other, way=way
    )


def trunk(inside, carries="supply air"):
    return changed(
        TRENCH,
        ("- size: 150 mm\n", ""),
        ("- inside diameter: 152 mm", f"- inside diameter: {inside}"),
        ("carries: supply air", f"carries: {carries}"),
    )


def test_a_trunk_as_wide_as_both_branches_ask_is_right():
    assert against(rule, trunk("223 mm") + two("190 mm", "147 mm")) == []


def test_one_somewhat_narrower_is_looked_at_and_does_not_stop():
    found = the_one(rule, trunk("217 mm") + two("190 mm", "147 mm"))
    assert (found.about, found.stops, found.sure) == ("AIR-IN", False, "certain")
    assert "BR-1, BR-2 together ask for 0.22" in found.says


def test_a_run_without_branches_is_no_trunk():
    assert against(rule, TRENCH) == []
    assert against(rule, trunk("50 mm") + two("190 mm", "147 mm", carries="exhaust air")) == []


def test_a_trunk_may_itself_name_its_branches():
    named = changed(trunk("150 mm"), ("- falls to: 3", "- to: BR-1, BR-2\n- falls to: 3"))
    loose = two("147 mm", "147 mm").replace("- from: AIR-IN, tee\n", "")
    assert the_one(rule, named + loose).about == "AIR-IN"


@pytest.mark.parametrize(("inside", "told"), [("152 mm", 0), ("110 mm", 1)])
def test_a_drain_never_gets_narrower_along_its_flow(inside, told):
    drains = trunk(inside, "drain water") + two("110 mm", "150 mm", "drain water", "to")
    found = against(rule, drains)
    assert len(found) == told
    assert all(one.stops for one in found)


def test_a_width_nobody_wrote_cannot_be_told():
    found = the_one(rule, trunk("223 mm") + two("190 mm", "not recorded"))
    assert (found.sure, found.stops) == ("cannot be told", False)
    drains = trunk("150 mm", "drain water") + two("110 mm", "not recorded", "drain water", "to")
    assert the_one(rule, drains).stops is True


def test_a_width_no_pipe_has_cannot_be_told_either():
    found = the_one(rule, trunk("223 mm") + two("190 mm", "190 m"))
    assert (found.sure, found.about) == ("cannot be told", "AIR-IN")
