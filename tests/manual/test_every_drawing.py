"""Whatever the manual draws of whatever record: it can be read, and its words say the same."""

from __future__ import annotations

import re

import pytest

from manual.plans.pictures import DRAWINGS
from record.facts.kind import READERS
from record.readers import look
from tests.manual import books, test_way_cut
from tests.manual.every_drawing import OF, every_drawing, sums, told_by
from tests.manual.legible import check, says_the_same
from tests.manual.plans import test_elevations, test_faces, test_flows, test_hull_cut
from tests.manual.secrets import planted
from tests.record.building import day, entries_of
from tests.record.place.test_round_hulls import board
from tests.record.place.test_round_hulls import seen as round_one

ALL = (
    test_hull_cut.GROUND,
    test_hull_cut.COVER,
    test_hull_cut.PANEL,
    test_hull_cut.DIP,
    test_hull_cut.READ.format("46.10"),
    test_hull_cut.SIDE.replace("D-1", "D-2"),
    test_hull_cut.ZONE,
    test_hull_cut.SEAM,
    test_hull_cut.WELD,
    test_way_cut.SHAFT,
    test_way_cut.ROOM,
    test_way_cut.DRILL,
    test_flows.OUT,
    test_flows.OVER,
    test_flows.TO_A,
    test_flows.UNIT,
    test_flows.DRAIN,
    test_flows.PIPE,
    test_flows.BALL,
    test_flows.SHUT,
)
PLANT = (test_elevations.SITE, test_elevations.HULL, test_elevations.PANEL, test_elevations.VALVE)


def whole():
    return books.entries(*ALL)


def plant():
    return entries_of(day("2031-05-14", "ld", *PLANT, test_faces.STORE, test_faces.DOOR))


RECORDS = {"bare": books.entries, "whole": whole, "plant": plant, "every kind": planted}


def tags_of(view):
    return frozenset(tag for tag in view.built.things if "-" in tag)


def test_no_kind_of_drawing_is_left_out_here():
    assert set(OF) == set(DRAWINGS)
    drawn = {asked.rpartition(" ")[0] or asked for asked, _ in every_drawing(look(whole()))}
    assert {name for name in OF if OF[name]} - {"panel"} <= drawn | {"site plan"}


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("record", RECORDS)
def test_every_drawing_is_legible_and_its_words_name_the_same_things(record, reader):
    view = look(RECORDS[record](), reader)
    drawn = dict(every_drawing(view))
    assert drawn
    for asked, drawing in drawn.items():
        try:
            check(drawing)
            if (
                asked != "floor map"
            ):  # it shows a way out by the word OUT, and its words by its name
                says_the_same(drawing, tags_of(view))
        except AssertionError as fault:
            raise AssertionError(f"{asked}: {fault}") from fault


@pytest.mark.parametrize("reader", [r for r in READERS if r != "owner"])
def test_no_drawing_names_what_its_reader_may_not_see(reader):
    """The shaft is for owner and responder, the store for the owner alone."""
    view = look(whole(), reader)
    hidden = {"S-1": "larder", **({} if reader == "responder" else {"SH-1": "shaft of sand"})}
    for asked, drawing in every_drawing(view):
        for tag, name in hidden.items():
            assert not re.search(rf"\b{tag}\b|{name}", drawing.svg + drawing.alt), asked


def test_a_round_hull_is_drawn_legibly_too():
    view = round_one(board(), board("ceiling", tag="P-2"), floor_above_bottom="0.25 m")
    for _, drawing in every_drawing(view):
        check(drawing)


def test_another_process_with_another_order_of_sets_draws_the_same_bytes(folder):
    """Every drawing by its hash, from the record on disk, under two seeds of hashing."""
    one, other = (told_by(folder, READERS, seed) for seed in ("1", "77"))
    assert one == other and len(one.splitlines()) > 4 * len(READERS)


def test_drawing_twice_draws_the_same():
    assert sums(look(whole())) == sums(look(whole()))
