"""Mending without retyping a sheet: amend and withdraw, through the program itself."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from record.log import Log
from tests.record.records import SITE, post_text, sheet
from tests.typed import asburied

RUN = """## run AIR-IN

- carries: supply air

| station | invert [m] | how |
|---|---|---|
| 1 foot | 47.850 | staff |
| 2 bend | 47.906 | staff |
"""
WHO = ("--writer", "ld")


@pytest.fixture
def place(tmp_path: Path) -> str:
    """A record whose run is ld-3, its stations ld-4 and ld-5 (ld-1 and ld-2 are the site's)."""
    with Log.make(tmp_path / "r") as log:
        post_text(log, SITE)
        post_text(log, sheet(RUN))
    return str(tmp_path / "r")


def tell(place: str, *words: str) -> str:
    done = asburied("--record", place, *words, ASBURIED_NOW="2031-06-02T12:00:00Z")
    assert done.returncode == 0, done.stderr
    return done.stdout


def level(place: str, station: str) -> list[object]:
    held = json.loads(tell(place, "show", f"AIR-IN/{station}", "--json"))["fields"]["level"]["held"]
    return [(one["value"]["part"], one["value"]["si"], one["on"], one["entry"]) for one in held]


def test_a_mend_takes_the_day_of_what_it_mends_and_leaves_the_rest(place: str) -> None:
    told = tell(place, "amend", "ld-5", "crown=47.906 m", "--because", "it was the crown", *WHO)
    assert "ld-7: station AIR-IN/2" in told and "157' 2 1/16\"" in told
    assert level(place, "2") == [("crown", "47.906", "2031-05-14", "ld-7")]
    shown = json.loads(tell(place, "show", "AIR-IN/2", "--json"))["fields"]
    assert shown["station"]["words"] == "2 bend" and shown["station"]["held"][0]["entry"] == "ld-5"
    assert level(place, "1") == [("invert", "47.85", "2031-05-14", "ld-4")]


def test_a_withdrawn_mend_restores_what_stood_before(place: str) -> None:
    tell(place, "amend", "ld-5", "crown=47.906 m", "--because", "it was the crown", *WHO)
    tell(place, "withdraw", "ld-7", "--because", "no, it was not", *WHO)
    assert level(place, "2") == [("invert", "47.906", "2031-05-14", "ld-5")]


def test_a_field_of_a_whole_thing_is_mended_too(place: str) -> None:
    tell(place, "amend", "ld-3", "carries=exhaust air", "--because", "the other one", *WHO)
    held = json.loads(tell(place, "show", "AIR-IN", "--json"))["fields"]["carries"]["held"]
    assert [(one["value"], one["entry"]) for one in held] == [("exhaust air", "ld-7")]


def test_the_same_mend_twice_is_one_mend(place: str) -> None:
    words = ("amend", "ld-5", "crown=47.906 m", "--because", "it was the crown", *WHO)
    tell(place, *words)
    assert "already recorded" in tell(place, *words)


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (("amend", "ld-99", "crown=1 m", "--because", "x"), 1, "no entry ld-99"),
        (("amend", "ld-5", "crown=48", "--because", "x"), 1, "48 has no unit"),
        (("amend", "ld-5", "crown", "--because", "x"), 2, "not FIELD=VALUE"),
        (("amend", "ld-5", "crwn=48 m", "--because", "x"), 1, "no field"),
        (("withdraw", "ld-99", "--because", "x"), 1, "no entry ld-99"),
    ],
)
def test_what_cannot_be_mended_is_refused_and_nothing_is_recorded(
    place: str, words: tuple[str, ...], status: int, says: str
) -> None:
    done = asburied("--record", place, *words, *WHO, ASBURIED_NOW="2031-06-02T12:00:00Z")
    assert done.returncode == status
    assert says in done.stderr and "Traceback" not in done.stderr
    assert "All 6 entries match" in tell(place, "verify")


def test_several_fields_are_read_back_in_both_units_beside_what_was_said(place: str) -> None:
    """47.906 m / 0.3048 is 157.172 ft: 157' 2 1/16". 162' 2-7/8" is 162.2396 ft: 49.451 m."""
    told = tell(
        place, "amend", "ld-5", "crown=47.906 m", "ground=162' 2-7/8\"", "how=staff, twice",
        "--because", "read again", *WHO,
    )  # fmt: skip
    now, _, before = told.partition("in place of what was said:\n")
    assert "level: crown 47.906 m = 47.906 m (157' 2 1/16\")" in now and "= 49.451 m" in now
    assert "ld-5: station AIR-IN/2" in before and "level: invert 47.906 m" in before
    assert "how: staff" in before and "station:" not in before


def test_what_is_withdrawn_is_read_back_in_both_units(place: str) -> None:
    """47.850 m / 0.3048 is 156.988 ft, and 0.988 ft is 11 7/8 in."""
    told = tell(place, "withdraw", "ld-4", "--because", "the other pipe", *WHO)
    assert "ld-7: withdrawn" in told and "(156' 11 7/8\")" in told.partition("in place of")[2]


def test_tags_with_commas_are_mended_whole(place: str) -> None:
    with Log.open(Path(place)) as log:
        post_text(log, sheet("## covering FILL\n\n- hides: AIR-IN", part="fill"))
    told = tell(place, "amend", "ld-7", "hides=AIR-IN, FILL", "--because", "both", *WHO)
    assert "hides: AIR-IN, FILL" in told


def test_entries_that_disagree_are_both_shown_as_they_were(place: str) -> None:
    tell(place, "amend", "ld-5", "crown=47.906 m", "--because", "crown", *WHO)
    tell(place, "amend", "ld-5", "crown=47.911 m", "--because", "crown", "--writer", "ck")
    told = tell(place, "amend", "ld-7, ck-1", "crown=47.908 m", "--because", "shot by both", *WHO)
    assert "ld-7: station" in told and "ck-1: station" in told
    assert [one[1] for one in level(place, "2")] == ["47.908"]
