"""asburied release and waive: two people, by name, through the program itself."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from pathlib import Path

import pytest

from record.checks import ready
from record.log import Log
from record.readers import look
from tests.record.blank.test_of_covering import TRENCH_BARE
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.cli.test_every_command import Told, here
from tests.record.records import post_text

__all__ = ["here"]
PHOTO = "photo wide and close before cover"


@pytest.fixture
def place(tmp_path: Path) -> str:
    with Log.make(tmp_path / "r") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        post_text(log, day("2031-05-14", "ld", TRENCH_BARE))
    return str(tmp_path / "r")


def asked(place: str):
    with Log.open(Path(place)) as log:
        return ready(look(log.entries()), "FILL")


def test_a_release_is_recorded_with_its_hour_and_says_what_still_stops(
    here: Callable[..., Told], place: str
):
    status, out, errors = here("--record", place, "release", "FILL", "--by", "ld", "--second", "ck")
    assert (status, errors) == (0, "")
    assert "STILL STOPS AIR-IN: no wide and no close photo of it" in out
    assert asked(place).stops
    with Log.open(Path(place)) as log:
        [one] = look(log.entries()).built.happened("hold released")
    assert one.at and one.words("second") == "ck"


def test_a_waiver_takes_its_finding_from_what_stops(here: Callable[..., Told], place: str):
    words = ("waive", "FILL", PHOTO, "AIR-IN", "--by", "ld", "--second", "gc", "--reason", "dark")
    status, _, errors = here("--record", place, *words)
    assert (status, errors) == (0, "")
    told = asked(place)
    assert not told.stops
    assert [one.waived.words("reason") for one in told.findings if one.waived] == ["dark"]


def test_what_ready_says_to_type_is_taken(here: Callable[..., Told], place: str):
    """Two people are still to be named, and the reason given."""
    _, out, _ = here("--record", place, "ready", "FILL")
    typed = out[out.index("  asburied waive FILL") :].replace("…", "dark")
    for name in ("ld", "ck"):
        typed = typed.replace("WRITER", name, 1)
    assert here("--record", place, *shlex.split(typed)[1:])[0] == 0
    assert len([one for one in asked(place).findings if one.waived]) == 1


def test_a_rule_is_known_by_how_it_begins_where_no_other_does(
    here: Callable[..., Told], place: str
):
    two = ("--by", "ld", "--second", "gc", "--reason", "dark")
    status, out, _ = here("--record", place, "waive", "FILL", "photo wide", "AIR-IN", *two)
    assert status == 0 and f"rule: {PHOTO}" in out
    assert here("--record", place, "waive", "FILL", "photo", "AIR-IN", *two)[0] == 2


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("release", "FILL", "--by", "ld", "--second", "ld"), 2, "cannot be their own second"),
        (("release", "FIL", "--by", "ld", "--second", "ck"), 1, "did you mean FILL?"),
        (
            ("waive", "FILL", "phtos", "AIR-IN", "--by", "a", "--second", "b", "--reason", "x"),
            2,
            '"phtos" is no rule. Did you mean "',
        ),
        (
            ("waive", "FILL", "AIR-IN", "--by", "a", "--second", "b", "--reason", "x"),
            2,
            'asburied waive FILL "RULE" AIR-IN',
        ),
    ],
)
def test_what_lets_nobody_answer_is_refused(
    here: Callable[..., Told], place: str, words: tuple[str, ...], status: int, said: str
):
    found, out, errors = here("--record", place, *words)
    assert (found, out) == (status, "") and said in errors
