"""Emergency pages: every event has one, in one order; what nobody recorded is a draft or a gap."""

import re
from dataclasses import replace

import pytest

from manual.asks.draft import SAND, SAND_BELOW, drafts, for_event
from manual.asks.emergency import EVENTS, heading, last_way, never_below, pages
from record.facts.inside import EVENTS as DECLARED
from record.facts.inside import PROCEDURE
from record.readers import look
from tests.manual.books import MARK_UP, Page, body_of, entries
from tests.record.building import day

UNDECIDED = """
## procedure PR-2

- event: trapped
- sign: the hatch will not lift
- signal word: not recorded
- danger: not recorded

| step | do | caution | touches |
|---|---|---|---|
| 1 | Stop. | none | none |
"""
SHAFT = """
## way out SH-1

- name: quiet shaft
- hull: A
- face: far
- fill: {fill}
- opens: lifts into the room
- looks like: board with two brass pulls

## opening OP-9

- readers: owner, responder
- name: hatch
- hull: A
- face: far
- from left: 1.00 m
- width: 0.60 m
- leads to: SH-1
- opens: out of its frame
"""
BOARD = day("2031-05-15", "ow", SHAFT.format(fill="dry sand"), part="2")
DOOR = """
## opening OP-1

- name: main door
- hull: A
- face: near
- from left: 0.80 m
- width: 0.80 m
- leads to: the stairs
"""


@pytest.fixture(scope="module")
def html():
    return body_of(entries(UNDECIDED))


def pages_of(*blocks, reader="owner", sheets=()):
    return pages(look(entries(*blocks, sheets=sheets), reader))


def page_for(found, heading):
    return next(page for page in found if page.heading == heading)


def sections(html):
    return re.findall(
        r'<section class="sheet emergency(?: long)?">(.*?)</section>', html, re.DOTALL
    )


def section(html, heading):
    return next(s for s in sections(html) if f">{heading}</h1>" in s)


def test_every_event_a_drill_can_be_for_has_a_page_save_normal_working():
    assert sorted(event for event in EVENTS) == sorted(set(DECLARED) - {"normal working"})


def test_every_event_has_a_draft_and_every_draft_is_for_an_event():
    assert {for_event(event).event for event in EVENTS} == set(EVENTS)
    assert {draft.event for draft in drafts().values()} == set(EVENTS)
    assert set(drafts()) == {e.replace(" ", "-") for e in EVENTS} | {SAND, SAND_BELOW}


@pytest.mark.parametrize("name", sorted(drafts()))
def test_a_draft_says_how_it_is_noticed_what_may_happen_and_one_action_a_step(name):
    draft = drafts()[name]
    assert draft.sign and draft.danger and draft.call and draft.afterwards
    assert draft.signal in PROCEDURE.field("signal word").holds.words
    assert len(draft.steps) >= 4
    for step in draft.steps:
        assert step.do.endswith(".") and len(step.do.split()) <= 15, step.do
        assert ", then " not in step.do.replace("oxygen, then flammable, then toxic", "")


def test_each_event_has_exactly_one_page_in_its_order_whether_or_not_it_was_recorded(html):
    found = [Page(each).headings[0] for each in sections(html)]
    assert found == [(1, heading(event)) for event in EVENTS]


def test_a_second_drill_for_an_event_has_a_page_of_its_own_that_says_so():
    last = UNDECIDED.replace("PR-2", "PR-3").replace("trapped", "power lost")
    headings = [page.heading for page in pages_of(last)]
    assert headings[1:3] == [
        "Power lost: crank by hand (1 of 2)",
        "Power lost: crank by hand (2 of 2)",
    ]
    assert len(headings) == len(EVENTS) + 1


def test_the_emergency_pages_stand_before_everything_but_the_cover(html):
    chapters = re.findall(r'<section class="([a-z ]+)">', html)
    assert chapters[: len(EVENTS) + 1] == ["cover", *["sheet emergency"] * len(EVENTS)]
    assert chapters[len(EVENTS) + 1] == "sheet fire"
    assert "sheet emergency" not in chapters[len(EVENTS) + 1 :]


