"""Screens and frost."""

import pytest

from record.checks import drain_kept_open as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def test_a_drain_with_both_written_is_not_named():
    assert against(rule, TRENCH) == []


@pytest.mark.parametrize(
    "pair",
    [
        ("screen: none", "screen: not recorded"),
        ("freeze protection: n/a, inside the hull", "freeze protection: not recorded"),
    ],
)
def test_what_nobody_wrote_is_to_be_looked_at(pair):
    found = the_one(rule, changed(TRENCH, pair))
    assert (found.about, found.says, found.stops) == ("DL-1", pair[1].replace(":", ""), False)


def test_a_run_that_carries_water_off_has_them_too():
    found = the_one(rule, changed(TRENCH, ("supply air", "drain water")))
    assert (found.about, found.says) == (
        "AIR-IN",
        "screen not recorded, freeze protection not recorded",
    )
    assert the_one(rule, changed(TRENCH, ("supply air", "not recorded"))).about == "AIR-IN"
