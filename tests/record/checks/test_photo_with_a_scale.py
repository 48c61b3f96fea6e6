"""Something to measure by in the picture."""

from record.checks import photo_with_a_scale as rule
from tests.record.checks.ground import COVERED, TRENCH, against, changed, the_one

CLOSE = "![close, looking down, bend of AIR-IN, staff in view](air-close.jpg)"
BARE = changed(TRENCH, (CLOSE, "![close, looking down, bend of AIR-IN](air-close.jpg)"))
LINED = changed(BARE, ("what: backfill", "what: lining"))


def test_a_close_photo_with_a_staff_in_it_is_enough():
    assert against(rule, TRENCH) == []


def test_one_without_is_to_be_looked_at_and_stops_a_lining():
    assert the_one(rule, BARE).stops is False
    found = the_one(rule, LINED)
    assert (found.about, found.stops) == ("AIR-IN", True)
    assert found.says.endswith("in its close photo: air-close.jpg")


def test_a_second_close_photo_with_a_rule_clears_it():
    again = "\n\n![close, looking north, bend of AIR-IN, rule in view](air-again.jpg)\n"
    assert against(rule, changed(LINED, ("](air-close.jpg)", "](air-close.jpg)" + again))) == []


def test_a_scale_in_a_photo_from_after_cover_does_not_count():
    late = "\n## remark AIR-IN\n\n- at: 17:00\n- text: dug up\n\n"
    late += "![close, looking down, bend of AIR-IN, rule in view](late.jpg)\n"
    found = the_one(rule, LINED + COVERED + late)
    assert "window" in " ".join(found.clears)


def test_where_there_is_no_close_photo_the_rule_for_photos_holds_it():
    assert against(rule, changed(TRENCH, (CLOSE, ""))) == []
