"""What is used again is what would have been made: answers, drawings and small photos."""

from __future__ import annotations

from dataclasses import replace

import pytest

from manual.asks.emergency import pages
from manual.build import bind
from manual.drawings.floor_map import FloorMap, Room, floor_map
from manual.drawings.ink import Drawing
from manual.languages import english, speaking
from manual.plans import reuse
from manual.plans.reuse import NAME, Shelf, drawn_by, once, panel_answer, shelf_of, small
from record.readers import look
from record.words import Words
from tests.manual.books import entries
from tests.manual.printing.test_screen import FRAME, PANEL

PAPER = b"the bytes of a photo"


@pytest.fixture
def made():
    """Count what is really made."""
    return []


def photo_maker(made):
    def make(data):
        made.append(data)
        return data[:9]

    return make


def drawer(made):
    def draw(value, *, wide):
        made.append(value)
        return Drawing(f"<svg>{value} {wide}</svg>", f"words of {value}", (), 1.0, 1.0)

    return draw


def test_a_question_is_asked_once_for_a_view_and_anew_for_another(made):
    one, other = look(entries(PANEL, FRAME), "owner"), look(entries(PANEL, FRAME), "technician")
    assert panel_answer(one, "P-1") is panel_answer(one, "P-1")
    assert once(other, "x", lambda: made.append(1) or 5) == 5
    assert once(one, "x", lambda: made.append(2) or 6) == 6
    assert once(one, "x", lambda: made.append(3) or 7) == 6
    assert made == [1, 2]
    assert panel_answer(other, "P-1").reader != panel_answer(one, "P-1").reader


def test_the_emergency_pages_are_written_once_for_the_book_and_the_cards():
    view = bind(entries(), "owner").view
    assert pages(view) is pages(view)


@pytest.mark.parametrize("shelved", [True, False])
def test_a_large_photo_is_let_go_once_a_small_copy_of_it_is_made(log, shelved, made):
    import tracemalloc
    from contextlib import nullcontext

    tracemalloc.start()
    try:
        with shelf_of(log) if shelved else nullcontext():
            for n in range(2):
                small(bytes([n]) * 8_000_000, lambda data: data[:1000], "large")
            held, _ = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert held < 4_000_000


def test_a_photo_is_made_small_once_over_two_editions(log, made):
    for _ in range(2):
        with shelf_of(log):
            assert small(PAPER, photo_maker(made), 720) == b"the bytes"
    assert made == [PAPER]
    with shelf_of(log):
        small(PAPER, photo_maker(made), 500)  # another size is another copy
        assert small(b"no picture", lambda data: None) is None
    assert len(made) == 2


def test_a_drawing_is_used_again_only_for_the_same_values(log, made):
    draw = drawer(made)
    with shelf_of(log):
        first = drawn_by(draw, 1, wide=2.0)
    with shelf_of(log):
        assert drawn_by(draw, 1, wide=2.0) == first == ("<svg>1 2.0</svg>", "words of 1")
        assert drawn_by(draw, 2, wide=2.0).alt == "words of 2"
        assert drawn_by(draw, 1, wide=2.5).svg == "<svg>1 2.5</svg>"
    assert made == [1, 2, 1]


def test_a_drawing_is_drawn_anew_by_other_code_or_in_other_words(log, made, monkeypatch, tmp_path):
    draw = drawer(made)
    with shelf_of(log):
        drawn_by(draw, 1, wide=2.0)
    monkeypatch.setattr(reuse, "_code", lambda: "as it was before")
    with shelf_of(log):
        drawn_by(draw, 1, wide=2.0)
    assert made == [1, 1]
    says = Words("de", {**english().words, "month.jan": "Jänner"})
    with shelf_of(log), speaking(replace(english(), says=says)):
        drawn_by(draw, 1, wide=2.0)
    assert made == [1, 1, 1]
    record = Words("en", english().record.said, {"not recorded": "nicht vermerkt"})
    with shelf_of(log), speaking(replace(english(), record=record)):
        drawn_by(draw, 1, wide=2.0)
    assert made == [1, 1, 1, 1]


def test_a_real_drawing_comes_back_as_it_was(log):
    room = Room("living room", ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0)))
    plan = FloorMap(rooms=(room,), gaps=(), marks=())
    how = {"title": "Where it is", "width_mm": 50.0, "most_high_mm": 46.0}
    fresh = floor_map(plan, **how)
    for _ in range(2):
        with shelf_of(log):
            again = drawn_by(floor_map, plan, **how)
        assert (again.svg, again.alt) == (fresh.svg, fresh.alt)


def test_a_file_made_by_somebody_else_or_changed_is_not_used(log, made):
    with shelf_of(log):
        small(PAPER, photo_maker(made))
    file = log.cache(NAME)
    spoiled = bytearray(file.read_bytes())
    spoiled[-1] ^= 1
    file.write_bytes(spoiled)
    with shelf_of(log):
        small(PAPER, photo_maker(made))
    assert made == [PAPER, PAPER]


def test_the_file_is_for_its_owner_alone_and_does_not_grow_for_ever(log, monkeypatch, made):
    monkeypatch.setattr(reuse, "MOST", 3)
    for number in range(9):
        with shelf_of(log):
            small(b"photo %d" % number, photo_maker(made))
    assert (log.cache(NAME)).stat().st_mode & 0o077 == 0
    with shelf_of(log):
        small(b"photo 8", photo_maker(made))
    assert len(made) == 9
    assert len(Shelf({"a": [], "b": [], "c": [], "d": []}).kept()) == 3
