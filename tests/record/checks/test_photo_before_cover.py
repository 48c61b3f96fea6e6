"""Pictures of what will be hidden."""

from record.checks import photo_before_cover as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, TRENCH, against, changed, the_one

CLOSE = "![close, looking down, bend of AIR-IN, staff in view](air-close.jpg)\n\n"
LATER = "## remark AIR-IN\n\n- at: {}\n- text: found it on the phone\n\n" + CLOSE


def test_a_wide_and_a_close_photo_are_enough():
    assert against(rule, TRENCH) == []


def test_a_thing_without_a_close_photo_is_held():
    found = the_one(rule, changed(TRENCH, (CLOSE, "")))
    assert (found.says, found.stops) == ("no close photo of it", True)


def test_a_photo_that_does_not_say_how_near_counts_for_neither():
    found = the_one(rule, TRENCH.replace("![close, ", "![").replace("![wide, ", "!["))
    assert found.says == "no wide and no close photo of it"


def test_a_photo_of_something_else_shows_nothing_of_it():
    assert the_one(rule, changed(TRENCH, ("hides: AIR-IN", "hides: DL-1"))).about == "DL-1"


def test_a_photo_taken_before_it_was_covered_counts_and_one_after_does_not():
    before = day("2031-05-16", "ld", changed(COVERED, ("16:30", "16:00")))
    assert against(rule, TRENCH, before) == []
    bare = changed(TRENCH, (CLOSE, ""))
    after = day("2031-05-17", "ld", LATER.format("08:00"))
    found = the_one(rule, bare, before, after)
    assert "no close photo of it from before it was covered" in found.says
    assert found.says.endswith(": after cover")
    assert (found.sure, found.stops) == ("certain", True)
    assert "let it be waived: ## hold waived FILL" in found.clears[1]


def test_a_photo_of_the_same_day_counts_only_if_its_hour_is_known():
    bare = changed(TRENCH, (CLOSE, ""))
    covered = changed(COVERED, ("16:30", "14:10"))
    early = day("2031-05-16", "ld", LATER.format("14:00"), covered)
    assert against(rule, bare, early) == []
    late = day("2031-05-16", "ld", LATER.format("16:30"), covered)
    assert the_one(rule, bare, late).sure == "certain"
    untimed = day("2031-05-16", "ld", LATER.replace("- at: {}\n", ""), covered)
    assert the_one(rule, bare, untimed).sure == "cannot be told"


def test_a_photo_before_this_part_was_covered_counts_though_another_part_was():
    """The machine went over the drain in the morning, over the pipe in the afternoon."""
    bare = changed(TRENCH, (CLOSE, ""), ("hides: AIR-IN", "hides: AIR-IN, DL-1"))
    part = COVERED.rstrip() + "\n- tags: {}\n"
    morning = changed(part.format("DL-1"), ("16:30", "09:00"))
    told = day("2031-05-16", "ld", morning, LATER.format("12:00"), part.format("AIR-IN"))
    assert [one.about for one in against(rule, bare, told)] == ["DL-1"]
    all_at_once = day(
        "2031-05-16",
        "ld",
        morning.replace("- tags: DL-1", "- tags: not recorded"),
        LATER.format("12:00"),
    )
    assert [one.about for one in against(rule, bare, all_at_once)] == ["AIR-IN", "DL-1"]
