"""Waivers, and the ones that waive nothing."""

import pytest

from record.checks import every_coat_on, photo_of_every_side
from record.checks import waivers as rule
from tests.record.building import day
from tests.record.checks.ground import SEAM, against, changed, readiness, the_one
from tests.record.checks.test_photo_of_every_side import WEST

UNSEEN = changed(SEAM, (WEST, ""))
WAIVER = """
## hold waived FILL

- at: 16:00
- rule: photo of every side of a seam before cover
- tags: SM
- reason: opening it would undermine the bank
- second: gc
"""


def waived(*pairs, writer="ld", before=UNSEEN):
    return before, day("2031-05-14", writer, changed(WAIVER, *pairs), part="evening")


def test_a_waiver_by_two_lets_the_work_go_on_and_the_finding_stays():
    assert readiness(UNSEEN).stops
    told = readiness(*waived())
    [finding] = [one for one in told.findings if one.rule == photo_of_every_side.RULE.word]
    assert (finding.stops, told.stops) == (False, False)
    assert finding.waived.words("second") == "gc"


@pytest.mark.parametrize(
    ("pair", "why"),
    [
        (("second: gc", "second: not recorded"), "its second person is not recorded"),
        (("second: gc", "second: ld"), "ld cannot be their own second"),
        (("reason: opening it would undermine the bank", "reason: none"), "its reason is none"),
        (("tags: SM", "tags: not recorded"), "its tags are not recorded"),
        (
            ("rule: photo of every side of a seam", "rule: photos of each side of seam"),
            "is no rule here",
        ),
    ],
)
def test_a_waiver_that_lacks_something_waives_nothing_and_is_told(pair, why):
    told = readiness(*waived(pair))
    assert told.stops
    [finding] = against(rule, *waived(pair))
    assert why in finding.says
    assert not finding.stops


def test_whoever_stands_for_it_cannot_be_the_second_whatever_tablet_it_was_written_on():
    by = ("- at: 16:00", "- at: 16:00\n- by: gc")
    assert readiness(*waived(by, writer="ck")).stops
    typed = ("- at: 16:00", "- at: 16:00\n- by: ld")
    assert readiness(*waived(typed, ("second: gc", "second: ck"), writer="ck")).stops
    assert not readiness(*waived(typed, writer="ck")).stops
    assert readiness(*waived(("second: gc", "second: ck"), writer="ck")).stops


def test_a_waiver_of_one_rule_does_not_waive_another():
    both = changed(UNSEEN, ("| wrap | 1 | 15:00", "| wrap | 2 | 15:00"))
    assert the_one(every_coat_on, *waived(before=both)).stops


def test_a_waiver_of_another_tag_does_not_waive_this_one():
    assert readiness(*waived(("tags: SM", "tags: A"))).stops


def test_a_waiver_of_another_covering_does_not_waive_this_one():
    other = "\n## covering TURF\n\n- what: turf\n- hides: SM\n"
    told = readiness(*waived(("waived FILL", "waived TURF"), before=UNSEEN + other))
    assert told.stops


def test_a_near_miss_of_a_rules_name_is_helped_with():
    [one] = [
        e
        for e in readiness(*waived(("every side", "evry side"))).findings
        if e.rule == rule.RULE.word
    ]
    assert 'did they mean "photo of every side of a seam before cover"?' in one.says
