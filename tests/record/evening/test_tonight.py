"""The evening: one page, what is most urgent first."""

import json
import re

import pytest

from record.evening import evening, evening_words, form
from tests.record.building import day, view_of
from tests.record.checks.ground import COVERED, SITE, TRENCH, changed
from tests.record.checks.test_water_in_the_pit import dipped

OWED = """
## hand-over item HO-1

- what: transit plug out of the intake
- by whom: ph
- due: 2031-05-13
- state: open
- touches: AIR-IN

## hand-over item HO-2

- what: drills walked
- by whom: ld
- state: done

## expected IT-1

- what: flap valve
- amount: 1
- from: the yard
- needed by: 2031-05-15
- before: FILL

## temporary TP-1

- what: plug
- on thing: AIR-IN
- off before: fill
"""
BARE = re.sub(r"!\[.*\n", "", TRENCH)


def tonight(*blocks, on="2031-05-19", **how):
    view = view_of(day("2031-05-13", "ld", SITE), day("2031-05-14", "ck", *blocks), **how)
    return evening(view, on)


def heads(seen):
    return [line for line in evening_words(seen) if line and not line.startswith(" ")]


def test_the_evening_reads_from_the_most_urgent_down():
    hull = dipped("96.20").replace("covering FILL", "covering PIT")
    told = heads(tonight(BARE, hull, OWED, on="2031-05-19"))
    order = ["fern-bank, evening", "WATER", "PIT  backfill", "FILL  backfill", "LEFT ON", "OWED"]
    places = [next(n for n, one in enumerate(told) if one.startswith(word)) for word in order]
    assert places == sorted(places)


def test_todays_entries_are_counted_by_who_wrote_them():
    view = view_of(
        day("2031-05-13", "ld", SITE),
        day("2031-05-14", "ck", "## remark\n\nDry.", "## remark AIR-IN\n\nWet.", TRENCH),
        day("2031-05-14", "ld", "## remark\n\nCold."),
    )
    told = dict(evening(view, "2031-05-14").today)
    assert told["ld"] == 1
    assert told["ck"] == sum(
        1
        for entry in view.built.entries
        if entry.link.writer == "ck" and entry.content.kind != "sheet-posted"
    )
    assert evening(view, "2031-05-15").today == ()


@pytest.mark.parametrize(
    ("on", "when", "near"),
    [
        ("2031-05-18", "later", False),
        ("2031-05-19", "due", True),
        ("2031-05-20", "due", True),
        ("2031-05-21", "overdue", True),
    ],
)
def test_a_covering_is_near_from_the_evening_before_its_day(on, when, near):
    [one] = tonight(BARE, on=on).coming
    assert (one.when, one.near) == (when, near)
    assert tonight(BARE, on=on).stops is near


def test_a_covering_without_a_day_may_be_tomorrows():
    [one] = tonight(changed(BARE, ("- planned: 2031-05-20\n", ""))).coming
    assert one.near


def test_a_covering_that_is_on_is_no_longer_coming_and_one_half_on_is():
    assert tonight(TRENCH, COVERED).coming == ()
    more = changed(TRENCH, ("- hides: AIR-IN", "- hides: AIR-IN, CV-1"))
    half = changed(COVERED, ("- extent: all of it", "- extent: half\n- tags: AIR-IN"))
    assert len(tonight(more, half).coming) == 1


def test_what_is_owed_names_who_and_what_is_late():
    seen = tonight(TRENCH, OWED, on="2031-05-14")
    assert [(one.about, one.by, one.late) for one in seen.owed] == [
        ("HO-1", "ph", True),
        ("IT-1", "the yard", False),
    ]
    told = "\n".join(evening_words(seen))
    assert "ph: transit plug out of the intake (HO-1, due 2031-05-13, LATE)" in told
    assert "the yard: flap valve: not come (IT-1, due 2031-05-15)" in told


@pytest.mark.parametrize("state", ["not recorded", "waiting", "nearly done", "none"])
def test_an_item_that_nobody_closed_stays_owed(state):
    seen = tonight(TRENCH, OWED.replace("state: done", f"state: {state}"))
    assert "HO-2" in [one.about for one in seen.owed]


def test_a_lapsed_proof_is_told():
    lapsed = "\n## tested AIR-IN\n\n- at: 12:00\n- test: pour\n- result: passed\n- reading: dry\n"
    lapsed += "- limit: dry\n- instrument: eye\n\n## proof lapsed AIR-IN\n\n- at: 16:00\n"
    lapsed += "- test: pour\n- cause: drilled\n"
    assert "  AIR-IN: pour, VOID since 2031-05-14 16:00" in "\n".join(
        evening_words(tonight(TRENCH, lapsed))
    )


def test_water_at_a_mark_comes_first_and_leaves_with_a_stop():
    hull = dipped("96.90").replace("planned: 2031-05-15", "planned: 2031-06-30")
    seen = tonight(hull, on="2031-05-14")
    told = evening_words(seen)
    assert seen.stops
    assert told[2] == "WATER, while the pit is open"
    assert "WATER AT OR OVER THE MARK" in told[4]
    assert "Pump before it" in " ".join(told)


def test_every_line_fits_the_page():
    seen = tonight(BARE, dipped("96.20").replace("covering FILL", "covering PIT"), OWED)
    assert max(map(len, evening_words(seen))) <= 96


def test_the_json_says_what_the_words_say():
    seen = tonight(BARE, OWED)
    told = json.loads(json.dumps(form(seen)))
    assert (told["day"], told["stops"]) == ("2031-05-19", True)
    [covering] = told["coverings"]
    assert covering["covering"] == "FILL" and covering["when"] == "due"
    assert {"rule", "about", "sure", "why", "clears", "stops"} <= covering["findings"][0].keys()
    assert [one["about"] for one in told["owed"]] == ["HO-1", "IT-1"]
    assert told["still_on"] == ["TP-1"]


def test_what_a_reader_may_not_see_is_not_in_their_evening():
    secret = changed(BARE, ("## covering FILL\n\n", "## covering FILL\n\n- readers: owner\n"))
    secret += OWED.replace("- what: transit", "- readers: owner\n- what: transit")
    seen = tonight(secret, reader="trade")
    assert seen.coming == () and seen.withheld > 0
    said = "\n".join(evening_words(seen))
    assert "FILL" not in said and "HO-1" not in said
    assert "withheld from this reader" in said
