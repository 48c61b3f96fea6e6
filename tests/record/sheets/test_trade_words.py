"""A crew's own word for a thing leads to the kind it is written as. Common practice, no source."""

from __future__ import annotations

import pytest

from record.facts import KINDS
from record.sheets import SheetRejected, nearest_kind, read_sheet
from record.sheets.trade_words import CALLED, TYPED, told
from tests.record.records import sheet


def remedy(heading: str) -> str:
    with pytest.raises(SheetRejected) as caught:
        read_sheet("sheet.md", sheet(f"## {heading}\n\n- name: x").encode())
    return caught.value.faults[0].remedy


@pytest.mark.parametrize(
    ("heading", "kind"),
    [
        ("pipe P-1", "run"),
        ("drain pipe P-1", "run"),
        ("Air Pipe P-1", "run"),
        ("filter F-1", "equipment"),
        ("breaker B-3", "cable"),
        ("leak test P-1", "pressure tested"),
        ("Backfill FILL-TR", "backfilled"),
        ("delivery", "delivered"),
    ],
)
def test_the_name_a_crew_uses_leads_to_the_kind(heading: str, kind: str):
    """A pipe is no dip pipe, a filter not filled, a breaker no remark."""
    assert f'"## {kind}' in remedy(heading)


def test_a_type_of_a_thing_leads_to_the_thing_and_its_type():
    assert remedy("fan FAN-1") == (
        'Write "## equipment TAG" for that, with "- type: fan" under it.'
    )
    assert '"## door TAG"' in remedy("hatch HT-1") and "type: hatch" in remedy("hatch HT-1")


def test_a_photo_needs_no_heading():
    assert "on a line of its own" in remedy("photo P-1")


@pytest.mark.parametrize("word", ["leak", "water heater", "wibble"])
def test_a_word_like_no_kind_is_not_led_to_another(word: str):
    assert nearest_kind(word.split()) == ""
    assert "`asburied blank kinds` lists them" in remedy(word)


def test_every_word_leads_to_a_kind_that_there_is_and_is_none_itself():
    names = [name for names in CALLED.values() for name in names.split(", ")]
    assert set(CALLED) | set(TYPED) <= set(KINDS)
    assert len(names) == len(set(names)) and not set(names) & set(KINDS)
    assert all(told(name) for name in names)
