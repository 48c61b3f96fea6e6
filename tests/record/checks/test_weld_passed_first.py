"""Welds looked at before anything lies on them."""

import pytest

from record.checks import weld_passed_first as rule
from tests.record.checks.ground import SEAM, against, changed, the_one

LOOK = """## inspected SM

- at: 07:30
- what: weld all round
- result: passed
"""
PINHOLE = """## inspected SM

- at: 07:10
- what: weld all round
- result: failed
- reading: pinhole

"""


def test_a_weld_passed_before_the_primer_is_not_held():
    assert against(rule, SEAM) == []


@pytest.mark.parametrize("result", ["failed", "as found", "not recorded"])
def test_a_weld_that_did_not_pass_is_held(result):
    assert the_one(rule, changed(SEAM, ("result: passed", f"result: {result}"))).stops


def test_a_weld_nobody_looked_at_is_held():
    assert the_one(rule, changed(SEAM, (LOOK, ""))).says.startswith("no inspection of its weld")


def test_a_look_at_something_else_is_no_look_at_the_weld():
    assert the_one(rule, changed(SEAM, ("weld all round", "primer"))).stops


def test_a_weld_passed_after_its_first_layer_is_held():
    """The primer was begun at 08:00."""
    found = the_one(rule, changed(SEAM, ("at: 07:30", "at: 08:01")))
    assert (found.sure, found.stops) == ("certain", True)


def test_a_weld_passed_the_same_day_at_no_known_time_cannot_be_told():
    found = the_one(rule, changed(SEAM, ("- at: 07:30\n", "")))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_pinhole_ground_out_and_passed_again_is_settled_by_a_retest_that_names_it():
    passed_again = changed(SEAM, (LOOK, PINHOLE + LOOK + "- retest of: the pinhole of 07:10\n"))
    assert against(rule, passed_again) == []
    unlinked = the_one(rule, changed(SEAM, (LOOK, PINHOLE + LOOK)))
    assert "pinhole" in unlinked.says
    assert unlinked.stops


def test_a_look_before_the_failure_is_no_retest_of_it():
    early = changed(LOOK, ("at: 07:30", "at: 07:00")) + "- retest of: the pinhole of 07:10\n"
    assert the_one(rule, changed(SEAM, (LOOK, PINHOLE + early))).stops


def test_the_retest_too_comes_before_the_first_layer():
    late = changed(LOOK, ("at: 07:30", "at: 09:00")) + "- retest of: the pinhole of 07:10\n"
    earlier = changed(LOOK, ("at: 07:30", "at: 07:00")) + "\n"
    assert the_one(rule, changed(SEAM, (LOOK, earlier + PINHOLE + late))).sure == "certain"
