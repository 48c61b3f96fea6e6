"""Who names a folder that is no record is told what it is, and what they are told to type works."""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from pathlib import Path

import pytest

from record.log import Log
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.cli.test_every_command import Told, here
from tests.record.records import post_text

__all__ = ["here"]


@pytest.fixture
def bag(here: Callable[..., Told], tmp_path: Path) -> Path:
    with Log.make(tmp_path / "fern-bank") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
    packed = tmp_path / "stick"
    assert here("--record", str(tmp_path / "fern-bank"), "pack", str(packed))[0] == 0
    return packed


def typed(words: str) -> list[list[str]]:
    return [shlex.split(each)[1:] for each in re.findall("`(asburied [^`]*)`", words)]


@pytest.mark.parametrize("within", ["", "data"])
def test_a_packed_copy_says_how_it_is_restored_or_merged(
    here: Callable[..., Told], bag: Path, tmp_path: Path, within: str
):
    """Three years later the owner has the stick, and not the folder it was packed from."""
    status, _, errors = here("--record", str(bag / within), "verify")
    assert status == 2 and "it is a copy that was packed" in errors
    unpack, merge = typed(errors)
    unpack[1], merge[1] = str(tmp_path / "new"), str(tmp_path / "fern-bank")
    assert here(*unpack)[0] == 0 and here("--record", unpack[1], "verify")[0] == 0
    status, out, _ = here(*merge)
    assert status == 0 and "Nothing new" in out


def test_a_bag_given_to_merge_says_which_folder_of_it_is_meant(
    here: Callable[..., Told], bag: Path, tmp_path: Path
):
    status, _, errors = here("--record", str(tmp_path / "fern-bank"), "merge", str(bag))
    assert status == 2 and f"merge {bag / 'data'}" in errors


def test_the_folder_above_a_record_names_the_record_in_it(
    here: Callable[..., Told], bag: Path, tmp_path: Path
):
    status, _, errors = here("--record", str(tmp_path), "verify")
    (to_record,) = typed(errors)
    assert status == 2 and to_record == ["--record", str(tmp_path / "fern-bank")]
    assert here(*to_record, "verify")[0] == 0


def test_a_folder_that_is_not_there_is_not_called_a_folder_without_a_file(
    here: Callable[..., Told], tmp_path: Path
):
    _, _, errors = here("--record", str(tmp_path / "gone"), "verify")
    assert "there is no such folder" in errors and "init`" in errors