def test_a_page_without_a_drill_says_that_it_is_a_draft_and_has_steps_all_the_same(html):
    page = Page(section(html, "Get out"))
    assert "DRAFT: no drill was recorded for this event." in page.text
    assert len(for_event("get out").steps) == sum(1 for name, _ in page.tags if name == "li")
    assert "DRAFT" not in section(html, "Power lost: crank by hand")


def test_a_draft_is_filled_with_what_the_record_knows_recognition_first():
    found = pages_of()
    steps = page_for(found, "A door or hatch will not open").steps
    assert (steps[0].do, steps[0].numbers) == ("Grey drum: stop the fan.", (1,))
    assert (steps[5].do, steps[5].numbers) == ("Start the air again.", ())


def test_what_a_draft_needs_and_nobody_recorded_is_a_gap(html):
    page = Page(section(html, "Get out"))
    assert "Ways out: not recorded" in page.text.replace("\n", " ")
    assert "gap" in page.all("class")


def test_a_drafts_ways_out_are_the_openings_that_lead_out():
    assert page_for(pages_of(DOOR), "Get out").ways_out == "main door"


LEAF = "## door D-1\n\n- type: hatch\n- hull: A\n- face: {face}\n"


def test_a_door_nobody_said_the_place_of_is_told_all_the_same():
    """Who stands in the dark must not read that no way out is known, where a hatch is."""
    told = "hatch D-1, near face of hull A (where it leads is not recorded)"
    for name in ("Get out", heading("trapped")):
        assert page_for(pages_of(LEAF.format(face="near")), name).ways_out == told
    assert page_for(pages_of(DOOR, LEAF.format(face="near")), "Get out").ways_out == "main door"


def test_a_drill_that_says_no_way_out_has_those_that_are_on_record():
    (trapped,) = [page for page in pages_of(DOOR, UNDECIDED) if page.event == "trapped"]
    assert not trapped.draft and trapped.ways_out == "main door"


def test_a_leaf_before_a_shaft_that_may_be_filled_is_no_way_out_like_others():
    shaft = SHAFT.partition("## opening")[0]
    for fill in ("dry sand", "not recorded"):
        found = pages_of(shaft.format(fill=fill), LEAF.format(face="far"))
        assert str(page_for(found, "Get out").ways_out) == "not recorded"
    empty = page_for(pages_of(shaft.format(fill="none")), "Get out")
    assert empty.ways_out == "quiet shaft"


def test_a_shaft_of_which_nobody_wrote_whether_it_is_filled_is_not_headed_as_filled():
    shaft = SHAFT.partition("## opening")[0]
    for fill, heads in (("dry sand", last_way()), ("not recorded", "a shaft that may be filled")):
        (page,) = [p for p in pages_of(shaft.format(fill=fill)) if "Last way out" in p.heading]
        assert page.draft and heads in page.heading


def test_an_opening_into_another_room_is_no_way_out():
    within = "## opening OP-2\n\n- hull: A\n- face: far\n- width: 0.80 m\n- leads to: {}\n"
    for leads, told in (("A", "not recorded"), ("the garden", "opening OP-2, far face of hull A")):
        (page, *_) = pages_of(within.format(leads))
        assert str(page.ways_out).partition(", leads to")[0] == told


def test_a_page_tells_the_sign_and_the_danger_before_the_first_step(html):
    text = Page(section(html, "Power lost: crank by hand")).text
    order = ["the fan is silent", "WARNING", "Hard cranking strains", "Do this now", "Turn the"]
    assert [text.index(words) for words in order] == sorted(text.index(words) for words in order)


def test_a_steps_caution_stands_before_the_step_itself(html):
    item = re.search(r"<li>(.*?)</li>", section(html, "Power lost: crank by hand"), re.DOTALL)
    text = Page(item[1]).text
    assert text == "First: Keep sleeves off it. Turn the crank. 1"


def test_what_a_step_touches_is_told_by_its_looks_first_and_its_tag_last(html):
    (one,) = page_for(pages_of(), "Power lost: crank by hand").touched
    assert (one.number, str(one.looks_like), one.what, one.where, one.tag) == (
        1,
        "grey drum",
        "air unit",
        "hull A",
        "AU-1",
    )
    keys = section(html, "Power lost: crank by hand").partition('<ol class="keys">')[2]
    words = Page(keys).text.strip()
    assert words.startswith("grey drum") and words.endswith("AU-1")


