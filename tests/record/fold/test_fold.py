"""State is a function of what was said and who had seen what: no clock and no order decides."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.entry import Entry
from record.facts.values import Absent, Why
from record.fold import AsBuilt, fold, known_at, known_to
from tests.record.records import Tablet, measured


def said(built: AsBuilt) -> object:
    """Everything a state says, entries by what they say: link hashes hold the clock."""
    return (
        {
            thing.tag: (thing.kind.word, _fields(thing), [(p.tag, _fields(p)) for p in thing.parts])
            for thing in built.things.values()
        },
        [(h.kind.word, h.about, h.on, h.at, _fields(h)) for h in built.happenings],
        [(unread.entry.number, unread.why) for unread in built.unread],
    )


def _fields(stated: object) -> object:
    return {
        name: ([(h.value, h.entry.number, h.on, h.at) for h in held], stated.words(name))
        for name, held in stated.fields.items()
    }


def crew(*, ld_off: int = 0, ck_off: int = 0) -> list[Entry]:
    """Two tablets through a day: they meet once, disagree, mend, read, and lay stations."""
    ld, ck = Tablet("ld", minutes_off=ld_off), Tablet("ck", minutes_off=ck_off)
    first = ld.says("run", "AIR-IN", {"pipe_length": measured("12.06"), "material": "clay"})
    ld.says("run", "D-1", {"material": "clay"})
    ck.says("run", "D-1", {"material": "steel"})
    ck.says("valve", "X-1", {"type": "ball"})
    ld.says("run", "X-1", {"material": "clay"})
    ck.meets(ld)
    ld.says("station", "AIR-IN/2", {"station": "2 bend", "x": measured("24.00")})
    ck.says("station", "AIR-IN/10", {"station": "10 end", "x": measured("16.40")})
    ck.says("station", "AIR-IN/1", {"station": "1 foot", "x": measured("27.00")})
    ck.says("run", "AIR-IN", {"pipe_length": measured("12.60")}, mends=[first])
    ld.says("run", "AIR-IN", {"pipe_length": measured("12.65")}, mends=[first])
    ld.says("reading-taken", "AIR-IN", {"what": "flow", "reading": "94"})
    ck.says("reading-taken", "AIR-IN", {"what": "flow", "reading": "97"})
    ld.meets(ck)
    ld.says("reading-taken", "AIR-IN", {"what": "flow", "reading": "98"})
    return [*ld.chain, *ck.chain]


@pytest.mark.parametrize(("ld_off", "ck_off"), [(0, 100_000), (100_000, 0), (-7, 3)])
def test_a_clock_that_runs_wrong_changes_no_state(ld_off: int, ck_off: int):
    assert said(fold(crew(ld_off=ld_off, ck_off=ck_off))) == said(fold(crew()))


@given(st.randoms(use_true_random=False), st.integers(0, 5))
def test_neither_the_order_nor_the_repetition_of_entries_changes_anything(
    chance: random.Random, again: int
):
    entries = crew()
    mixed = entries + entries[:again]
    chance.shuffle(mixed)
    assert fold(mixed) == fold(entries)


def test_the_stations_of_a_run_stand_in_number_order():
    run = fold(crew()).things["AIR-IN"]
    assert [part.key for part in run.parts] == ["1", "2", "10"]


def test_two_who_had_not_seen_each_other_and_differ_disagree():
    ld, ck = Tablet("ld"), Tablet("ck")
    ld.says("run", "D-1", {"material": "clay"}, minute=1)
    ck.says("run", "D-1", {"material": "steel"}, minute=900)
    value = fold([*ld.chain, *ck.chain]).things["D-1"].value("material")
    assert isinstance(value, Absent) and value.why is Why.NOT_SETTLED
    assert value.reason == "ck-1 says steel; ld-1 says clay"


def test_two_who_had_not_seen_each_other_and_agree_are_settled():
    ld, ck = Tablet("ld"), Tablet("ck")
    ld.says("run", "D-1", {"material": "clay"})
    ck.says("run", "D-1", {"material": "clay"})
    assert fold([*ld.chain, *ck.chain]).things["D-1"].words("material") == "clay"


@pytest.mark.parametrize("clock", [-5000, 5000])
def test_who_had_seen_the_other_supersedes_whatever_the_clocks_say(clock: int):
    ld, ck = Tablet("ld"), Tablet("ck", minutes_off=clock)
    ld.says("run", "D-1", {"material": "clay"})
    ck.meets(ld)
    ck.says("run", "D-1", {"material": "steel"})
    assert fold([*ld.chain, *ck.chain]).things["D-1"].words("material") == "steel"


def test_a_change_is_true_from_its_day_and_not_before():
    ld = Tablet("ld")
    ld.says("equipment", "AU-1", {"serial": "A-100"}, on="2031-05-14")
    ld.says("equipment", "AU-1", {"serial": "B-200"}, on="2031-05-20")
    serial = {
        day: fold(ld.chain, as_of=f"2031-05-{day}").things["AU-1"].words("serial")
        for day in ("14", "19", "20")
    }
    assert serial == {"14": "A-100", "19": "A-100", "20": "B-200"}


def test_a_sheet_that_comes_late_fills_in_its_own_day_only():
    """Friday's sheet was posted before Thursday's: Friday's serial still is the last one."""
    ld = Tablet("ld")
    ld.says("equipment", "AU-1", {"serial": "B-200"}, on="2031-05-20")
    ld.says("equipment", "AU-1", {"serial": "A-100"}, on="2031-05-14")
    assert fold(ld.chain).things["AU-1"].words("serial") == "B-200"
    assert fold(ld.chain, as_of="2031-05-19").things["AU-1"].words("serial") == "A-100"


