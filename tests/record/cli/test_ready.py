"""asburied ready: a covering, the evening, hand-over, and why, through the program itself."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from record.checks import HANDOVER_RULES, RULES
from record.log import Log
from tests.record.blank.test_of_covering import TRENCH_BARE
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.cli.test_every_command import Told, here
from tests.record.records import post_text

__all__ = ["here"]


@pytest.fixture
def place(tmp_path: Path) -> str:
    with Log.make(tmp_path / "r") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        post_text(log, day("2031-05-14", "ld", TRENCH_BARE))
    return str(tmp_path / "r")


def test_ready_alone_is_the_evening_of_today_where_the_site_is(
    here: Callable[..., Told], place: str
):
    status, out, errors = here("--record", place, "ready")
    assert (status, errors) == (1, "")  # planned 20 May, asked 1 June: not on yet
    assert out.startswith("fern-bank, evening of 2031-06-01. Entries of today: none.")
    assert "FILL  backfill, planned 2031-05-20, NOT ON YET: 1 stop" in out


def test_as_of_an_earlier_day_it_is_that_evening(here: Callable[..., Told], place: str):
    status, out, _ = here("--record", place, "ready", "--as-of", "2031-05-14")
    assert status == 0  # nothing goes on by the 15th
    assert "evening of 2031-05-14. Entries of today: ld" in out


def test_the_evening_and_hand_over_in_json(here: Callable[..., Told], place: str):
    _, out, _ = here("--record", place, "ready", "--json")
    assert json.loads(out)["coverings"][0]["when"] == "overdue"
    status, out, _ = here("--record", place, "ready", "handover", "--json")
    assert (status, json.loads(out)["stops"]) == (1, True)


def test_hand_over_ends_in_lines_to_sign_on(here: Callable[..., Told], place: str):
    status, out, _ = here("--record", place, "ready", "handover")
    assert status == 1
    assert out.rstrip().endswith("day ____________")


def test_why_every_rule_is_one_is_printed(here: Callable[..., Told], place: str):
    status, out, _ = here("--record", place, "ready", "--explain", "all")
    assert status == 0
    for rule in (*RULES, *HANDOVER_RULES):
        assert f"{rule.word}\n{rule.why}" in out


@pytest.mark.parametrize("words", [["ready"], ["ready", "handover"], ["blank", "tomorrow"]])
def test_of_an_empty_record_it_is_said_what_comes_first(
    here: Callable[..., Told], tmp_path: Path, words: list[str]
):
    with Log.make(tmp_path / "empty"):
        pass
    status, out, errors = here("--record", str(tmp_path / "empty"), *words)
    assert (status, out) == (1, "") and "the record is empty" in errors


def test_the_sheet_of_tomorrow_is_dated_tomorrow(here: Callable[..., Told], place: str):
    _, out, _ = here("--record", place, "blank", "tomorrow", "--writer", "ck")
    assert out.startswith("# 2031-06-02 ck tomorrow\n")
    assert "BEFORE FILL" in out
    _, out, _ = here("--record", place, "blank", "tomorrow", "--day", "2031-05-19")
    assert out.startswith("# 2031-05-19 ____ tomorrow\n") and "BEFORE FILL" not in out


def test_the_sheet_for_hand_over_asks_what_the_manual_lacks(here: Callable[..., Told], place: str):
    _, out, _ = here("--record", place, "blank", "handover")
    assert "- emergency number: ____" in out and "## way out ____" in out
