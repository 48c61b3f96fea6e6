"""Later readings beside day one's."""

from __future__ import annotations

import pytest

from record.accounts.drift import series
from record.accounts.drift_words import form, words
from record.accounts.readings import read_reading
from tests.record.building import day, view_of

SITE = """## equipment AU-1

- type: air unit

## dip pipe DP-1

- x: 13.00 m
- y: 8.80 m
"""
BUILT = day("2031-05-10", "ld", SITE)


def read(on, tag, what, reading, more=""):
    block = f"## reading taken {tag}\n\n- what: {what}\n- reading: {reading}\n{more}"
    return day(on, "te", block)


def only(*sheets):
    [one] = list(series(view_of(BUILT, *sheets)))
    return one


def told(*sheets):
    one = only(*sheets)
    return [one.words(later) for later in one.later]


def test_flow_is_six_percent_less():
    """By hand: 94 of 100 m³/h is 6 less, 6.0 %; 6 m³/h is 3.53 cfm."""
    found = told(
        read("2031-05-24", "AU-1", "fan flow", "100 m³/h at 45 rev/min"),
        read("2032-05-23", "AU-1", "Fan  flow", "94 m³/h"),
    )
    assert found == ["6.00 m³/h (3.53 cfm) less than on day one, 6.0 %"]


def test_water_rose_in_the_dip_pipe():
    """By hand: 46.40 − 45.95 = 0.45 m, 1' 5 11/16"; a level has no percentage."""
    found = told(
        read("2031-05-16", "DP-1", "water level", "45.95 m"),
        read("2032-05-23", "DP-1", "water level", "46.40 m"),
        read("2033-05-21", "DP-1", "water level", "45.95 m"),
    )
    assert found == ["0.450 m (1' 5 11/16\") more than on day one", "as on day one"]


def test_a_change_within_what_both_readings_are_good_for_is_none():
    """By hand: 5 and 5 mm make 7.07 mm; 7 mm is within it, 8 mm is not."""
    first = read("2031-05-16", "DP-1", "level", "45.950 m ± 5 mm")
    within = read("2032-05-16", "DP-1", "level", "45.957 m ± 5 mm")
    beyond = read("2033-05-16", "DP-1", "level", "45.958 m ± 5 mm")
    assert told(first, within) == ["no change that these readings could tell"]
    assert told(first, beyond)[0].startswith("0.008 m")


@pytest.mark.parametrize("wider", ["10 mm", "1 m"])
def test_a_wider_tolerance_never_makes_a_change_certain(wider):
    first = read("2031-05-16", "DP-1", "level", "45.950 m ± 5 mm")
    later = read("2032-05-16", "DP-1", "level", f"45.957 m ± {wider}")
    one = only(first, later)
    assert not one.certain(one.later[0])


def test_what_cannot_be_compared_is_said_to_be():
    first = read("2031-05-24", "AU-1", "flow", "100 m³/h")
    assert told(first, read("2032-05-24", "AU-1", "flow", "weak")) == [
        "not to be compared by number"
    ]
    assert told(first, read("2032-05-24", "AU-1", "flow", "45.95 m")) == [
        "not to be compared by number"
    ]


def test_a_baseline_that_was_marked_is_day_one():
    block = (
        "## tested AU-1\n\n- test: fan flow\n- result: passed\n- reading: {}\n- limit: 90 m³/h\n"
        "- instrument: vane meter\n- baseline: {}\n"
    )
    early = day("2031-05-20", "te", block.format("80 m³/h", "no"))
    base = day("2031-05-24", "te", block.format("104 m³/h", "yes"))
    late = day("2032-05-24", "te", block.format("97 m³/h", "no"))
    one = only(early, base, late)
    assert one.first.words == "104 m³/h" and one.limit == "90 m³/h"
    assert [each.words for each in one.later] == ["80 m³/h", "97 m³/h"]


def test_cover_is_held_point_by_point():
    rows = (
        "## cover measured AU-1\n\n| point | cover [m] | how |\n|---|---|---|\n"
        "| C1 | {} | rod |\n| C3 | {} | rod |\n"
    )
    one, two = (
        day("2031-05-24", "ck", rows.format("1.300", "1.280")),
        day("2033-05-21", "ck", rows.format("1.300", "1.170")),
    )
    found = {each.name: each.words(each.later[0]) for each in series(view_of(BUILT, one, two))}
    assert found["cover at C1"] == "as on day one"
    assert found["cover at C3"].startswith("0.110 m") and "less" in found["cover at C3"]


@pytest.mark.parametrize("text", ["100 lb", "dry", "5.0 L in, 4.8 L out", "", "47"])
def test_a_unit_is_never_guessed(text):
    assert read_reading(text) is None


def test_order_of_arrival_changes_nothing():
    sheets = (
        read("2032-05-23", "DP-1", "level", "46.40 m"),
        read("2031-05-16", "DP-1", "level", "45.95 m"),
    )
    assert only(*sheets).first.words == "45.95 m"


def test_words_and_json():
    first = read("2031-05-16", "DP-1", "level", "45.95 m")
    later = read("2032-05-23", "DP-1", "level", "46.40 m", "- limit: 47.95 m\n")
    once = read("2031-05-24", "AU-1", "flow", "100 m³/h")
    found = series(view_of(BUILT, first, later, once))
    lines = list(words(found))
    assert lines[0] == "DP-1: level; limit 47.95 m"
    assert lines[-1] == "1 reading was taken once only: nothing stands beside day one yet."
    assert form(found[0])["later"][0]["change"] == "0.45"
    assert list(words(())) == ["No reading is recorded."]
    assert series(view_of(BUILT, first), "AU-1") == ()
