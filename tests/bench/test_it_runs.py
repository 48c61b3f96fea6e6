"""The bench runs, small; how fast is not asked here."""

from __future__ import annotations

from pathlib import Path

from tests.bench.__main__ import post
from tests.bench.day import long_sheet


def test_a_small_sheet_is_posted_and_its_floor_is_written(tmp_path: Path) -> None:
    row = post(tmp_path, lines=120, times=1)
    assert row.startswith("post, ") and "entries" in row


def test_the_long_sheet_has_about_the_lines_asked_for() -> None:
    assert 2000 <= long_sheet(2000).count("\n") <= 2080
