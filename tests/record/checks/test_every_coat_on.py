"""Every coat that the covering will lie on."""

import pytest

from record.checks import every_coat_on as rule
from tests.record.checks.ground import COVERED, SEAM, against, changed, the_one

FOAM_2 = "| foam | 2 | 13:40 | 13:50 | F-1 | M-1 | 14.0 °C | 8.6 °C | 35 mm |\n"
WRAP = "| wrap | 1 | 15:00 | 15:30 | W-1 | none | 14.0 °C | 8.6 °C | none |\n"


def test_a_seam_with_every_coat_is_not_held():
    assert against(rule, SEAM) == []


def test_a_second_coat_that_is_missing_is_named():
    found = the_one(rule, changed(SEAM, (FOAM_2, "")))
    assert (found.says, found.stops) == ("not recorded: foam coat 2", True)


@pytest.mark.parametrize(
    "pair",
    [
        ("| foam | 2 | 13:40", "| foam | not recorded | 13:40"),
        ("| wrap | 1 | 15:00", "| not recorded | 1 | 15:00"),
    ],
)
def test_a_coat_of_no_known_number_or_layer_is_no_coat(pair):
    assert the_one(rule, changed(SEAM, pair)).stops


def test_a_tar_going_on_needs_only_what_lies_under_it():
    tarring = changed(SEAM, ("what: backfill", "what: tar"), (FOAM_2, ""), (WRAP, ""))
    assert against(rule, tarring) == []
    unknown = changed(tarring, ("what: tar", "what: not recorded"))
    assert the_one(rule, unknown).says == "not recorded: foam coat 2, wrap"


@pytest.mark.parametrize(
    "pair",
    [
        ("- build-up: BU\n", "- build-up: not recorded\n"),
        ("| 3 foam | spray foam | 2 |", "| 3 foam | spray foam | not recorded |"),
    ],
)
def test_a_seam_that_must_get_nobody_knows_what_cannot_be_told(pair):
    found = the_one(rule, changed(SEAM, pair))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_coat_finished_after_the_covering_does_not_count():
    """The wrap ended at 15:30."""
    assert against(rule, SEAM + COVERED) == []
    found = the_one(rule, SEAM + changed(COVERED, ("16:30", "15:10")))
    assert (found.says, found.sure) == (
        "not finished by 2031-05-14 15:10, when covered: wrap",
        "certain",
    )
    untimed = the_one(rule, SEAM + changed(COVERED, ("- at: 16:30\n", "")))
    assert (untimed.sure, untimed.stops) == ("cannot be told", True)
