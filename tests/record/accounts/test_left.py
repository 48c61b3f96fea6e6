"""What is still on, and how things were left."""

from __future__ import annotations

import pytest

from record.accounts.left import for_a_time, form, open_visits, positions, still_on, words
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


def test_how_a_service_left_it_counts_as_how_it_was_left_last():
    """The service sheet's own line, written later than "left as", is the later word."""
    told = day("2031-06-01", "te", "## serviced DV-1\n\n- task: exercise\n- left as: open\n")
    assert state(left("shut"), told) == "not normal"
    assert state(told) == "not normal"
    alone = day("2031-06-01", "te", "## serviced DV-1\n\n- task: look\n- left as: n/a, not moved\n")
    assert state(left("shut"), alone) == "normal"


def test_who_writes_both_on_one_day_wrote_how_it_was_left_of_the_end():
    served = "## serviced DV-1\n\n- task: exercise\n"
    how = "## left as DV-1\n\n- state: shut\n"
    assert state(day("2031-06-01", "te", served, how)) == "normal"
    apart = (day("2031-06-01", "te", served), day("2031-06-01", "ld", how))
    assert state(*apart) == "not known"


def test_two_people_wrote_two_positions_on_one_day_and_no_hours():
    two = [day("2031-06-01", who, f"## left as DV-1\n\n- state: {how}\n")
           for who, how in (("te", "open"), ("ld", "shut"))]  # fmt: skip
    assert state(*two) == "not known"
    assert state(*two, left("shut", on="2031-06-02")) == "normal"
    same = [text.replace("open", "shut") for text in two]
    assert state(*same) == "normal"


def test_the_normal_position_with_more_said_is_left_to_the_reader():
    assert state(left("shut, pin out")) == "in other words"
    assert state(left("shut half")) == "not normal"


def test_a_plug_put_on_again_is_on_again():
    off = day("2031-05-24", "ld", "## taken off TP-1\n\n- note: photographed\n")
    again = day("2031-05-26", "ld", "## temporary TP-1\n\n- where: for the pour test\n")
    view = view_of(BUILT, off, again)
    assert [one.thing.tag for one in still_on(view)] == ["TP-1"]
    mend = "## temporary TP-1\n\n- mends: ld-4\n- because: misread\n- where: terminal\n"
    assert still_on(view_of(BUILT, off, day("2031-05-26", "ld", mend))) == ()


def test_what_was_left_until_something_stands_with_what_must_come_off():
    """The demo's intake: a plug told as "left as", until hand-over, then told as out."""
    plug = "## left as AIR-IN\n\n- state: transit plug in, red cap\n- until: hand-over\n"
    view = view_of(BUILT, day("2031-05-19", "ck", plug))
    [end] = for_a_time(positions(view))
    assert end.thing.tag == "AIR-IN" and "until hand-over" in end.words
    out = "## left as AIR-IN\n\n- state: transit plug out\n"
    after = view_of(BUILT, day("2031-05-19", "ck", plug), day("2031-05-24", "ld", out))
    assert for_a_time(positions(after)) == ()


def test_a_visit_is_open_while_what_it_moved_is_in_no_stated_position():
    moved = "## {} DV-{}\n\n- at: 10:00\n- {}\n"
    visit = day(
        "2031-06-01",
        "te",
        moved.format("serviced", 1, "task: exercise"),
        moved.format("opened up", 2, "what: taken out\n- why: seat"),
    )
    both = [left("shut"), left("open", tag="DV-2")]
    view = view_of(BUILT, *both, visit)
    assert open_visits(positions(view)) == {("2031-06-01", "te"): ("DV-1", "DV-2")}
    told = list(words((), positions(view)))
    assert "  2031-06-01, te: nobody wrote how DV-1, DV-2 was left" in told
    one = view_of(BUILT, *both, visit, left("shut", on="2031-06-02"))
    assert open_visits(positions(one)) == {("2031-06-01", "te"): ("DV-2",)}
    closed = (left("shut", on="2031-06-02"), left("open", on="2031-06-02", tag="DV-2"))
    assert open_visits(positions(view_of(BUILT, *both, visit, *closed))) == {}


def test_work_a_reader_may_not_see_leaves_no_position_that_looks_known():
    opened = "## opened up DV-1\n\n- what: reopened\n- why: secret\n- readers: owner\n"
    sheets = (BUILT, left("shut"), day("2031-06-01", "te", opened))
    view = view_of(*sheets, reader="responder")
    [place] = [one for one in positions(view) if one.thing.tag == "DV-1"]
    assert place.state == "not known" and "secret" not in place.words
    assert view.withheld and "withheld" in list(words((), (place,), view.withheld))[1]


def test_a_plug_on_what_a_reader_may_not_see_is_not_told():
    store = "## store S-1\n\n- name: larder\n"
    hung = (
        "## temporary TP-2\n\n- what: strap\n- on thing: S-1\n- off before: use\n- readers: owner\n"
    )
    sheets = (BUILT, day("2031-05-15", "ld", store, hung))
    assert len(still_on(view_of(*sheets))) == 2
    assert [one.thing.tag for one in still_on(view_of(*sheets, reader="trade"))] == ["TP-1"]


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


def test_a_valve_that_the_flow_moves_is_left_by_nobody_until_somebody_works_on_it():
    check = day("2031-05-15", "ck", "## valve CV-1\n\n- type: check\n- normal position: free\n")
    assert state(check, tag="CV-1") == "by itself"
    assert "moves by itself" in "\n".join(words((), positions(view_of(check))))
    served = day("2031-05-20", "te", "## serviced CV-1\n\n- task: check-valve-test\n")
    assert state(check, served, tag="CV-1") == "not known"
    assert state(check, served, left("free", "13:00", "2031-05-21", "CV-1"), tag="CV-1") == "normal"
