"""asburied release and waive: two people, by name, through the program itself."""

from __future__ import annotations

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


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("release", "FILL", "--by", "ld", "--second", "ld"), 2, "cannot be their own second"),
        (("release", "FIL", "--by", "ld", "--second", "ck"), 1, "did you mean FILL?"),
        (
            ("waive", "FILL", "phtos", "AIR-IN", "--by", "a", "--second", "b", "--reason", "x"),
            2,
            "is no rule",
        ),
    ],
)
def test_what_lets_nobody_answer_is_refused(
    here: Callable[..., Told], place: str, words: tuple[str, ...], status: int, said: str
):
    found, out, errors = here("--record", place, *words)
    assert (found, out) == (status, "") and said in errors
