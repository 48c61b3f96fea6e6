"""The manual as it goes out: what is in it, what is not, and that it is the same every time."""

from __future__ import annotations

import io
import re
from itertools import pairwise

import pytest
from icalendar import Calendar
from pypdf import PdfReader

from manual.asks.emergency import EVENTS, heading
from manual.build import STAGES, bind, build
from manual.printing import outside
from record.readers import look
from record.upkeep import due
from tests.manual.books import Page, body_of, entries
from tests.manual.issuing import issued, without_press
from tests.manual.printed import edition
from tests.record.building import day, entries_of

SECRET = ("S-1", "larder", "cot", "plums")  # the owner's store: its tag, its name, what is in it


@pytest.fixture(scope="module")
def built():
    """The owner's edition, printed."""
    return edition()


@pytest.fixture(scope="module")
def theirs():
    """The technician's edition, printed."""
    return edition("technician")


def pages(pdf):
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def sources(html):
    """Return the tags of the chapter that says where every figure comes from."""
    chapter = html.partition("Where every figure comes from</h1>")[2].partition("<h2>")[0]
    return re.findall(r"<tr>\n<td>(.*?)</td>", chapter)


def test_each_emergency_event_has_exactly_one_sheet_of_the_print_in_order(built):
    printed = pages(built.pdf)
    headings = [heading(event) for event in EVENTS]
    starts = [next(h for h in headings if h in text) for text in printed[1 : 1 + len(headings)]]
    assert starts == headings
    assert "For the fire service" in printed[1 + len(headings)]
    assert "How to use this manual" in printed[2 + len(headings)]


def test_every_sheet_says_which_edition_it_is_and_how_far_it_was_recorded(built):
    for number, text in enumerate(pages(built.pdf), start=1):
        assert "dition 1" in text, number
        assert "2031-05-15" in text, number


def test_every_thing_the_owner_may_see_is_in_the_manual_and_nothing_else_is(built):
    page = built.html.decode()
    things = look(entries()).built.things
    assert sorted(map(_plain, sources(page))) == sorted(things)
    text = Page(page).text
    print_ = "\n".join(pages(built.pdf))
    for tag in things:
        assert tag in text, tag
        assert tag in print_, tag
    assert "S-1" in things


def _plain(html):
    return Page(html).text


def test_each_thing_is_told_in_a_chapter_of_its_own_and_not_only_in_the_list_of_sources(built):
    chapters = built.html.decode().partition(">The build, day by day</h1>")[0]
    told = Page(chapters.partition("</nav>")[2]).text
    assert [tag for tag in ("Hull A:", "AIR-IN", "CV-1", "AU-1", "S-1") if tag not in told] == []


def test_nothing_withheld_is_in_a_technicians_page_print_or_calendar(built, theirs):
    whole = {
        "page": Page(theirs.html.decode()).text + str(Page(theirs.html.decode()).tags),
        "print": "\n".join(pages(theirs.pdf)),
        "calendar": theirs.calendar.decode(),
    }
    for place, text in whole.items():
        assert [w for w in SECRET if re.search(rf"\b{w}\b", text)] == [], place
    owners = Page(built.html.decode()).text
    assert all(word in owners for word in SECRET)
    assert b"S-1" in built.calendar


def test_a_technicians_copy_says_that_something_is_withheld_but_not_what(theirs):
    text = " ".join(Page(theirs.html.decode()).text.split())
    # The store, its one line, and two sheets' own entries: counted by hand.
    assert "4 entries are withheld from this copy" in text
    assert sorted(map(_plain, sources(theirs.html.decode()))) == sorted(
        look(entries(), "technician").built.things
    )


def test_the_page_needs_nothing_but_itself(built):
    html = built.html.decode()
    assert [one.place for one in outside.references(html)] == ["<script>"]
    tags = Page(html).tags
    assert [attrs for name, attrs in tags if name == "script"] == [{}]  # inside, and it searches
    assert not {name for name, _ in tags} & {"link", "iframe", "object", "embed", "base"}


def test_every_link_leads_to_one_place_that_is_there(built):
    page = Page(built.html.decode())
    ids = page.all("id")
    assert len(ids) == len(set(ids))
    links = [href for href in page.all("href") if href.startswith("#")]
    assert len(links) > 20
    assert [href for href in links if href[1:] not in ids] == []


def test_headings_go_down_one_level_at_a_time(built):
    levels = [level for level, _ in Page(built.html.decode()).headings]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert all(words.strip() for _, words in Page(built.html.decode()).headings)


def test_the_language_is_set_and_every_drawing_has_words(built):
    page = Page(built.html.decode())
    assert page.tags[0] == ("html", {"lang": "en"})
    figures = [attrs for name, attrs in page.tags if name == "figure"]
    drawings = [attrs for name, attrs in page.tags if name == "svg"]
    assert len(figures) == len(drawings) >= 2
    assert all(attrs.get("aria-label") for attrs in figures)
    assert PdfReader(io.BytesIO(built.pdf)).root_object["/Lang"] == "en"


def test_no_sign_of_the_chapters_own_making_is_left(built):
    page = Page(built.html.decode().partition("<script>")[0])
    for sign in ("\\", "{{", "{%", "[[", "data-draw", "&#"):
        assert sign not in page.text, sign
    assert not [v for _, attrs in page.tags for v in attrs.values() if v and "\\" in v]


def test_a_changed_entry_changes_every_file(built, monkeypatch):
    without_press(monkeypatch)
    before = build(entries())
    after = build(entries("## equipment AU-1\n\n- looks like: green drum\n- installed: 2031-05-14"))
    assert before.html == built.html
    for name, digest in after.hashes().items():
        assert digest != before.hashes()[name], name


def test_the_six_stages_are_told_in_order(log, monkeypatch):
    without_press(monkeypatch)
    told = []
    issued(log, progress=lambda number, words: told.append((number, words)))
    assert [number for number, _ in told] == [1, 2, 3, 4, 5, 6]
    assert len(STAGES) == 6
    for (_, words), stage in zip(told, STAGES, strict=True):
        assert words.startswith(stage)


def test_dates_are_counted_from_the_newest_day_recorded_and_never_from_the_clock():
    book = bind(entries(), "owner")
    assert book.recorded_to == "2031-05-15"
    # The last sheet was written down on that day at 18:01, in universal time.
    assert book.stamp.isoformat() == "2031-05-15T18:01:00+00:00"


def test_the_calendar_has_what_is_due_and_nothing_else(built):
    book = built.book
    from datetime import date

    dues = due(book.view, today=date.fromisoformat(book.recorded_to))
    events = Calendar.from_ical(built.calendar).walk("VEVENT")
    assert len(events) == len(dues) > 0


def test_a_record_without_its_site_is_refused_in_words():
    from manual.build import write
    from manual.chapter import ChapterFault

    only = entries_of(day("2031-05-14", "ld", "## valve CV-1\n\n- type: check\n- on run: AIR-IN"))
    with pytest.raises(ChapterFault, match="the record has no site"):
        write(bind(only, "owner"))


def test_gaps_stand_where_something_was_not_recorded_and_not_where_there_is_none():
    html = body_of(entries())
    row = re.search(r'<th scope="row">Outlet; screen</th>\n<td>(.*?)</td>', html)[1]
    assert row.count('<span class="gap">not recorded</span>') == 2
    row = re.search(r'<th scope="row">Insulation</th>\n<td>(.*?)</td>', html)[1]
    assert row == "none"
