"""What a chapter is told: the crew's words, and three absences that are not the same."""

import pytest

from manual.asks.asking import Answer, AskFault, Record, in_markdown, sentence
from record.readers import look
from tests.manual.books import BUILT, KEPT, RUN, Page, entries
from tests.record.building import day, entries_of


@pytest.fixture(scope="module")
def record():
    return Record(look(entries()))


def printed(value):
    return Page(str(in_markdown(value)))


def test_not_recorded_none_and_not_applicable_print_as_three_different_things(record):
    run = record.thing("AIR-IN")
    assert printed(run.screen).text == "not recorded"
    assert printed(run.insulation).text == "none"
    assert printed(run.freeze_protection).text == "n/a, the low end is inside the hull"


def test_only_what_must_still_be_found_out_gets_a_blank_to_fill_in(record):
    run = record.thing("AIR-IN")
    blank = [("span", {"class": "gap"})]
    assert printed(run.screen).tags == blank  # written as not recorded
    assert printed(run.outlet).tags == blank  # never mentioned
    assert printed(run.insulation).tags == []
    assert printed(run.freeze_protection).tags == []
    assert printed(run.name).tags == []


def test_two_who_disagree_leave_a_blank_and_both_their_words_are_not_taken_for_a_value():
    one = day("2031-05-16", "ld", "## valve CV-1\n\n- normal position: open")
    two = day("2031-05-16", "ck", "## valve CV-1\n\n- normal position: shut")
    valve = Record(look(entries_of(BUILT, KEPT, one, two, unseen={3: 2}))).thing("CV-1")
    page = printed(valve.normal_position)
    assert page.text.startswith("not settled")
    assert page.tags == [("span", {"class": "gap"})]
    assert not valve.has("normal position")


def test_a_measure_is_told_in_both_systems_and_a_level_by_its_part(record):
    # 160 / 25.4 = 6.299 in, and 6 5/16 = 6.3125 is the nearest sixteenth; the inch is 25.4 mm
    # exactly (NIST SP 811, B.8).
    assert str(record.thing("AIR-IN").outside_diameter) == '0.160 m (6 5/16")'
    assert str(record.thing("AIR-IN").parts[0].level).startswith("invert 48.0")


def test_a_field_may_be_asked_for_in_the_crews_spelling(record):
    run = record.thing("AIR-IN")
    assert run["outside diameter"] == run.outside_diameter
    assert run.has("falls to") and not run.has("screen")


@pytest.mark.parametrize("ask", [lambda a: a.colour, lambda a: a["colour"], lambda a: a.has("x y")])
def test_a_field_nobody_declared_is_a_fault_and_not_an_absence(record, ask):
    with pytest.raises(AskFault, match="has no field"):
        ask(record.thing("AIR-IN"))


def test_what_the_reader_may_not_see_cannot_be_asked_for_by_its_tag():
    shown = Record(look(entries(), "technician"))
    assert shown.of("store") == []
    assert "S-1" not in shown.tags()
    with pytest.raises(AskFault, match=r'has no "S-1"'):
        shown.thing("S-1")


def test_things_stand_in_the_order_of_their_numbers():
    tags = ("CV-10", "CV-9")
    blocks = [f"## valve {tag}\n\n- type: check\n- on run: AIR-IN" for tag in tags]
    found = Record(look(entries_of(day("2031-05-14", "ld", RUN, *blocks)))).of("valve")
    assert [answer.tag for answer in found] == ["CV-9", "CV-10"]
    assert all(isinstance(answer, Answer) for answer in found)


def test_a_sentence_ends_once():
    assert Page(str(sentence("Stand back."))).text == "Stand back."
    assert Page(str(sentence("Stand back"))).text == "Stand back."