def test_the_hour_orders_statements_of_one_day():
    ld = Tablet("ld")
    ld.says("valve", "DV-1", {"normal_position": "shut"}, at="15:00")
    ld.says("valve", "DV-1", {"normal_position": "open"}, at="09:00")
    assert fold(ld.chain).things["DV-1"].words("normal_position") == "shut"


def test_hours_that_go_round_in_a_ring_are_a_disagreement_and_never_an_empty_field():
    """10:00, then no hour, then 09:00: each follows one and precedes another."""
    ld = Tablet("ld")
    for position, at in (("open", "10:00"), ("half", None), ("shut", "09:00")):
        ld.says("valve", "DV-1", {"normal_position": position}, at=at)
    value = fold(ld.chain).things["DV-1"].value("normal_position")
    assert isinstance(value, Absent) and value.why is Why.NOT_SETTLED


def test_not_recorded_after_a_value_says_that_nobody_knows_it_now():
    ld = Tablet("ld")
    ld.says("run", "D-1", {"material": "clay"})
    ld.says("run", "D-1", {"material": {"absent": "not recorded"}})
    assert fold(ld.chain).things["D-1"].words("material") == "not recorded"


@pytest.mark.parametrize(
    ("kind", "version"), [("aerial-survey", 1), ("run", 2), ("reading-taken", 9)]
)
def test_a_kind_from_a_newer_version_changes_the_unread_list_and_nothing_else(
    kind: str, version: int
):
    entries = crew()
    other = Tablet("te")
    new = other.says(kind, "AIR-IN", {"material": "gold"}, version=version)
    before, after = fold(entries), fold([*entries, new])
    assert (after.things, after.happenings) == (before.things, before.happenings)
    assert [u.entry for u in after.unread if u not in before.unread] == [new]


def test_a_field_this_version_does_not_know_is_kept_and_stops_nothing():
    ld = Tablet("ld")
    ld.says("run", "D-1", {"gloss": {"shade": [1, {"deep": None}]}, "material": "clay"})
    run = fold(ld.chain).things["D-1"]
    assert run.words("material") == "clay"
    assert run.words("gloss").startswith("(unread)")
    assert run.si("gloss") is None


@pytest.mark.parametrize("si", ["NaN", "sNaN", "Infinity", "1e999999", "", "12,6"])
def test_a_number_that_is_none_is_unread_and_never_worked_with(si: str):
    ld, ck = Tablet("ld"), Tablet("ck")
    ld.says("run", "D-1", {"size": {"text": "x", "si": si, "unit": "m"}})
    ck.says("run", "D-1", {"size": {"text": "x", "si": si, "unit": "m"}})
    run = fold([*ld.chain, *ck.chain]).things["D-1"]
    assert run.si("size") is None
    assert run.words("size").startswith("(unread)")


