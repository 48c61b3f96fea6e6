"""Valves found and worked by a stranger."""

import pytest

from record.checks import valve_can_be_worked as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def test_a_valve_with_both_written_is_not_named():
    assert against(rule, TRENCH) == []


@pytest.mark.parametrize(
    "pair",
    [
        ("normal position: free", "normal position: not recorded"),
        ("reached by: left wall, third board", "reached by: not recorded"),
    ],
)
def test_what_nobody_wrote_is_to_be_looked_at(pair):
    found = the_one(rule, changed(TRENCH, pair))
    assert (found.about, found.stops) == ("CV-1", False)
    assert found.says == pair[1].replace(":", "")
