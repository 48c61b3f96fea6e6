"""A hold is released by two before the covering goes on; one that was not stays told for ever."""

import pytest

from record.checks import released as rule
from tests.record.checks.ground import (
    COVERED,
    GOES_ON,
    RELEASED,
    SEAM,
    against,
    changed,
    readiness,
    the_one,
)


def test_what_was_released_by_two_before_it_went_on_is_not_told():
    assert against(rule, SEAM + COVERED) == []


def test_what_is_not_on_yet_wants_no_release():
    assert against(rule, SEAM) == []


def test_a_covering_without_a_release_is_recorded_and_told_and_stops_nothing_any_more():
    found = the_one(rule, SEAM + GOES_ON)
    assert found.about == "FILL"
    assert "covered on 2031-05-14 16:30 by ld with no release recorded before it" in found.says
    assert not found.stops
    assert readiness(SEAM + GOES_ON).already_covered


def test_it_stays_told_whatever_is_released_afterwards():
    late = changed(RELEASED, ("- at: 16:25", "- at: 16:31"))
    found = the_one(rule, SEAM + GOES_ON + late)
    assert "of 2031-05-14 16:31 came after it" in found.says


def test_one_minute_before_is_before():
    nearly = changed(RELEASED, ("- at: 16:25", "- at: 16:30"))
    assert against(rule, SEAM + nearly + GOES_ON) == []


def test_a_release_of_the_day_without_its_hour_cannot_be_told():
    found = the_one(rule, SEAM + changed(RELEASED, ("- at: 16:25\n", "")) + GOES_ON)
    assert (found.sure, "before or after is not known" in found.says) == ("cannot be told", True)


@pytest.mark.parametrize(
    ("pair", "why"),
    [
        (("second: ck", "second: ld"), "ld cannot be their own second"),
        (("second: ck", "second: not recorded"), "its second person is not recorded"),
    ],
)
def test_one_person_alone_releases_nothing(pair, why):
    found = the_one(rule, SEAM + changed(RELEASED, pair) + GOES_ON)
    assert why in found.says


def test_each_time_it_went_on_wants_its_own_look():
    """Released for the first half at 16:25; the second half went on before that was written."""
    early = changed(GOES_ON, ("- at: 16:30", "- at: 16:00"))
    assert len(against(rule, SEAM + early + COVERED)) == 1


def test_two_who_answer_for_it_afterwards_are_told_with_it():
    waiver = (
        "\n## hold waived FILL\n\n- at: 17:00\n- rule: released before it was covered\n"
        "- tags: FILL\n- reason: the second had gone home\n- second: gc\n"
    )
    found = the_one(rule, SEAM + GOES_ON + waiver)
    assert found.waived.words("second") == "gc"
