"""Emergency pages: every event has one, in one order, with gaps where nobody recorded a drill."""

import re

import pytest

from manual.asking import Record
from manual.emergency import EVENTS, pages
from record.facts.inside import EVENTS as DECLARED
from record.readers import look
from tests.manual.books import MARK_UP, Page, body_of, entries

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


@pytest.fixture(scope="module")
def html():
    return body_of(entries(UNDECIDED))


def sections(html):
    return re.findall(r'<section class="sheet emergency">(.*?)</section>', html, re.DOTALL)


def section(html, heading):
    return next(s for s in sections(html) if f">{heading}</h1>" in s)


def test_every_event_a_drill_can_be_for_has_a_page_save_normal_working():
    assert sorted(event for event, _ in EVENTS) == sorted(set(DECLARED) - {"normal working"})


def test_each_event_has_exactly_one_page_in_its_order_whether_or_not_it_was_recorded(html):
    found = [Page(each).headings[0] for each in sections(html)]
    assert found == [(1, heading) for _, heading in EVENTS]


def test_a_second_drill_for_an_event_has_a_page_of_its_own_that_says_so():
    last = UNDECIDED.replace("PR-2", "PR-3").replace("trapped", "power lost")
    headings = [page.heading for page in pages(Record(look(entries(last))))]
    assert headings[1:3] == [
        "Power lost: crank by hand (1 of 2)",
        "Power lost: crank by hand (2 of 2)",
    ]
    assert len(headings) == len(EVENTS) + 1


def test_the_emergency_pages_stand_before_everything_but_the_cover(html):
    chapters = re.findall(r'<section class="([a-z ]+)">', html)
    assert chapters[: len(EVENTS) + 1] == ["cover", *["sheet emergency"] * len(EVENTS)]
    assert "sheet emergency" not in chapters[len(EVENTS) + 1 :]


def test_a_page_without_a_drill_says_so_and_leaves_lines_to_write_one(html):
    page = Page(section(html, "Get out"))
    assert "No procedure was recorded for this event." in page.text
    lines = [attrs for name, attrs in page.tags if attrs.get("class") == "gap"]
    assert len(lines) >= 6


def test_a_page_tells_the_sign_and_the_danger_before_the_first_step(html):
    text = Page(section(html, "Power lost: crank by hand")).text
    order = ["the fan is silent", "WARNING", "Hard cranking strains", "Do this now", "Turn the"]
    assert [text.index(words) for words in order] == sorted(text.index(words) for words in order)


def test_a_steps_caution_stands_before_the_step_itself(html):
    item = re.search(r"<li>(.*?)</li>", section(html, "Power lost: crank by hand"), re.DOTALL)
    text = Page(item[1]).text
    assert text == "First: Keep sleeves off it. Turn the crank."


def test_what_a_step_touches_is_told_by_its_looks_first_and_its_tag_last(html):
    page = pages(Record(look(entries())))[1]
    (one,) = page.touched
    assert (one.looks_like, one.what, one.where, one.tag) == (
        "grey drum",
        "air unit",
        "hull A",
        "AU-1",
    )
    row = section(html, "Power lost: crank by hand").partition("<tbody>")[2]
    assert Page(row).text.split("\n")[2] == "grey drum"


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
    assert "<svg" not in part and "<script" not in part
