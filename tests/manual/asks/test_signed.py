"""The sign-off page tells what came since the edition that was last signed for."""

from datetime import timedelta

import pytest

from manual.asks.signed import last_signed
from manual.build import bind
from tests.manual.issuing import LATER, issued, without_press
from tests.record.records import post_text

HANDED = """# 2031-06-03 of

- site: fern-bank

## copy handed over

- what: owner's manual
- edition: 1
- reader: owner
- handed to: ow
- signed by: {by}

## remark CV-1

- text: it sticks
"""


@pytest.fixture(autouse=True)
def _no_press(monkeypatch):
    without_press(monkeypatch)


def book(log):
    return bind(log.entries(), "owner")


def test_before_anything_was_signed_there_is_none(log):
    issued(log)
    assert last_signed(book(log)) is None


@pytest.mark.parametrize(("by", "signed"), [("ow", True), ("not recorded", False)])
def test_what_came_since_a_signed_edition_is_told_and_an_unsigned_copy_counts_for_nothing(
    log, by, signed
):
    issued(log)
    post_text(log, HANDED.format(by=by), now=LATER + timedelta(days=2))
    found = last_signed(book(log))
    assert (found is not None) is signed
    if found:
        assert (found.edition, found.by) == (1, "ow")
        assert "remark" in {entry.content.kind for entry in found.entries}
