"""What only geometry shows: the words to write instead are taken."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from record.log import Log
from record.sheets import SheetRejected
from tests.record.records import post_text
from tests.record.sheets.catalogue import ERRORS, begun


def refused(log: Log, text: str) -> str:
    with pytest.raises(SheetRejected) as caught:
        post_text(log, text)
    (fault,) = caught.value.faults
    return fault.remedy


def test_a_bottom_taken_from_the_floor_is_told_as_the_level_to_write(tmp_path: Path):
    """The floor is at 46.20 m and 2 in = 50.8 mm, so 46.251 m."""
    text = (ERRORS / "panel-bottom-above-the-floor.md").read_text(encoding="utf-8")
    with begun(tmp_path / "r") as log:
        told = re.search(r'write "(- bottom: [^"]*)"', refused(log, text))
        assert told is not None and told[1] == "- bottom: 46.251 m"
        post_text(log, text.replace("- bottom: 2 in", told[1]))


def test_a_bottom_that_fits_nowhere_is_not_taken_for_a_height(tmp_path: Path):
    text = (ERRORS / "panel-bottom-above-the-floor.md").read_text(encoding="utf-8")
    with begun(tmp_path / "r") as log:
        assert "check the edge" in refused(log, text.replace("- bottom: 2 in", "- bottom: 1.00 m"))
