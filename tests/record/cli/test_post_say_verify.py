"""The first commands of a record, as they are typed."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from record.log import Log
from tests.record.records import SITE, sheet

ROOT = Path(__file__).parents[3]


@pytest.fixture
def record(tmp_path: Path) -> Path:
    return tmp_path / "fern-bank"


def asburied(record: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", "from manual.cli import main; main()", *words],
        env={
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "ASBURIED_RECORD": str(record),
            "ASBURIED_NOW": "2031-06-01T12:00:00Z",
            "ASBURIED_SALT_SEED": "fern-bank",
        },
        capture_output=True,
        text=True,
        cwd=record.parent,
        timeout=60,
    )


def told(record: Path, *words: str, status: int = 0) -> str:
    done = asburied(record, *words)
    assert done.returncode == status, done.stderr
    assert "Traceback" not in done.stderr
    return done.stdout + done.stderr


def test_from_an_empty_folder_to_a_checked_record(record: Path):
    assert "A record starts in" in told(record, "init")
    site, day = record.parent / "site.md", record.parent / "day.md"
    site.write_text(SITE, encoding="utf-8")
    day.write_text(sheet("## run AIR-IN\n\n- size: 6 in\n\nRock."), encoding="utf-8")
    said = told(record, "post", "site.md", "day.md")
    assert said.splitlines() == [
        "site.md: 2 entries, ld-1 to ld-2",
        "day.md: 3 entries, ld-3 to ld-5",
    ]
    assert told(record, "post", "day.md") == "day.md: already recorded, 2 entries; nothing new\n"
    verified = told(record, "verify")
    assert verified.startswith("All 5 entries match their seals: ld 5.\n")
    with Log.open(record) as log:
        head = log.entries()[-1].hash
    assert f"  ld 5 {head}" in verified.splitlines()
    assert "already" in told(record, "init", status=1)


def test_the_first_good_sheet_is_kept_though_the_second_is_refused(record: Path):
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    (record.parent / "bad.md").write_text(sheet("## wibble"), encoding="utf-8")
    said = told(record, "post", "site.md", "bad.md", status=1)
    assert "site.md: 2 entries" in said and 'bad.md:6:4: "wibble"' in said
    assert told(record, "verify").startswith("All 2 entries")


def test_a_fact_said_is_read_back_in_both_systems(record: Path):
    """6 in = 152.4 mm."""
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    told(record, "post", "site.md")
    said = told(record, "say", "run", "AIR-IN", "size=6 in", "--writer", "ck")
    assert "ck-1: run AIR-IN, 2031-06-01" in said and "6 in" in said
    assert "152" in said or "0.152" in said
    again = told(record, "say", "run", "AIR-IN", "size=6 in", "--writer", "ck")
    assert again == "already recorded as ck-1; nothing new\n"
    with Log.open(record) as log:
        entry = next(e for e in log.entries() if e.number == "ck-1")
    assert entry.content is not None and entry.content.zone == "America/Denver"


def test_a_remark_is_said_in_plain_words_of_the_site_or_of_a_thing(record: Path):
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    told(record, "post", "site.md")
    said = told(record, "say", "remark", "rained", "all night", "--writer", "ck")
    assert "remark fern-bank, 2031-06-01\n  text: rained all night" in said
    told(record, "say", "run", "AIR-IN", "size=6 in", "--writer", "ck")
    said = told(record, "say", "remark", "AIR-IN", "in", "clay", "--writer", "ck")
    assert "remark AIR-IN, 2031-06-01\n  text: in clay" in said


def test_a_second_sheet_of_a_day_is_told_so_in_three_lines_and_what_to_head_it(record: Path):
    """A line for each entry of the morning, each with how to take it back, took true ones back."""
    told(record, "init")
    rows = "".join(f"\n\n## remark\n\nNo. {n}." for n in range(9))
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    (record.parent / "am.md").write_text(sheet(rows), encoding="utf-8")
    (record.parent / "pm.md").write_text(sheet("## remark\n\nWind."), encoding="utf-8")
    told(record, "post", "site.md", "am.md")
    lines = told(record, "post", "pm.md").splitlines()
    assert len(lines) == 4
    assert lines[1].endswith("no longer in the sheet: ld-3 to ld-11. It stays.")
    title = re.search(r'head the next "(# [^"]*)"', lines[2])
    assert title is not None
    again = re.sub(r"^# .*", title[1], sheet("## remark\n\nRain."), count=1)
    (record.parent / "eve.md").write_text(again, encoding="utf-8")
    assert len(told(record, "post", "eve.md").splitlines()) == 1


def test_the_day_and_the_hour_of_what_is_said_are_read_back(record: Path):
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    told(record, "post", "site.md")
    words = ("say", "inspected", "result=pass", "at=2:15 pm", "--writer", "ck")
    for option, what in (("--day", "bed"), ("--on", "pit")):
        said = told(record, *words, f"what={what}", option, "2031-05-30")
        assert "inspected fern-bank, 2031-05-30 14:15" in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("valve", "V-1", "open"), 'write it as "type=open", or with another of type, on run'),
        (("withdrawn", "x", "y"), 'write it as "because=y"'),
        (("fan", "F-1", "type=fan"), 'Write "## equipment TAG"'),
    ],
)
def test_what_is_no_field_is_shown_as_one(record: Path, words: tuple[str, ...], says: str):
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    told(record, "post", "site.md")
    assert says in told(record, "say", *words, "--writer", "ck", status=2)


def test_verify_tells_programs_what_it_tells_people(record: Path):
    told(record, "init")
    (record.parent / "site.md").write_text(SITE, encoding="utf-8")
    told(record, "post", "site.md")
    found = json.loads(told(record, "verify", "--json"))
    assert found["sound"] is True and found["writers"] == {"ld": 2}
    assert found["checkpoint"] in told(record, "verify")
    for kept in (record / "sheets").iterdir():
        kept.write_text("changed", encoding="utf-8")
    found = json.loads(told(record, "verify", "--json", status=1))
    assert found["sound"] is False and found["files"][0]["entry"] == "ld-2"
    assert "ld-2" in told(record, "verify", status=1)
