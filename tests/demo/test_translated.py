"""A manual in another language has no English left, but what its crew wrote.

The translation wears a mark on every letter (``tests.manual.pseudo``): what still stands in plain
letters was written by the crew, is a unit or is typed into a sheet; or it was never given to a
translator, and fails here.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from manual.asks.cards import dues_of
from manual.build import bind, draw, write
from manual.calendar import calendar
from manual.languages import Language, language, speaking
from manual.loose import loose_body
from record.entry import Entry
from record.log import Log
from tests.manual import pseudo


@pytest.fixture(scope="module")
def entries(built: Path) -> tuple[Entry, ...]:
    with Log.open(built / "larch-end") as log:
        return tuple(log.entries())


@pytest.fixture(scope="module")
def no_language(tmp_path_factory: pytest.TempPathFactory) -> Language:
    return language(str(pseudo.folder(tmp_path_factory.mktemp("translation"))))


def test_a_whole_translation_lacks_nothing(no_language: Language):
    assert [one for one in no_language.lacks if not one.startswith("pages: ")] == []


@pytest.mark.parametrize("reader", ["owner", "responder"])
def test_no_english_is_left_on_a_page_but_what_the_crew_wrote(entries, no_language, reader):
    with speaking(no_language):
        book = bind(entries, reader)
        pages = draw(book, write(book)) + loose_body(book)
    assert "ńóť ŕéćóŕďéď" in pages
    assert sorted(set(pseudo.still_plain(pages, pseudo.own_words(entries)))) == []


def test_no_english_is_left_in_the_calendar_but_what_the_crew_wrote(entries, no_language):
    from zoneinfo import ZoneInfo

    from icalendar import Calendar

    with speaking(no_language):
        book = bind(entries, "owner")
        dues = dues_of(book)
        made = calendar(book.view, dues, edition=1, stamp=book.stamp, zone=ZoneInfo(book.zone))
    told = [
        line
        for part in Calendar.from_ical(made).walk()
        for name in ("SUMMARY", "DESCRIPTION")
        for line in str(part.get(name, "")).splitlines()
    ]
    assert len(told) > 100
    page = "".join(f"<p>{line}</p>" for line in told)
    words = {one.task.word for one in dues}  # what is typed as `task:`
    assert sorted(set(pseudo.still_plain(page, pseudo.own_words(entries) | words))) == []
