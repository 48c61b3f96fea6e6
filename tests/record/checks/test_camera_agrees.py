"""A camera's clock against the sheet and the covering: a claim that differs is told, no more."""

from __future__ import annotations

import pytest

from record.checks import camera_agrees, ready
from record.entry import Entry
from record.readers import look
from tests.record.building import day, entries_of
from tests.record.checks.ground import COVERED, SITE, TRENCH
from tests.record.records import Tablet


def claiming(time: str, *later: str) -> tuple[Entry, ...]:
    """Return the trench's entries with one photo more, whose camera claims a time."""
    entries = entries_of(day("2031-05-13", "ld", SITE), day("2031-05-14", "ld", TRENCH, *later))
    camera = Tablet("cam")
    body = {
        "file": "x.jpg", "sha256": "0" * 64, "caption": "x", "shows": ["AIR-IN"], "view": "wide",
        **({"camera_time": time} if time else {}),
    }  # fmt: skip
    return (*entries, camera.says("photographed", "AIR-IN", body, at="11:30"))


def told(time: str, *later: str) -> list[str]:
    readiness = ready(look(claiming(time, *later), "owner"), "FILL")
    found = [one for one in readiness.findings if one.rule == camera_agrees.RULE.word]
    assert not any(one.stops for one in found)
    return [one.says for one in found]


@pytest.mark.parametrize("time", ["2031:05:14 11:29:58", "2031:05:14 00:00:01 -06:00"])
def test_a_camera_that_claims_the_sheets_day_is_not_spoken_of(time: str):
    assert told(time) == []


@pytest.mark.parametrize("time", ["", "0000:00:00 00:00:00", "yesterday", "2031:13:14 11:29:58"])
def test_no_claim_and_one_that_cannot_be_read_say_nothing(time: str):
    assert told(time) == []


def test_a_camera_that_claims_another_day_is_told_which_way_it_differs():
    assert "2031-05-13 23:59, before the day of its sheet" in told("2031:05:13 23:59:59")[0]
    assert "2031-05-15 00:00, after the day of its sheet" in told("2031:05:15 00:00:00")[0]


def test_a_photo_said_to_be_from_before_cover_whose_camera_claims_later_is_told():
    """The covering of the fixture went on at 16:30."""
    assert told("2031:05:14 16:29:00", COVERED) == []
    [said] = told("2031:05:14 16:45:00", COVERED)
    assert "16:45, after AIR-IN was covered 2031-05-14 16:30" in said
