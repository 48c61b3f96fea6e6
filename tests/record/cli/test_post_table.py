"""asburied post of a .csv file, through the program itself."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from record.log import Log
from tests.record.cli.test_every_command import Told, here
from tests.record.records import SITE, post_text, sheet

__all__ = ["here"]

ROWS = "station,x [m],crown [m],how,SD\n1 foot,27.00,48.006,staff,2\n2 bend,24.00,47.906,staff,3\n"
BARE = ("--day", "2031-05-14", "--writer", "ld", "--about", "run AIR-IN", "--leave-out", "sd")


@pytest.fixture
def place(tmp_path: Path) -> Path:
    with Log.make(tmp_path / "r") as log:
        post_text(log, SITE)
        post_text(log, sheet("## run AIR-IN\n\n- size: 6 in"))
    (tmp_path / "stations.csv").write_text(ROWS, encoding="utf-8")
    return tmp_path


def told(here: Callable[..., Told], place: Path, *words: str) -> Told:
    return here("--record", str(place / "r"), "post", *words)


def test_an_instruments_export_is_posted_once_and_its_bytes_are_kept(
    here: Callable[..., Told], place: Path
):
    path = str(place / "stations.csv")
    status, out, errors = told(here, place, path, *BARE)
    assert (status, errors) == (0, "") and "3 entries, ld-5 to ld-7" in out
    assert "nothing new" in told(here, place, path, *BARE)[1]
    [kept] = (place / "r" / "sheets").glob("*.csv")
    assert kept.read_text(encoding="utf-8") == ROWS
    status, out, _ = here("--record", str(place / "r"), "verify")
    assert status == 0


def test_the_days_own_sheet_is_not_said_to_have_lost_its_lines(
    here: Callable[..., Told], place: Path
):
    assert "no longer in the sheet" not in told(here, place, str(place / "stations.csv"), *BARE)[1]


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        ([], 1, "nothing says what this table is of"),
        (["--day", "2031-05-14"], 2, "needs --writer and --about too"),
        (["--part", "b"], 2, "needs --day and --writer and --about too"),
        ([*BARE[:-1], "nosuch"], 1, 'there is no column "nosuch" to leave out'),
        ([*BARE[:-2]], 1, '--leave-out "SD"'),
        ([*BARE, "sheet.md"], 2, "are of tables (.csv) only"),
    ],
)
def test_a_table_that_is_half_told_is_refused_in_words(
    here: Callable[..., Told], place: Path, words: list[str], status: int, says: str
):
    done, out, errors = told(here, place, str(place / "stations.csv"), *words)
    assert (done, out) == (status, "") and says in errors
