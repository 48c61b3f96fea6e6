"""A picture that is not there under the name a sheet gives it: one like it is offered."""

from __future__ import annotations

from pathlib import Path

import pytest

from record.log import Log
from record.sheets import SheetRejected
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.records import post_text


@pytest.mark.parametrize(
    ("there", "written", "offered"),
    [
        ("IMG_9.JPG", "IMG_9.jpg", "Did you mean IMG_9.JPG? "),
        ("photos/img_2041.jpg", "photos/IMG-2041.jpg", "Did you mean photos/img_2041.jpg? "),
        ("fan.jpg", "IMG_9.jpg", ""),
    ],
)
def test_a_picture_of_nearly_that_name_is_offered(
    tmp_path: Path, there: str, written: str, offered: str
):
    """A phone writes .JPG and a tired hand .jpg; the file system may hold them apart."""
    (tmp_path / "photos").mkdir()
    (tmp_path / there).write_bytes(b"x")
    with Log.make(tmp_path / "r") as log, pytest.raises(SheetRejected) as caught:
        words = day("2031-05-13", "ld", f"{SITE}\n\n![wide]({written})\n")
        post_text(log, words, folder=tmp_path)
    (fault,) = caught.value.faults
    assert fault.problem.startswith("there is no file")
    assert fault.remedy.startswith(f"{offered}Put the picture")
