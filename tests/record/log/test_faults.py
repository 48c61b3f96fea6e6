"""A torn journal, a clock set back, a full disk under every command that writes."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from record.fold import fold
from record.log import Log, verify
from tests.record.log.test_store import FULL, asburied
from tests.record.records import NOW, post_text, sheet

Lines = frozenset[tuple[str, bytes, bytes | None]]


def lines(log: Log) -> Lines:
    return frozenset((stored, link, content) for stored, _, link, content in log.lines())


@pytest.fixture
def torn(log: Log, folder: Path) -> Iterator[tuple[list[Lines], bytes]]:
    """Three sheets that are in the journal alone: what stood after each, and the journal."""
    log.close()
    # While somebody reads, SQLite does not fold the journal into the file.
    reader = sqlite3.connect(folder / "record.sqlite", isolation_level=None)
    reader.execute("BEGIN")
    reader.execute("SELECT count(*) FROM links").fetchone()
    stood = []
    with Log.open(folder) as log:
        stood.append(lines(log))
        for n in range(3):
            post_text(log, sheet(f"## remark\n\nStone {n}, {'rock ' * 300}.", part=f"p{n}"))
            stood.append(lines(log))
        yield stood, (folder / "record.sqlite-wal").read_bytes()
    reader.close()


def opened(folder: Path, to: Path, journal: bytes) -> Lines:
    """Return what is there where the power went and this much of the journal was on the disk."""
    to.mkdir()
    shutil.copyfile(folder / "record.sqlite", to / "record.sqlite")
    (to / "record.sqlite-wal").write_bytes(journal)
    with Log.open(to) as log:
        assert verify(log.lines()).sound
        found = lines(log)
        post_text(log, sheet("## remark\n\nThe next day.", part="next"))
        assert verify(log.lines()).sound and found < lines(log)
    return found


def test_a_torn_journal_gives_the_sheets_that_were_whole_and_no_part_of_another(
    torn: tuple[list[Lines], bytes], folder: Path, tmp_path: Path
):
    """Cut at forty places from nothing to all of it; a page and its head are 4 120 bytes."""
    stood, journal = torn
    found = [
        stood.index(opened(folder, tmp_path / f"cut{n}", journal[: len(journal) * n // 40]))
        for n in range(41)
    ]
    assert found == sorted(found) and set(found) == {0, 1, 2, 3}


def test_a_journal_with_a_byte_gone_wrong_gives_the_sheets_before_it(
    torn: tuple[list[Lines], bytes], folder: Path, tmp_path: Path
):
    stood, journal = torn
    found = []
    for n in range(1, 40):
        at = len(journal) * n // 40
        wrong = journal[:at] + bytes([journal[at] ^ 1]) + journal[at + 1 :]
        found.append(stood.index(opened(folder, tmp_path / f"wrong{n}", wrong)))
    assert found == sorted(found) and len(set(found)) > 1


def test_a_clock_that_was_set_back_changes_neither_order_nor_chain(log: Log):
    """The second sheet is recorded, by the device's clock, eleven days before the first."""
    first = sheet("## run AIR-IN\n\n- material: clay", part="a")
    second = sheet("## run AIR-IN\n\n- material: steel", day="2031-05-15", part="b")
    post_text(log, first, now=NOW)
    post_text(log, second, now=datetime(2031, 5, 21, tzinfo=UTC))
    entries = log.entries()
    stamps = [entry.link.recorded for entry in sorted(entries, key=lambda e: e.link.seq)]
    assert stamps != sorted(stamps)
    assert verify(log.lines()).sound
    assert fold(entries).things["AIR-IN"].text("material") == "steel"


def test_a_clock_set_back_before_the_day_of_the_work_is_asked_about(log: Log, folder: Path):
    path = folder.parent / "day.md"
    path.write_text(sheet("## remark\n\nStone."), encoding="utf-8")
    log.close()
    back = "import os; os.environ['ASBURIED_NOW'] = '2001-01-01T00:00:00Z'"
    done = asburied(folder, "post", str(path), before=back)
    assert done.returncode == 1 and "in the future; today is 2000-12-31" in done.stderr


@pytest.mark.parametrize(
    "words",
    [
        ("pack", "OUT"),
        ("pack", "OUT.tar"),
        ("export", "csv", "--out", "OUT"),
        ("export", "geojson", "--out", "OUT"),
        ("merge", "OTHER"),
    ],
)
def test_on_a_full_disk_nothing_is_left_that_looks_whole(
    log: Log, folder: Path, tmp_path: Path, words: tuple[str, ...]
):
    """No file may grow past 70 kB: the record can be opened, but what it says is longer."""
    long = "rock " * 30_000
    post_text(log, sheet(f"## landmark H1\n\n- what: {long}\n- x: 90.00 m\n- y: 210.00 m"))
    before = lines(log)
    log.close()
    other = tmp_path / "other"
    shutil.copytree(folder, other)
    with Log.open(other) as there:
        post_text(there, sheet(f"## remark\n\nStone {long}.", writer="ck"))
    asked = [
        word.replace("OTHER", str(other)).replace("OUT", str(tmp_path / "o")) for word in words
    ]
    done = asburied(folder, *asked, before=FULL.format(70_000))
    assert done.returncode == 1 and done.stdout == ""
    assert "Traceback" not in done.stderr and "fault of the program" not in done.stderr
    assert "nothing was" in done.stderr
    assert {path.name for path in tmp_path.iterdir()} == {"record", "other"}
    with Log.open(folder) as again:
        assert lines(again) == before
    done = asburied(folder, *asked)
    assert (done.returncode, done.stderr) == (0, "")
