"""What the program itself records: only upon what it has read."""

import pytest

from record.facts import KINDS
from record.posting import RecordGrew, append_facts, seeded_salt, stopped_clock
from record.sheets import Draft, Sheet, SheetText
from record.sheets.lines import Piece
from tests.record.records import NOW, post_text, sheet

EDITION = {
    "edition": 1,
    "reader": "owner",
    "recorded_to": "2031-05-14",
    "checkpoint": "0" * 64,
    "pdf": "1" * 64,
    "html": "2" * 64,
    "calendar": "3" * 64,
}


def edition():
    nowhere = Piece("", 0, 0)
    draft = Draft(
        kind=KINDS["edition issued"], about="fern-bank", body=EDITION, heading=nowhere, lines=()
    )
    return Sheet(
        text=SheetText("manual issue", b"", ()),
        day="2031-06-01",
        writer="of",
        part="edition-1",
        site="fern-bank",
        zone="America/Denver",
        heading=nowhere,
        drafts=(draft,),
    )


def append(log, **more):
    return append_facts(
        log, edition(), clock=stopped_clock(NOW), salt=seeded_salt("fern-bank"), **more
    )


def test_an_edition_names_as_seen_what_it_was_made_of(log):
    read = log.entries()
    (entry,) = append(log, made_of=read)
    assert entry.number == "of-1"
    assert entry.content.seen == {"ld": read[-1].hash}
    assert log.entries()[-1] == entry


def test_what_was_posted_while_an_edition_was_made_stops_it_and_is_named(log):
    read = log.entries()
    post_text(log, sheet("## valve CV-1\n\n- type: check\n- on run: not recorded", writer="ck"))
    before = log.entries()
    with pytest.raises(RecordGrew, match=r"recorded meanwhile: ck-1, ck-2$"):
        append(log, made_of=read)
    assert log.entries() == before
    append(log, made_of=before)


def test_the_writers_own_new_entry_stops_it_as_well(log):
    read = log.entries()
    append(log)
    with pytest.raises(RecordGrew, match="of-1"):
        append(log, made_of=read)
