"""Kinds of fact: who may see each, which are looks and tests, and where lots are asked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from record.facts import KINDS, Kind, Sort
from record.facts.fields import Day, Field, Text
from record.facts.forms import KINDS as FORMS
from record.facts.looks import INSPECTIONS, LOOKS, PROOFS, found_in, titled
from record.facts.named import EntryOf
from record.posting.narrow import narrow
from record.sheets import Draft
from record.sheets.lines import Piece

ALL = "owner technician trade responder"
READERS = {
    "owner": (
        "concealed entry, content, contents checked, filled, holder changed, sheet posted, store"
    ),
    "owner responder": "way out",
    "owner technician": "recall told, serviced",
    "owner technician trade": (
        "backfilled, batch, coat applied, coating inspected, compaction tested, delivered, "
        "hold released, hold waived, holiday tested, inspected, recall done, "
        "recall noticed, remark, returned, used, weld inspected, witness point"
    ),
    ALL: (
        "befell, benchmark, build-up, cable, climate, copy handed over, "
        "cover measured, covered, covering, "
        "curve point, dip pipe, door, drain, shape measured, expected, taken off, temporary, "
        "edition issued, equipment, fit-out, fitting, flow tested, ground pass, "
        "hand-over item, hull, key given up, "
        "insulation, landmark, layer, left as, levelled, lot, marker, month, "
        "opened up, opening, panel, pass broken, pass returned, "
        "penetration, "
        "photographed, position tied, pressure tested, procedure, proof lapsed, reading taken, "
        "repaired, reserved zone, room, run, seam, site, station, signed off, step, tags swapped, "
        "tested, uncovered, valve, withdrawn, work pass, worked by others, writer key"
    ),
}
USED_UP = (
    ("hull", "lots"),
    ("run", "lot"),
    ("run", "joint lot"),
    ("fitting", "lot"),
    ("valve", "lot"),
    ("drain", "lot"),
    ("insulation", "lot"),
    ("marker", "lot"),
    ("cable", "lot"),
    ("penetration", "lot"),
    ("penetration", "seal lot"),
    ("door", "lot"),
    ("panel", "lot"),
    ("fit-out", "lot"),
    ("seam", "filler lot"),
    ("weld inspected", "filler lots"),
    ("coat applied", "lot"),
    ("batch", "lots"),
    ("content", "lot"),
    ("equipment", "consumables lot"),
    ("backfilled", "lot"),
    ("filled", "lot"),
    ("repaired", "lots"),
    ("serviced", "lots"),
    ("delivered", "lot"),
    ("returned", "lot"),
    ("used", "lot"),
    ("recall noticed", "lots"),
)


def draft(kind: Kind) -> Draft:
    return Draft(kind=kind, about="X-1", heading=Piece("X-1", 1, 1), body={}, lines=())


def test_each_kind_is_seen_by_those_who_were_chosen_for_it_and_no_others():
    """The table is what was decided; whoever opens or shuts a kind changes it here too."""
    decided = {word: who for who, words in READERS.items() for word in words.split(", ")}
    declared = {
        kind.word: " ".join(who for who in ALL.split() if who in kind.readers)
        for kind in KINDS.values()
    }
    assert declared == decided


def test_a_kind_that_names_no_reader_is_the_owners_alone():
    kind = Kind(word="new thing", says="Something.", sort=Sort.THING, fields=())
    assert kind.readers == {"owner"}
    assert narrow(draft(kind), {}) == ("owner",)


def test_a_block_cannot_open_what_its_kind_keeps_from_others():
    opened = replace(draft(KINDS["concealed entry"]), readers=("owner", "trade"))
    assert narrow(opened, {}) == ("owner",)


def test_what_can_fail_and_be_done_again_is_a_look_or_a_test_and_nothing_else_is():
    judged = {k.word for k in KINDS.values() if k.field("result") and k.field("retest of")}
    assert judged == set(LOOKS) and not set(INSPECTIONS) & set(PROOFS)
    for word in LOOKS:
        assert KINDS[word].sort is Sort.HAPPENING
        assert KINDS[word].field(titled(word)) and KINDS[word].field(found_in(word))


@pytest.mark.parametrize("kind", [k for k in FORMS if k.word in LOOKS], ids=lambda k: k.word)
def test_a_form_asks_every_line_with_its_instrument_and_the_day_that_was_calibrated(kind: Kind):
    assert [field.key for field in kind.fields if not field.needed] == []
    assert kind.field("instrument") and kind.field("result")
    calibrated, retest = kind.field("calibrated"), kind.field("retest of")
    assert calibrated and isinstance(calibrated.holds, Day)
    assert retest and isinstance(retest.holds, EntryOf) and not retest.holds.words


@pytest.mark.parametrize(
    ("word", "asked"),
    [
        (
            "weld inspected",
            "weld, procedure, welder, criterion, result, repair",
        ),
        (
            "coating inspected",
            "humidity, dew point, surface, preparation, profile, batches, film, holiday voltage",
        ),
        ("compaction tested", "lift, method, reference density, moisture, degree"),
        (
            "pressure tested",
            "pressure, duration, leakage, flushing, left in service, witnesses",
        ),
    ],
)
def test_the_forms_ask_what_the_usual_reports_of_their_trades_ask(word: str, asked: str):
    """Weld: the usual visual report. Coating: a paint inspector's day report. Compaction: a field
    density report. Pressure: the contractor's material and test certificate for underground
    piping. Common practice, read in open forms of each."""
    assert [key for key in asked.split(", ") if KINDS[word].field(key) is None] == []


@pytest.mark.parametrize(("word", "key"), USED_UP, ids=" ".join)
def test_whatever_is_used_up_says_its_lot_in_words_that_can_be_searched(word: str, key: str):
    field = KINDS[word].field(key)
    assert field == Field(key, Text()) or (field and isinstance(field.holds, Text))
