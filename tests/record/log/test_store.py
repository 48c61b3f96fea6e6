"""The log keeps what it was given, all of it or nothing, whatever stops it."""

from __future__ import annotations

import os
import random
import re
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from record.log import Log, LogFault, NotARecord, RecordTooNew, verify
from record.log.sites import REVISION
from tests.record.records import Tablet, post_text, sheet

PROGRAM = [sys.executable, "-c", "from manual.cli import main; main()"]
ROOT = Path(__file__).parents[3]
FIXED = {"ASBURIED_NOW": "2031-06-01T12:00:00+00:00", "PYTHONPATH": str(ROOT)}


def asburied(folder: Path, *words: str, before: str = "") -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own; ``before`` is Python run ahead of it."""
    program = [sys.executable, "-c", f"{before}\nfrom manual.cli import main; main()"]
    return subprocess.run(
        [*program, "--record", str(folder), *words],
        env={**os.environ, **FIXED},
        capture_output=True,
        text=True,
        timeout=120,
    )


def remarks(tmp_path: Path, count: int, *, writer: str, part: str, words: str = "") -> Path:
    path = tmp_path / f"{writer}-{part}.md"
    lines = "\n\n".join(f"Stone {n} of {writer} {part}. {words}" for n in range(count))
    path.write_text(sheet(f"## remark\n\n{lines}", writer=writer, part=part), encoding="utf-8")
    return path


def raw(folder: Path) -> sqlite3.Connection:
    return sqlite3.connect(folder / "record.sqlite", isolation_level=None)


@pytest.mark.parametrize("table", ["links", "contents"])
@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE {0} SET line = 'changed'",
        "UPDATE {0} SET hash = 'changed'",
        "DELETE FROM {0}",
        "INSERT OR REPLACE INTO {0} SELECT * FROM {0} LIMIT 1",
        "REPLACE INTO {0} SELECT * FROM {0} LIMIT 1",
        "INSERT OR IGNORE INTO {0} SELECT * FROM {0} LIMIT 1",
        "UPDATE OR REPLACE {0} SET hash = hash",
    ],
)
def test_the_database_refuses_to_change_the_past(log: Log, folder: Path, table: str, sql: str):
    with raw(folder) as before:
        kept = before.execute(f"SELECT * FROM {table}").fetchall()
        with pytest.raises(sqlite3.DatabaseError, match="never changed"):
            before.execute(sql.format(table))
        assert before.execute(f"SELECT * FROM {table}").fetchall() == kept


def test_an_upsert_cannot_change_the_past_either(log: Log, folder: Path):
    with raw(folder) as connection, pytest.raises(sqlite3.DatabaseError, match="never changed"):
        connection.execute(
            "INSERT INTO contents SELECT * FROM contents WHERE true LIMIT 1 "
            "ON CONFLICT (hash) DO UPDATE SET line = 'changed'"
        )


def test_what_is_written_is_flushed_to_the_disk_before_it_is_told(log: Log):
    """https://www.sqlite.org/pragma.html#pragma_synchronous: 2 is FULL; in WAL mode it flushes
    the log after every transaction, so a told entry outlives a power cut."""
    with log.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2


def test_a_record_at_rest_is_one_file(folder: Path, tmp_path: Path):
    with Log.open(folder) as log:
        post_text(log, sheet("## site fern-bank\n\n- name: F\n- datum: d\n- grid: g"))
        assert log.entries()
    names = {path.name for path in folder.iterdir()}
    assert names == {"record.sqlite", "sheets"}
    copy = tmp_path / "copy"
    copy.mkdir()
    (copy / "record.sqlite").write_bytes((folder / "record.sqlite").read_bytes())
    with Log.open(copy) as log:
        assert len(log.entries()) == 2


def test_the_lines_come_back_byte_for_byte(log: Log):
    ld = Tablet("ck")
    entries = [ld.says("remark", "fern-bank", {"text": f"“{n}” 4½″ \\ \u2028"}) for n in range(9)]
    with log.writing() as writing:
        writing.append(entries, received="2031-06-01T12:00:00Z")
    kept = [(link, content) for _, _, link, content in log.lines()]
    assert kept[: len(entries)] == [(e.link_line, e.content_line) for e in entries]


def test_an_entry_that_is_there_is_refused_and_nothing_else_of_the_batch_is_kept(log: Log):
    ck = Tablet("ck")
    first = ck.says("remark", "fern-bank", {"text": "one"})
    with log.writing() as writing:
        writing.append([first], received="2031-06-01T12:00:00Z")
    second = ck.says("remark", "fern-bank", {"text": "two"})
    with pytest.raises(LogFault, match="nothing was recorded"), log.writing() as writing:
        writing.append([second, first], received="2031-06-01T12:00:00Z")
    assert [e.number for e in log.entries() if e.link.writer == "ck"] == ["ck-1"]


def test_a_block_that_fails_leaves_no_trace(log: Log):
    before = list(log.lines())
    with pytest.raises(ZeroDivisionError), log.writing() as writing:
        entry = Tablet("ck").says("remark", "fern-bank", {"text": "x"})
        writing.append([entry], received="2031-06-01T12:00:00Z")
        raise ZeroDivisionError
    assert list(log.lines()) == before
    post_text(log, sheet("## remark\n\nStill works."))


def test_two_who_post_at_once_both_succeed_and_neither_chain_breaks(log: Log, folder: Path,
                                                                    tmp_path: Path):  # fmt: skip
    """Two writers and one writer twice, four rounds: every process waits its turn."""
    log.close()
    for turn in range(4):
        work = [
            subprocess.Popen(
                [*PROGRAM, "--record", str(folder), "post", str(path)],
                env={**os.environ, **FIXED},
                stdout=subprocess.DEVNULL,
                stderr=subprocess.PIPE,
            )
            for path in (
                remarks(tmp_path, 20, writer="ld", part=f"a{turn}"),
                remarks(tmp_path, 20, writer="ck", part=f"b{turn}"),
                remarks(tmp_path, 20, writer="ld", part=f"c{turn}"),
            )
        ]
        assert [(p.communicate()[1], p.returncode) for p in work] == [(b"", 0)] * 3
    with Log.open(folder) as log:
        verdict = verify(log.lines())
    assert verdict.sound
    assert dict(verdict.counts) == {"ck": 4 * 21, "ld": 2 + 2 * 4 * 21}


def test_a_process_killed_at_any_moment_leaves_a_whole_record(log: Log, folder: Path,
                                                             tmp_path: Path):  # fmt: skip
    """Thirty kills without warning, while one process posts sheet after sheet."""
    log.close()
    steady = (
        "import sys\nfrom datetime import UTC, datetime\nfrom pathlib import Path\n"
        "from record.log import Log\nfrom tests.record.records import post_text, sheet\n"
        "with Log.open(Path(sys.argv[1])) as log:\n"
        "    print('ready', flush=True)\n"
        "    for n in range(10_000):\n"
        "        words = '\\n\\n'.join(f'{sys.argv[2]} {n} {m}' for m in range(30))\n"
        "        post_text(log, sheet(f'## remark\\n\\n{words}', part=f'k{sys.argv[2]}-{n}'))\n"
        "        print(n, flush=True)\n"
    )
    chance = random.Random(7)
    told, long_s = 0, 0.08
    for turn in range(30):
        process = subprocess.Popen(
            [sys.executable, "-c", steady, str(folder), str(turn)],
            env={**os.environ, **FIXED},
            cwd=ROOT,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(chance.uniform(0.0, long_s))
        process.send_signal(signal.SIGKILL)
        told += len(process.stdout.read().splitlines())
        long_s = long_s if told else 1.5 * long_s  # a busy machine has told nothing yet
        process.wait()
        process.stdout.close()
    with Log.open(folder) as log:
        verdict = verify(log.lines())
        entries = log.entries()
    assert verdict.sound
    sheets = [e for e in entries if e.content and e.content.kind == "sheet-posted"]
    # Every sheet that was told is there, and no sheet is there in part.
    assert len(sheets) - 1 >= told > 0
    assert len(entries) == 2 + 31 * (len(sheets) - 1)
    assert asburied(folder, "verify").returncode == 0


FULL = (
    "import resource, signal\n"
    "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
    "resource.setrlimit(resource.RLIMIT_FSIZE, ({0}, {0}))\n"
)


@pytest.mark.parametrize("room", [0, 20_000, 65_536, 90_000, 130_000])
def test_a_full_disk_is_said_in_words_and_nothing_is_half_recorded(
    log: Log, folder: Path, tmp_path: Path, room: int
):
    """A file may not grow past ``room`` bytes: the sheet is kept or not, the database never."""
    before = list(log.lines())
    log.close()
    path = remarks(tmp_path, 200, writer="ld", part="long", words="rock " * 40)
    done = asburied(folder, "post", str(path), before=FULL.format(room))
    assert done.returncode == 1
    assert "Traceback" not in done.stderr and "fault of the program" not in done.stderr
    # Without room for SQLite's side files a record cannot even be opened.
    assert ("nothing was recorded" if room > 32_768 else "cannot be read") in done.stderr
    assert "full" in done.stderr or "large" in done.stderr.lower()
    with Log.open(folder) as log:
        assert list(log.lines()) == before
    after = asburied(folder, "post", str(path))
    assert (after.returncode, after.stderr) == (0, "")
    assert asburied(folder, "verify").returncode == 0


def test_a_folder_without_a_record_is_said_so(tmp_path: Path):
    with pytest.raises(NotARecord):
        Log.open(tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("data", [b"", b"not a database, just words" * 100, b"SQLite format 3\0"])
def test_a_file_that_is_no_database_is_said_so_and_left_alone(tmp_path: Path, data: bytes):
    (tmp_path / "record.sqlite").write_bytes(data)
    with pytest.raises(NotARecord):
        Log.open(tmp_path)
    assert (tmp_path / "record.sqlite").read_bytes() == data


def test_a_record_of_a_newer_version_is_said_so_and_left_alone(log: Log, folder: Path):
    log.close()
    with raw(folder) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    with pytest.raises(RecordTooNew, match="newer version"):
        Log.open(folder)


def test_the_newest_migration_is_the_one_this_version_reads():
    found = {}
    for path in (ROOT / "migrations" / "versions").glob("r*.py"):
        words = path.read_text(encoding="utf-8")
        revision = re.search(r'^revision = "(\w+)"', words, re.M)
        before = re.search(r'^down_revision = (?:"(\w+)"|None)', words, re.M)
        assert revision and before, path
        found[revision[1]] = before[1]
    assert found
    (newest,) = set(found) - set(found.values())
    assert newest == REVISION


def test_a_second_record_is_not_made_over_the_first(log: Log, folder: Path):
    before = list(log.lines())
    with pytest.raises(LogFault, match="already"):
        Log.make(folder)
    assert list(log.lines()) == before


def test_a_making_that_was_cut_short_can_be_done_again(tmp_path: Path):
    """Power goes while the tables are made: no half-made record stands in the way."""
    path = tmp_path / "new"
    half = "import os\nfrom record.log import file\nfile.migrate = lambda engine: os._exit(9)\n"
    assert asburied(path, "init", before=half).returncode == 9
    assert asburied(path, "init").returncode == 0
    with Log.open(path) as log:
        assert log.entries() == ()
    assert (path / "record.sqlite").stat().st_mode & 0o077 == 0


def test_a_record_can_be_made_on_a_stick_that_knows_no_links(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    def refused(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", refused)
    with Log.make(tmp_path / "new") as log:
        assert log.entries() == ()
    assert [each.name for each in (tmp_path / "new").iterdir()] == ["record.sqlite"]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs another user")
def test_a_record_on_a_disc_that_cannot_be_written_can_be_read(log: Log, folder: Path):
    """Somebody else's folder, or a stick with its lock on: read yes, write no, and said so."""
    log.close()
    for above in [*folder.parents][:-1]:
        above.chmod(above.stat().st_mode | 0o011)
    for path in [folder, *folder.rglob("*")]:
        path.chmod(0o555 if path.is_dir() else 0o444)
    program = (
        "import _strptime, os, sys\nfrom pathlib import Path\n"
        "from record.log import Log, LogFault, verify\n"
        "os.setgid(65534); os.setuid(65534)\n"
        "with Log.open(Path('.')) as log:\n"
        "    print(len(log.entries()), verify(log.lines()).sound)\n"
        "    try:\n        with log.writing() as w: w.append(log.entries(), received=str())\n"
        "    except LogFault as fault:\n        print(fault)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, **FIXED},
        cwd=folder,
        capture_output=True,
        text=True,
    )
    assert done.stderr == ""
    first, second = done.stdout.splitlines()
    assert first == "2 True"
    assert "cannot be written" in second and "nothing was recorded" in second


def test_a_damaged_file_is_said_in_words_and_reading_does_not_talk_of_recording(
    log: Log, folder: Path
):
    log.close()
    path = folder / "record.sqlite"
    data = bytearray(path.read_bytes())
    data[4096:] = bytes(len(data) - 4096)
    path.write_bytes(data)
    done = asburied(folder, "verify")
    assert done.returncode in (1, 2)
    assert "Traceback" not in done.stderr and "fault of the program" not in done.stderr
    assert "damaged" in done.stderr or "not a record" in done.stderr
    assert "nothing was recorded" not in done.stderr
