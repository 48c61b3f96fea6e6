"""Proofs that later work undid."""

from record.checks import no_lapsed_proof as rule
from tests.record.building import day
from tests.record.checks.ground import TRENCH, against, changed, the_one

PASSED = """
## tested AIR-IN

- at: 15:30
- test: pour
- result: passed
- reading: 5.0 L in, 4.8 L out
- limit: 0.5 L
- instrument: bucket
"""
DRILLED = day(
    "2031-05-15",
    "ld",
    "## proof lapsed AIR-IN\n\n- at: 08:00\n- test: pour\n- cause: drilled at the bend",
)


def test_a_proof_that_stands_is_not_held():
    assert against(rule, TRENCH + PASSED) == []


def test_a_proof_that_lapsed_holds_until_the_same_test_passes_again():
    found = the_one(rule, TRENCH + PASSED, DRILLED)
    assert found.says == (
        "pour: VOID since 2031-05-15 08:00, and not passed since "
        "(2031-05-15 08:00: drilled at the bend (ld-15))"
    )
    assert found.stops
    again = day("2031-05-16", "ld", PASSED)
    assert against(rule, TRENCH + PASSED, DRILLED, again) == []


def test_neither_a_failed_test_nor_another_nor_one_of_no_known_result_renews_it():
    for pair in (("passed", "failed"), ("passed", "not recorded"), ("test: pour", "test: ball")):
        again = day("2031-05-16", "ld", changed(PASSED, pair))
        assert the_one(rule, TRENCH + PASSED, DRILLED, again).stops


def test_drilling_into_the_pipe_undoes_its_pour_test_by_itself():
    """Nobody need write that a proof lapsed: what was done says it."""
    opened = day("2031-05-15", "ld", "## opened up AIR-IN\n\n- what: drilled\n- why: a sensor")
    assert the_one(rule, TRENCH + PASSED, opened).stops
    again = day("2031-05-16", "ld", PASSED)
    assert against(rule, TRENCH + PASSED, opened, again) == []


def test_a_lapse_of_a_test_that_nobody_recorded_is_held_too():
    found = the_one(rule, TRENCH, DRILLED)
    assert "no such test is recorded as passed" in found.says and found.stops