def test_one_tag_for_two_kinds_is_shown_and_does_not_hang_on_the_clock():
    built = fold(crew(ld_off=50_000))
    other = fold(crew(ck_off=50_000))
    assert built.things["X-1"].kind is other.things["X-1"].kind
    assert [u.why for u in built.unread] == [u.why for u in other.unread]
    assert any("used for a" in unread.why for unread in built.unread)


def test_as_known_to_an_entry_is_what_its_writer_had():
    entries = crew()
    last = next(e for e in entries if e.number == "ck-3")  # ck had met ld after ld-3
    assert {e.number for e in known_to(entries, last)} == {"ld-1", "ld-2", "ld-3", "ck-1", "ck-2"}


def test_as_known_at_a_moment_leaves_out_what_came_later():
    ld = Tablet("ld")
    for n in range(1, 4):
        ld.says("run", "D-1", {"material": f"m{n}"}, minute=n)
    second = ld.chain[1].link.recorded
    assert [e.number for e in known_at(ld.chain, second)] == ["ld-1", "ld-2"]


def test_what_had_been_seen_by_then_was_known_then_whatever_its_clock_says():
    """ld's clock runs a day ahead. ck saw ld's entry and mended it at noon: so it was known."""
    ld, ck = Tablet("ld", minutes_off=1440), Tablet("ck")
    first = ld.says("run", "D-1", {"material": "clay"}, minute=1)
    ck.meets(ld)
    mend = ck.says("run", "D-1", {"material": "steel"}, mends=[first], minute=5)
    known = known_at([*ld.chain, *ck.chain], mend.link.recorded)
    assert {e.number for e in known} == {"ld-1", "ck-1"}
    assert fold(known).things["D-1"].words("material") == "steel"


def test_both_branches_of_a_fork_are_folded_and_neither_is_taken_for_the_later():
    """A tablet was restored from a copy and went on: two entries carry the number ld-2."""
    ld = Tablet("ld")
    ld.says("run", "D-1", {"material": "clay"})
    restored = Tablet("ld", chain=list(ld.chain))
    ld.says("run", "D-1", {"size": measured("0.05")})
    restored.says("run", "D-1", {"size": measured("0.04")})
    restored.says("run", "D-1", {"size": measured("0.04")})
    every = [*ld.chain, *restored.chain[1:]]
    value = fold(every).things["D-1"].value("size")
    assert isinstance(value, Absent) and value.why is Why.NOT_SETTLED


def test_the_bend_was_backfall_as_known_that_evening_and_right_once_it_was_settled():
    """The scenario's day three: a crown shot of 47.906 booked as the invert of the bend, 56 mm
    above the terminal's 47.850. Both tablets mend it without signal and differ; next day an
    entry names both. Falls: (47.850 - 47.750) / 5.00 m = 2.000 %."""
    ld, ck = Tablet("ld"), Tablet("ck")

    def bend(part: str, height: str) -> dict[str, object]:
        return {"level": {"part": part, **measured(height)}}

    wrong = ld.says("station", "AIR-IN/2", {"station": "2 bend", **bend("invert", "47.906")})
    ck.meets(ld)
    evening = wrong.link.recorded
    one = ld.says("station", "AIR-IN/2", bend("invert", "47.750"), mends=[wrong], minute=60)
    two = ck.says("station", "AIR-IN/2", bend("invert", "47.754"), mends=[wrong], minute=61)
    ld.meets(ck)
    ld.says("station", "AIR-IN/2", bend("crown", "47.906"), mends=[one, two], minute=900)
    ld.says("run", "AIR-IN", {"name": "fresh air in"}, minute=901)
    every = [*ld.chain, *ck.chain]

    def level(entries: Sequence[Entry]) -> str:
        ld_run = fold([*entries, ld.chain[-1]]).things["AIR-IN"]
        return ld_run.part("2").words("level")

    assert level(known_at(every, evening)) == "invert 47.906 m"
    assert level(known_at(every, two.link.recorded)).startswith("not settled")
    assert level(every) == "crown 47.906 m"
