"""A look or a test on its own form is the look or the test that a rule asks for."""

import pytest

from record.checks import failed_passed_again, no_lapsed_proof, weld_passed_first
from tests.record.building import day
from tests.record.checks.ground import SEAM, TRENCH, against, changed, the_one

LOOK = """## inspected SM

- at: 07:30
- what: weld all round
- result: passed
"""
FORM = """## weld inspected SM

- at: {at}
- weld: all round
- procedure: WP-2
- welder: ph
- filler: solid wire
- filler lots: FW-12
- method: by eye
- criterion: no pinhole
- criterion from: engineer
- result: {result}
- instrument: none
- calibrated: n/a, by eye
- retest of: {retest}
- reading: {reading}
- repair: none
"""
PRESSURE = """
## pressure tested AIR-IN

- at: {at}
- test: tightness
- medium: air
- pressure: 2 kPa
- pressure after: 1.4 kPa
- duration: 15 min
- leakage: 0.6 kPa in 15 min
- flushing: n/a, an air pipe
- left in service: none
- witnesses: gc
- criterion: 0.2 kPa in 15 min
- criterion from: engineer
- result: {result}
- instrument: gauge G-2
- calibrated: 2031-01-10
- retest of: {retest}
"""


def weld(at="07:30", result="passed", retest="none", reading="nothing shows"):
    return FORM.format(at=at, result=result, retest=retest, reading=reading)


def pressure(at="15:30", result="failed", retest="none"):
    return PRESSURE.format(at=at, result=result, retest=retest)


def test_a_weld_passed_on_its_own_form_is_not_held():
    assert against(weld_passed_first, changed(SEAM, (LOOK, weld()))) == []


@pytest.mark.parametrize("result", ["failed", "as found", "not recorded"])
def test_a_weld_that_did_not_pass_on_its_form_is_held(result):
    assert the_one(weld_passed_first, changed(SEAM, (LOOK, weld(result=result)))).stops


def test_a_weld_form_that_failed_is_settled_by_a_form_that_names_it():
    failed = weld(at="07:10", result="failed", reading="pinhole at the top")
    alone = the_one(weld_passed_first, changed(SEAM, (LOOK, failed + "\n" + weld())))
    assert "pinhole at the top" in alone.says
    linked = changed(SEAM, (LOOK, failed + "\n" + weld(retest="07:10")))
    assert against(weld_passed_first, linked) == []


def test_a_failed_weld_form_is_the_weld_rules_and_not_told_twice():
    failed = changed(SEAM, (LOOK, weld(result="failed")))
    assert against(failed_passed_again, failed) == []


def test_a_line_that_leaked_holds_until_a_test_that_names_it_passes():
    found = the_one(failed_passed_again, TRENCH + pressure())
    assert found.stops and found.says.startswith("tightness: failed 2031-05-14 15:30")
    assert "0.6 kPa in 15 min" in found.says
    assert found.clears[0] == "## pressure tested AIR-IN"
    assert "- test: tightness" in found.clears
    again = pressure(at="16:30", result="passed", retest="15:30")
    assert against(failed_passed_again, TRENCH + pressure() + again) == []
    assert the_one(failed_passed_again, TRENCH + pressure() + pressure("16:30", "passed")).stops


def test_a_leak_of_a_fitting_on_the_run_holds_the_run():
    bend = "\n## fitting FT-1\n\n- type: bend\n- on run: AIR-IN\n- at station: 2\n"
    leaked = bend + pressure().replace("AIR-IN", "FT-1")
    assert the_one(failed_passed_again, TRENCH + leaked).about == "FT-1"


def test_a_lapsed_proof_is_renewed_by_the_same_test_on_its_form():
    drilled = day(
        "2031-05-15",
        "ld",
        "## proof lapsed AIR-IN\n\n- at: 08:00\n- test: tightness\n- cause: drilled",
    )
    passed = TRENCH + pressure(result="passed")
    assert the_one(no_lapsed_proof, passed, drilled).stops
    again = day("2031-05-16", "ld", pressure(result="passed"))
    assert against(no_lapsed_proof, passed, drilled, again) == []
    failed = day("2031-05-16", "ld", pressure())
    assert the_one(no_lapsed_proof, passed, drilled, failed).stops
