"""Open items and whose they are."""

import pytest

from record.checks import handed_to_somebody as rule
from tests.record.checks.ground import changed, handed

ITEM = """
## hand-over item HO-1

- what: transit plug in the intake terminal
- by whom: ph
- due: 2031-05-24
- state: open
"""


def test_an_open_item_with_a_name_is_not_told():
    assert handed(rule, ITEM) == []


@pytest.mark.parametrize(("who", "sure"), [("none", "certain"), ("not recorded", "cannot be told")])
def test_an_open_item_of_nobody_holds_the_signature(who, sure):
    [found] = handed(rule, changed(ITEM, ("by whom: ph", f"by whom: {who}")))
    assert (found.about, found.stops, found.sure) == ("HO-1", True, sure)
    assert found.says == f"transit plug in the intake terminal: by whom it is settled is {who}"


@pytest.mark.parametrize(("state", "told"), [("done", 0), ("Done", 0), ("not recorded", 1)])
def test_what_is_done_needs_no_name_and_what_may_be_open_does(state, told):
    items = changed(ITEM, ("by whom: ph", "by whom: none"), ("state: open", f"state: {state}"))
    assert len(handed(rule, items)) == told
