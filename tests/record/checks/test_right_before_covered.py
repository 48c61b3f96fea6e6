"""What was covered while something stood against it."""

from record.checks import right_before_covered as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, SEAM, TRENCH, against, changed, readiness, the_one
from tests.record.checks.test_photo_of_every_side import WEST
from tests.record.checks.test_waivers import WAIVER

UNSEEN = changed(SEAM, (WEST, ""))
LEVEL = "## run AIR-IN\n\n| station | invert [m] |\n|---|---|\n| 2 bend | 98.300 ± 3 mm |"


def test_a_covering_that_was_right_is_not_told_of():
    assert against(rule, SEAM) == []
    told = readiness(SEAM + COVERED)
    assert (told.findings, told.stops) == ((), False)
    assert [one.moment for one in told.already_covered] == ["2031-05-14 16:30"]


def test_a_side_covered_unseen_stays_recorded():
    found = the_one(rule, UNSEEN + COVERED)
    assert found.says == (
        "covered on 2031-05-14 16:30 by ld while this did not hold: photo of every side of a seam "
        "before cover; stays recorded for ever"
    )
    assert (found.about, found.stops) == ("SM", True)


def test_a_waiver_written_the_next_day_says_so_and_the_finding_stays():
    after = day("2031-05-15", "ld", WAIVER)
    found = the_one(rule, UNSEEN + COVERED, after)
    assert "(1 of 1 waived by name, 1 after cover); stays recorded for ever" in found.says
    assert not found.stops
    before = changed(WAIVER, ("at: 16:00", "at: 16:20"))
    assert "(1 of 1 waived by name); stays" in the_one(rule, UNSEEN + before + COVERED).says


def test_a_level_written_of_a_later_day_does_not_make_it_levelled_then():
    bare = changed(TRENCH, ("98.300 ± 3 mm", "not recorded")) + COVERED
    later = day("2031-05-20", "ld", LEVEL)
    told = readiness(bare, later)
    assert [one.rule for one in told.findings if one.stops] == [rule.RULE.word]
    assert "every station levelled" in told.findings[0].says


def test_a_level_shot_that_day_and_typed_in_later_makes_it_levelled():
    """The sheet is of the day of the covering; when it was posted does not matter here."""
    bare = changed(TRENCH, ("98.300 ± 3 mm", "not recorded")) + COVERED
    assert against(rule, bare, day("2031-05-14", "ck", LEVEL)) == []


def test_each_part_is_held_to_its_own_day():
    """The drain is covered on the 14th without a photo; the pipe, on the 16th, has both."""
    part = COVERED.rstrip() + "\n- tags: {}\n"
    both = changed(TRENCH, ("hides: AIR-IN", "hides: AIR-IN, DL-1")) + part.format("DL-1")
    found = against(rule, both, day("2031-05-16", "ld", part.format("AIR-IN")))
    assert [(one.about, one.says[:21]) for one in found] == [("DL-1", "covered on 2031-05-14")]
