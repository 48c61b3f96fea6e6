"""What a covering names, and whether anything is recorded of it."""

from record.checks import all_named_recorded as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def test_a_covering_whose_things_are_recorded_is_not_held():
    assert against(rule, TRENCH) == []


def test_a_tag_nobody_wrote_about_is_named():
    found = the_one(rule, changed(TRENCH, ("hides: AIR-IN", "hides: AIR-IN, D-9")))
    assert (found.about, found.stops, found.sure) == ("D-9", True, "certain")


def test_a_covering_that_does_not_say_what_it_hides_cannot_be_told():
    found = the_one(rule, changed(TRENCH, ("hides: AIR-IN", "hides: not recorded")))
    assert (found.about, found.sure, found.stops) == ("FILL", "cannot be told", True)
    assert the_one(rule, changed(TRENCH, ("hides: AIR-IN", "hides: none"))).stops