def test_a_valve_to_be_shut_says_how_many_turns_and_which_way():
    valve = """
## valve DV-1

- type: ball
- on run: AIR-IN
- at station: 1
- turns to close: quarter turn
- closes: clockwise
- normal position: open
- looks like: red lever
"""
    drill = UNDECIDED.replace("| none | none |", "| none | DV-1 |")
    (one,) = page_for(pages_of(valve, drill), "A door or hatch will not open").touched
    assert [(name, str(words)) for name, words in one.work] == [
        ("to shut", "quarter turn"),
        ("turn", "clockwise"),
        ("normal", "open"),
    ]


def test_turns_nobody_recorded_are_a_gap_on_the_page_that_needs_them():
    drill = UNDECIDED.replace("| none | none |", "| none | CV-1 |")
    part = section(body_of(entries(drill)), "A door or hatch will not open")
    assert re.search(r'to shut: <span class="gap">not recorded', part)


def test_the_owners_drill_for_a_filled_shaft_is_on_a_page_of_its_own():
    drill = UNDECIDED.replace("trapped", "get out").replace("| none | none |", "| none | SH-1 |")
    found = pages_of(sheets=(BOARD, day("2031-05-17", "ow", drill)))
    assert [page.heading for page in found][:2] == ["Get out", "Last way out: quiet shaft"]
    assert page_for(found, "Get out").draft and not found[1].draft


def test_a_filled_shaft_without_a_drill_has_the_draft_of_one_for_the_owner_alone():
    assert page_for(pages_of(sheets=(BOARD,)), last_way()).draft
    for reader in ("technician", "trade", "responder"):
        headings = [page.heading for page in pages_of(sheets=(BOARD,), reader=reader)]
        assert last_way() not in headings and headings[1] == never_below()


def test_a_shaft_that_is_not_filled_has_no_page_about_sand():
    empty = day("2031-05-15", "ow", SHAFT.format(fill="none"), part="2")
    assert last_way() not in [page.heading for page in pages_of(sheets=(empty,))]


def test_the_warning_never_to_open_one_is_the_same_whether_or_not_there_is_one():
    without, with_one = (
        page_for(pages_of(sheets=sheets, reader="technician"), never_below())
        for sheets in ((), (BOARD,))
    )
    assert without == with_one and not without.touched
    (one,) = page_for(pages_of(sheets=(BOARD,), reader="responder"), never_below()).touched
    assert (str(one.looks_like), one.tag) == ("board with two brass pulls", "SH-1")


def test_every_page_has_a_small_plan_of_its_own_with_the_same_in_words(html):
    for each in sections(html):
        assert each.count("<svg") == 1
    labels = [label for each in sections(html) for label in Page(each).all("aria-label")]
    assert all("Plan from above." in label for label in labels)
    # one id belongs to one page
    ids = re.findall(r' id="(d[0-9a-f]{12}-title)"', html)
    assert len(ids) == len(set(ids))


def test_a_card_is_set_smaller_for_what_stands_on_it_and_not_for_what_its_page_also_shows():
    page = next(one for one in pages_of() if one.touched)
    step = replace(page.steps[0], do="turn the red wheel to the left. " * 24)  # 744 letters
    assert not replace(page, steps=(), touched=page.touched * 99).long
    assert replace(page, steps=(step,)).long


def test_a_danger_nobody_recorded_is_a_gap_and_spoils_no_mark_up(html):
    page = Page(section(html, "A door or hatch will not open"))
    assert ("div", {"class": "safety"}) in page.tags
    assert "Signal word: not recorded" in page.text
    assert page.all("class").count("gap") >= 2


def test_a_step_that_looks_like_mark_up_is_read_out_as_it_was_written():
    block = UNDECIDED.replace("Stop.", MARK_UP.replace("|", "/")).replace(
        "danger: not recorded", "danger: [[draw: site plan]]"
    )
    part = section(body_of(entries(block)), "A door or hatch will not open")
    page = Page(part)
    assert MARK_UP.replace("|", "/") in page.text
    assert "[[draw: site plan]]" in page.text
    assert part.count("<svg") == 1 and "<script" not in part
