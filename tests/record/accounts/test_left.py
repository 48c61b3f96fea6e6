"""What is still on, and how things were left."""

from __future__ import annotations

import pytest

from record.accounts.left import form, positions, still_on, words
from tests.record.building import day, view_of

SITE = """## run AIR-IN

- carries: supply air

## valve DV-1

- type: ball
- on run: AIR-IN
- normal position: shut

## valve DV-2

- type: ball
- on run: AIR-IN
- normal position: open
"""
PLUG = """## temporary TP-1

- what: plug
- on thing: AIR-IN
- where: terminal foot
- off before: the first edition
"""
BUILT = day("2031-05-14", "ld", SITE, PLUG)


def left(state, at="12:00", on="2031-05-20", tag="DV-1"):
    return day(on, "ld", f"## left as {tag}\n\n- at: {at}\n- state: {state}\n")


def state(*sheets, tag="DV-1"):
    [place] = [one for one in positions(view_of(BUILT, *sheets)) if one.thing.tag == tag]
    return place.state


def test_a_plug_is_on_until_somebody_writes_that_it_came_off():
    assert [one.thing.tag for one in still_on(view_of(BUILT))] == ["TP-1"]
    off = day("2031-05-24", "ld", "## taken off TP-1\n\n- note: photographed\n")
    assert still_on(view_of(BUILT, off)) == ()
    assert len(still_on(view_of(BUILT, off, as_of="2031-05-23"))) == 1


def test_nobody_wrote_how_it_was_left():
    assert state() == "not known"


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("shut", "normal"),
        ("Shut ", "normal"),
        ("open", "not normal"),
        ("not recorded", "not known"),
    ],
)
def test_as_left_against_as_it_normally_is(said, found):
    assert state(left(said)) == found


def test_the_last_word_counts():
    assert state(left("open"), left("shut", at="15:00")) == "normal"


def test_a_valve_worked_on_since_is_in_no_known_position():
    served = "## serviced DV-1\n\n- at: {}\n- task: exercise\n"
    after = day("2031-06-01", "te", served.format("10:00"))
    assert state(left("shut"), after) == "not known"
    before = day("2031-05-20", "te", served.format("10:00"))
    assert state(left("shut"), before) == "normal"
    later = day("2031-05-20", "te", served.format("13:00"))
    assert state(left("shut"), later) == "not known"
    told = day("2031-06-01", "te", served.format("10:00") + "- left as: shut\n")
    assert state(left("shut"), told) == "normal"


def test_words_put_what_is_not_known_first():
    view = view_of(BUILT, left("open"))
    told = list(words(still_on(view), positions(view)))
    assert told[:2] == [
        "STILL ON",
        "  TP-1: plug on AIR-IN, terminal foot; must be off before the first edition",
    ]
    assert [line.split(":")[0].strip() for line in told[4:]] == ["DV-2", "DV-1"]
    assert "NOT NORMAL: left open 2031-05-20 12:00" in told[5]
    assert form(still_on(view), positions(view))["still_on"][0]["off_before"] == "the first edition"
    assert list(words((), ())) == ["Nothing temporary is recorded as still on."]
