"""Who walked the way out."""

from record.checks import way_out_walked as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import DRILL, SHAFT

WALKED = "walked by: ow, without opening"


def test_one_that_was_walked_is_right():
    assert handed(rule, SHAFT) == []


def test_one_that_nobody_walked_holds_the_signature():
    [found] = handed(rule, changed(SHAFT, (WALKED, "walked by: none")))
    assert (found.about, found.stops, found.sure) == ("SH-1", True, "certain")
    [found] = handed(rule, changed(SHAFT, (WALKED, "walked by: not recorded")))
    assert found.sure == "cannot be told"


def test_one_that_no_drill_leads_to_holds_the_signature():
    [found] = handed(rule, changed(SHAFT, (DRILL, "")))
    assert found.says == 'no procedure for "get out" touches it'


def test_a_page_for_another_event_is_not_its_drill():
    other = changed(SHAFT, ("event: get out", "event: trapped"))
    assert len(handed(rule, other)) == 1


def test_a_drill_that_leads_elsewhere_is_not_its_drill():
    assert len(handed(rule, changed(SHAFT, ("reach under | SH-1 |", "reach under | none |")))) == 1
