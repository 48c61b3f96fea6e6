"""Rows, their names and their people: what stands in a cell is what the crew wrote there."""

from __future__ import annotations

import sys
import unicodedata

import pytest

from record.sheets import Draft, SheetRejected, read_sheet
from tests.record.records import sheet

COATS = """## coat applied SM-1

| layer | coat | started | lot | note |
|---|---|---|---|---|
| tar | 1 | 08:40 | T-22 | {first} |
| tar | 2 | 10:20 | T-22 | none |
"""
#: The 65 control codes of the Unicode Standard, section 23.1 (number and place from memory),
#: less the tab and what ends a line.
CONTROLS = [
    letter
    for letter in map(chr, range(sys.maxunicode + 1))
    if unicodedata.category(letter) == "Cc" and letter not in "\t\n\r"
]


def drafts(blocks: str) -> tuple[Draft, ...]:
    return read_sheet("sheet.md", sheet(blocks).encode()).drafts


def test_there_are_as_many_controls_as_the_standard_says():
    assert len(CONTROLS) == 65 - 3


@pytest.mark.parametrize("letter", CONTROLS, ids=lambda letter: f"U+{ord(letter):04X}")
def test_what_cannot_be_seen_is_refused_where_it_stands(letter: str):
    with pytest.raises(SheetRejected) as refused:
        drafts(f"## remark fern-bank\n\nDry{letter} all day.")
    (fault,) = refused.value.faults
    assert (fault.line, fault.column) == (8, 4)
    assert f"U+{ord(letter):04X}" in fault.problem


def test_a_bar_behind_a_backslash_stays_in_its_cell():
    """GitHub Flavored Markdown, tables: a pipe is put into a cell by escaping it."""
    first, second = drafts(COATS.format(first=r"north \| south"))
    assert first.body["note"] == "north | south"
    assert (first.body["lot"], second.body["lot"]) == ("T-22", "T-22")


def test_the_sheets_people_did_every_block_that_names_nobody_else():
    text = sheet("## remark fern-bank\n\nDry.\n\n## run R-1\n\n- did: ck\n- material: steel\n")
    data = text.replace("- zone", "- did: ld\n- saw: gc\n- by: of\n- zone", 1).encode()
    remark, run = read_sheet("sheet.md", data).drafts
    assert (remark.did, remark.saw, remark.by) == ("ld", "gc", "of")
    assert (run.did, run.saw, run.by) == ("ck", "gc", "of")


def test_rows_of_a_happening_are_told_apart_by_their_first_words_then_by_number():
    """The first field of a coat is its layer, and both rows say tar."""
    assert [draft.key for draft in drafts(COATS.format(first="none"))] == ["tar", "tar #2"]
