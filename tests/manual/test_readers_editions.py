"""What a reader may not see is in no byte of their copy, whatever kind of fact it is in."""

from __future__ import annotations

import pytest

from manual.build import build
from record.facts import KINDS
from tests.manual.secrets import (
    NOT_TO_PLANT,
    OWN,
    WORD,
    camera_file,
    planted,
    signs_in,
    told_to,
    whole_copy,
    words_in,
)

READERS = ("technician", "trade", "responder")


@pytest.fixture(scope="module")
def found():
    """A record with every kind in it that the owner alone may see."""
    return planted()


@pytest.mark.parametrize("reader", READERS)
def test_no_word_number_or_day_that_is_withheld_is_in_any_byte_of_a_readers_copy(reader, found):
    copy = build(found, reader=reader, kept=camera_file)
    told = {word.lower() for word in told_to(reader, found)}
    words = words_in(copy)
    assert {word: place for word, place in words.items() if word not in told} == {}
    assert signs_in(copy) == {}
    assert "data:image/jpeg" not in copy.html.decode() and b"/DCTDecode" not in copy.pdf
    # What they may see of the same kinds is there, so that the search does look.
    assert len(words) >= len(told) / 2 > 0


def test_the_search_finds_what_the_owner_is_told(found):
    copy = build(found, kept=camera_file)
    words = words_in(copy)
    kinds = {kind.word for kind in KINDS.values()} - set(NOT_TO_PLANT)
    alone = [word for word in words if word.endswith("own")]
    assert len(alone) > len(kinds) / 2
    places = {place for place, text in whole_copy(copy) if WORD in text.lower()}
    assert {"the page", "the calendar", "the printed pages"} < places
    assert any(place.startswith("strings") for place in places), "bookmarks and alt texts"
    assert any(place.startswith("stream") for place in places), "the letters each font knows"
    assert not [word for word in words if word.endswith("camera")]
    assert b"camera" in camera_file(f"{WORD}1own") and "data:image/jpeg" in copy.html.decode()
    assert b"/DCTDecode" in copy.pdf
    assert set(signs_in(copy)) >= {"2097", "03:47"}, OWN.signs


def test_every_kind_is_planted_for_the_owner_alone(found):
    kinds = {e.content.kind for e in found if e.link.writer == "qw" and len(e.content.readers) == 1}
    assert {kind.stored for kind in KINDS.values() if kind.word not in NOT_TO_PLANT} <= kinds
