"""Photos on an emergency page: of what is laid hands on, and never a second sheet."""

import html
import re

import pytest

from manual import chapter as chapters
from manual import theme
from manual.asks.asked import emergency_asked
from manual.asks.emergency import heading, pages
from manual.asks.emergency_page import spare_mm
from manual.asks.recognised import LEAST_MM, UNDER_MM, photo_of
from manual.build import bind
from manual.loose import CHAPTER, cards, loose_body, loose_page
from manual.plans.photos import put_photos
from manual.printing import press
from record.readers import look
from tests.manual.books import entries
from tests.manual.plans.test_photos import RED, jpeg, shot
from tests.record.building import day

DRILL = """
## procedure PR-7

- readers: owner, responder, technician
- event: water coming in
- sign: the floor is wet
- signal word: warning
- danger: Water and current together kill.
- ways out: the door
- call: the builder
- afterwards: stay out

| step | do | caution | touches |
|---|---|---|---|
"""
SECRET = "## fit-out FO-9\n\n- readers: owner\n- what: safe\n- hull: A"


def drill(*steps):
    rows = (f"| {n} | {do} | {first} | {tags} |" for n, (do, first, tags) in enumerate(steps, 1))
    return DRILL + "\n".join(rows)


def water(view):
    return next(page for page in pages(view) if page.heading == heading("water coming in"))


def seen(page):
    return re.findall(r'data-seen="([^"]*)"', page.seen)


ONE = drill(("Shut it.", "none", "CV-1"))


def shots(*blocks):
    return day("2031-05-17", "ld", *blocks)


def test_the_page_shows_what_is_to_be_shut_with_its_number_and_its_words():
    page = water(look(entries(ONE, sheets=[shots(shot("red", "CV-1", caption="its lever"))])))
    assert len(seen(page)) == 1 and '<b class="at">1</b>' in page.seen
    assert "Photo, close: its lever." in html.unescape(page.seen)
    assert not seen(water(look(entries(ONE))))


def test_a_photo_from_afar_is_none_to_know_a_thing_by():
    wide = shot("red", "CV-1").replace("view: close", "view: wide")
    assert not seen(water(look(entries(ONE, sheets=[shots(wide)]))))


def test_of_several_the_newest_of_the_thing_alone_is_taken():
    old = shots(shot("red", "CV-1"), shot("red", "CV-1, AU-1", caption="both"))
    new = day("2031-05-18", "ld", shot("blue", "CV-1", caption="as it is now"))
    view = look(entries(ONE, sheets=[old, new]))
    assert photo_of(view, "CV-1").text("caption") == "as it is now"
    assert photo_of(view, "AU-1").text("caption") == "both"


def test_two_things_on_one_photo_share_it():
    both = drill(("Shut both.", "none", "CV-1, AU-1"))
    page = water(look(entries(both, sheets=[shots(shot("red", "CV-1, AU-1"))])))
    assert len(seen(page)) == 1
    assert '<b class="at">1</b> <b class="at">2</b>' in page.seen


def test_a_photo_with_something_withheld_in_it_is_not_shown():
    found = entries(ONE, SECRET, sheets=[shots(shot("red", "CV-1, FO-9"))])
    assert seen(water(look(found)))
    assert not seen(water(look(found, "technician")))


def test_the_file_for_a_phone_has_the_photo_and_a_card_has_none():
    found = entries(ONE, sheets=[shots(shot("red", "CV-1"))])
    (taken,) = bind(found, "owner").view.built.happened("photographed")
    for files, count in (({taken.text("sha256"): RED}, 1), ({}, 0)):
        book = bind(found, "owner", files.get)
        text = loose_body(book)
        assert loose_page(book, text).decode().count("data:image/jpeg") == count
        assert b"/DCTDecode" not in cards(book, text)


def test_a_photo_whose_file_is_not_here_leaves_nothing_behind():
    book = bind(entries(ONE, sheets=[shots(shot("red", "CV-1"))]), "owner")
    left = put_photos(loose_body(book), book.kept)
    assert '<figure class="seen"' not in left and "not kept here" not in left


SENTENCE = "Red lever, knee height, left of the door: turn it across the pipe and leave it so"


@pytest.mark.parametrize("steps", range(2, 11))
@pytest.mark.parametrize("words", [4, 16])
def test_no_page_runs_over_to_a_second_sheet_for_its_photos(steps, words):
    """Laid out: a page that fits without photos fits with them."""
    do = " ".join(SENTENCE.split()[:words]) + "."
    told = drill(*((do, "Never stand in water" if n % 2 else "none", "CV-1, AU-1")
                   for n in range(steps)))  # fmt: skip
    tall = jpeg("red", size=(300, 400))
    found = entries(told, sheets=[shots(shot("red", "CV-1"), shot("red", "AU-1"))])
    book = bind(found, "owner", lambda sha256: tall)
    page = water(book.view)
    one = next(each for each in chapters.chapters() if each.name == CHAPTER)
    asked = {**emergency_asked(book), "emergency": [page]}
    with_them = put_photos(chapters.write(one, asked), book.kept)
    without = put_photos(chapters.write(one, asked), lambda sha256: None)
    assert _sheets(with_them) == _sheets(without)
    assert ("screen-only" in page.seen) is (spare_mm(page, "") < LEAST_MM + UNDER_MM)
    assert "screen-only" not in page.seen or steps > 3


def _sheets(body):
    return press.page_count(theme.page(f'<div class="manual">{body}</div>', title="x", lang="en"))
