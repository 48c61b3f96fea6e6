"""asburied blank: a day sheet to fill in, through the program itself."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from record.log import Log
from tests.record.blank.filling import kinds_with_forms
from tests.record.building import day
from tests.record.checks.ground import SITE, TRENCH
from tests.record.cli.test_every_command import Told, here
from tests.record.records import post_text

__all__ = ["here"]


@pytest.fixture
def place(tmp_path: Path) -> str:
    bare = "\n".join(line for line in TRENCH.splitlines() if not line.startswith("!["))
    with Log.make(tmp_path / "r") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        post_text(log, day("2031-05-14", "ld", bare))
    return str(tmp_path / "r")


def printed(here: Callable[..., Told], place: str, *words: str) -> str:
    status, out, errors = here("--record", place, "blank", *words)
    assert (status, errors) == (0, "")
    return out


def test_the_head_says_day_writer_and_a_part_of_its_own(here: Callable[..., Told], place: str):
    """Noon UTC of 2031-06-01 is the morning of that day in Denver; the fixture has no zone: UTC."""
    out = printed(here, place, "FILL", "--writer", "ck")
    assert out.startswith("# 2031-06-01 ck fill\n\n- site: fern-bank\n- zone: ")
    assert printed(here, place, "run", "--day", "2031-05-14").startswith("# 2031-05-14 ____ run\n")


def test_a_second_form_of_one_day_does_not_stand_in_the_way_of_the_first(
    here: Callable[..., Told], place: str
):
    with Log.open(Path(place)) as log:
        post_text(log, day("2031-05-14", "ck", "## remark\n\nDry.", part="fill"))
    out = printed(here, place, "FILL", "--writer", "ck", "--day", "2031-05-14")
    assert out.startswith("# 2031-05-14 ck fill-2\n")


def test_every_kind_with_a_form_is_listed_with_what_it_is(here: Callable[..., Told], place: str):
    """On an empty record too: who never saw the program starts here."""
    out = printed(here, place, "kinds")
    assert "\n  run: a line of pipe or conduit, from its first station to its last.\n" in out
    listed = re.findall(r"^  ([a-z-]+(?: [a-z-]+)*): ", out, re.M)
    assert sorted(listed) == sorted(kind.word for kind in kinds_with_forms())
    assert max(map(len, out.splitlines())) < 80


def test_a_things_tag_alone_gives_the_form_of_its_kind(here: Callable[..., Told], place: str):
    assert printed(here, place, "CV-1") == printed(here, place, "valve", "CV-1")
    assert printed(here, place, "Reading-Taken", "CV-1") == printed(
        here, place, "reading taken", "CV-1"
    )


def test_a_form_is_never_written_over_one_that_may_be_half_filled(
    here: Callable[..., Told], place: str, tmp_path: Path
):
    to = str(tmp_path / "today.md")
    assert "fill it in" in printed(here, place, "FILL", "--out", to)
    written = (tmp_path / "today.md").read_text(encoding="utf-8")
    assert written == printed(here, place, "FILL")
    status, _, errors = here("--record", place, "blank", "FILL", "--out", to)
    assert status == 1 and "half filled in" in errors


def test_the_first_sheet_of_an_empty_record_is_printed_and_goes_back_in(
    here: Callable[..., Told], tmp_path: Path
):
    """Who never saw the program has nothing to go by but what it prints."""
    begun, sheet = str(tmp_path / "new"), tmp_path / "first.md"
    status, out, _ = here("--record", begun, "init")
    assert status == 0 and f"--record {begun} blank site TAG" in out
    form = printed(here, begun, "site", "fern-bank", "--writer", "ld", "--day", "2031-05-14")
    asked = re.findall(r"^(?:- |<!-- )([a-z ]+): (?:_+ <!-- )?needed", form, re.M)
    assert asked == ["name", "datum", "grid"]
    read = re.sub("<!--.*?-->", "", form, flags=re.S).replace("zone: ____", "zone: America/Denver")
    fields = [f"- {key}: " for key in ("site", "zone", *asked)]
    kept = [row for row in read.splitlines() if row[:1] != "-" or row.startswith(tuple(fields))]
    sheet.write_text(re.sub("_{4,}", "not recorded", "\n".join(kept)), "utf-8")
    assert here("--record", begun, "post", str(sheet))[0] == 0


def test_on_an_empty_record_whoever_asks_is_led_to_its_first_sheet(
    here: Callable[..., Told], tmp_path: Path
):
    begun = str(tmp_path / "new")
    here("--record", begun, "init")
    for words in (["blank", "tomorrow"], ["blank", "A-L3"], ["ready"], ["due"], ["visits"]):
        status, out, errors = here("--record", begun, *words)
        assert (status, out) == (1, "") and "`asburied blank site TAG`" in errors
    assert "no entries yet" in here("--record", begun, "verify")[1]


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (["rum"], 1, "did you mean run"),
        (["FIL"], 1, "did you mean FILL"),
        (["photographed"], 1, "a picture is a line of its own"),
        (["edition issued"], 1, "the program writes that itself"),
        (["station", "AIR-IN"], 1, "`asburied blank run TAG`"),
        (["run", "CV-1"], 1, "CV-1 is a valve, not a run"),
        (["covered", "CV-1"], 1, "is said of a covering"),
        (["inspected", "CV-9"], 1, "did you mean CV-1"),
        (["pipe"], 1, 'Write "## run TAG"'),
        (["water heater"], 1, "`asburied blank kinds` lists the kinds"),
        (["run", "A IR"], 2, "is not a tag"),
        (["run", "--day", "tomorrow"], 2, "not a day"),
    ],
)
def test_what_has_no_form_is_said_in_words(
    here: Callable[..., Told], place: str, words: list[str], status: int, says: str
):
    done, out, errors = here("--record", place, "blank", *words)
    assert (done, out) == (status, "") and says in errors and "Traceback" not in errors
