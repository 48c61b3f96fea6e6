"""The emergency pages by themselves: a small file for a phone, and cards for a wall."""

import io
import re

import pytest
from pypdf import PdfReader

from manual.asks.emergency import pages
from manual.build import bind
from tests.manual.books import Page, entries
from tests.manual.printed import edition


@pytest.fixture
def built():
    return edition()


def titles(reader="owner"):
    return [page.heading for page in pages(bind(entries(), reader).view)]


def test_the_file_for_a_phone_is_small_and_needs_nothing_else(built):
    said = built.emergency.decode()
    assert len(built.emergency) < 200_000 < len(built.html)
    assert "<script" not in said and not re.search(r'(?:src|href)="(?!#|tel:|data:)', said)
    assert "url(http" not in said and "@import" not in said


def test_every_event_is_reached_from_the_top(built):
    said = built.emergency.decode()
    reached = re.findall(r'<li><a href="#([^"]+)">', said)
    assert reached and all(f'id="{name}"' in said for name in reached)
    told = Page(said).text
    assert all(title in told for title in titles())


def test_each_event_begins_a_card_of_its_own(built):
    cards = PdfReader(io.BytesIO(built.cards)).pages
    first = [card.extract_text().splitlines()[0] for card in cards]
    assert [title for title in titles() if title not in first] == []
    assert {round(float(card.mediabox.width) / 72 * 25.4) for card in cards} == {105}


def test_a_technicians_pages_have_no_word_of_what_is_withheld():
    theirs = edition("technician")
    said = Page(theirs.emergency.decode()).text
    said += "".join(card.extract_text() for card in PdfReader(io.BytesIO(theirs.cards)).pages)
    assert not re.search(r"\b(S-1|larder|cot|plums)\b", said)
