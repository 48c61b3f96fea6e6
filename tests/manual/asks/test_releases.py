"""The build record tells of each covering who let it go on, for ever."""

import re

import pytest

from manual.asks.releases import went_on
from record.checks import RULES
from tests.manual.books import Page, body_of
from tests.record.building import day, entries_of, view_of
from tests.record.checks.ground import COVERED, GOES_ON, RELEASED, SITE, TRENCH, changed


def sheets(blocks):
    return day("2031-05-13", "ld", SITE), day("2031-05-14", "ld", TRENCH + blocks)


@pytest.mark.parametrize(
    ("blocks", "said"),
    [
        (COVERED, "ld and ck, 2031-05-14 16:25"),
        (GOES_ON, "NO RELEASE RECORDED BEFORE IT"),
        (GOES_ON + changed(RELEASED, ("16:25", "17:00")), "NO RELEASE RECORDED BEFORE IT"),
        (GOES_ON + changed(RELEASED, ("- at: 16:25\n", "")), "before or after cover is not known"),
        (GOES_ON + changed(RELEASED, ("second: ck", "second: ld")), "NO RELEASE RECORDED"),
    ],
)
def test_a_covering_says_by_whom_it_was_released_or_that_nobody_had(blocks, said):
    [row] = went_on(view_of(*sheets(blocks)))
    assert said in row.released
    assert (row.covering, row.when, row.by) == ("FILL", "2031-05-14 16:30", "ld")


def test_a_copy_that_lacks_entries_never_says_that_nobody_released_it():
    """Releases are not for responders: what is withheld must not read as missing."""
    [row] = went_on(view_of(*sheets(COVERED), reader="responder"))
    assert row.released == "no release in this copy; ask the owner"


def test_the_build_record_prints_it_and_why_each_rule_is_one():
    words = re.sub(r"\s+", " ", Page(body_of(entries_of(*sheets(GOES_ON)), "owner")).text)
    assert "NO RELEASE RECORDED BEFORE IT" in words
    for rule in RULES:
        assert rule.word in words and rule.why.split(". ")[0] in words
