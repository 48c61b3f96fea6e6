"""How deep the top of a way out lies. About a foot, 0.305 m, give or take six inches, 0.152 m."""

import pytest

from record.checks import way_out_near_the_top as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import SHAFT


@pytest.mark.parametrize(
    ("depth", "said"),
    [("1 ft", ""), ("18 in", ""), ("6 in", ""), ("0.47 m", "deeper"), ("0.14 m", "shallower")],
)
def test_about_a_foot_is_usual_and_more_or_less_is_looked_at(depth, said):
    found = handed(rule, changed(SHAFT, ("grade: 0.35 m", f"grade: {depth}")))
    assert len(found) == bool(said)
    for one in found:
        assert said in one.says
        assert one.stops is False


def test_a_depth_nobody_measured_holds_the_signature():
    [found] = handed(rule, changed(SHAFT, ("grade: 0.35 m", "grade: not recorded")))
    assert (found.about, found.stops, found.sure) == ("SH-1", True, "cannot be told")
