"""What a picture's caption says, as a phone and a tired hand write it."""

from __future__ import annotations

import pytest

from record.facts.captions import read_caption


@pytest.mark.parametrize(
    "caption",
    [
        "wide, looking east, staff in view, shows AIR-IN, SM-2",
        "Wide, Looking east, staff in view, Shows AIR-IN, SM-2",
        "wide looking east, staff in view, shows AIR-IN and SM-2",
        "Wide shot looking east, staff in view, shows: AIR-IN & SM-2.",
    ],
)
def test_a_large_letter_or_a_comma_left_out_does_not_lose_what_a_photo_shows(caption: str):
    said = read_caption(caption)
    assert (said.view, said.looking, said.scale) == ("wide", "east", "staff in view")
    assert (said.shows, said.words, said.lost) == (("AIR-IN", "SM-2"), (), ())


def test_a_close_up_of_a_thing_is_close_and_keeps_its_words():
    for near in ("Close-up", "close up", "Close"):
        said = read_caption(f"{near} of the weld, rule in view")
        assert (said.view, said.words) == ("close", ("of the weld",))


@pytest.mark.parametrize("caption", ["wide crack at the weld", "close to the wall", "closed"])
def test_words_that_only_begin_with_wide_or_close_do_not_say_how_near_a_photo_is(caption: str):
    assert (read_caption(caption).view, read_caption(caption).words) == (None, (caption,))


def test_where_the_camera_looked_is_no_side_that_it_shows():
    said = read_caption("SM-1 west side looking east, rule in view")
    assert (said.looking, said.words) == ("east", ("SM-1 west side",))


def test_only_what_stands_after_the_last_shows_are_tags():
    said = read_caption("plate that shows wear, shows the arrow, CV-1")
    assert (said.words, said.shows, said.lost) == (
        ("plate that shows wear",),
        ("CV-1",),
        ("the arrow",),
    )
