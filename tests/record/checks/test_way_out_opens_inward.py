"""Which way the hatch of a way out opens."""

import pytest

from record.checks import way_out_opens_inward as rule
from tests.record.checks.ground import changed, handed
from tests.record.checks.shaft import SHAFT

LEAF = "\n## door HT-1\n\n- type: {}\n- in: SH-1\n- swing: {}\n"
OPENS = "opens: lifts out into the room"


def test_a_hatch_that_comes_into_the_room_is_right():
    assert handed(rule, SHAFT, LEAF.format("hatch", "lifts off")) == []


@pytest.mark.parametrize("opens", ["outward", "swings into the shaft"])
def test_one_that_must_be_pushed_against_the_sand_holds_the_signature(opens):
    [found] = handed(rule, changed(SHAFT, (OPENS, f"opens: {opens}")))
    assert (found.about, found.stops, found.sure) == ("SH-1", True, "certain")
    assert found.says == f"its hatch opens against what lies outside it: {opens}"


@pytest.mark.parametrize("opens", ["by two brass pulls", "not recorded"])
def test_words_that_do_not_tell_are_asked_about_unless_the_hatch_itself_does(opens):
    words = changed(SHAFT, (OPENS, f"opens: {opens}"))
    [found] = handed(rule, words)
    assert (found.stops, found.sure) == (True, "cannot be told")
    assert handed(rule, words, LEAF.format("hatch", "inward")) == []


def test_the_hatch_itself_is_asked_and_the_lid_above_is_not():
    [found] = handed(rule, SHAFT, LEAF.format("hatch", "outward"))
    assert (found.about, found.sure) == ("HT-1", "certain")
    assert handed(rule, SHAFT, LEAF.format("lid", "outward")) == []
