"""Bags and folders that somebody made to do harm: refused in words, soon, with little memory.

Tar members as POSIX.1-2001 (pax) and the GNU manual ("Basic Tar Format") lay them out.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import tarfile
from contextlib import closing
from pathlib import Path

import pytest

from record.archive.check import BadBag, held
from record.archive.untar import TarBag
from record.log import Log
from tests.record.hostile.child import told
from tests.record.records import post_text, sheet

TERABYTE = 1 << 40


def head(name: str, size: int = 0, sort: bytes = b"0", **raw: bytes) -> bytes:
    """Return a tar's header block; ``raw`` puts bytes at offsets, such as at124=…"""
    member = tarfile.TarInfo(name)
    member.size, member.type = size, sort
    block = bytearray(member.tobuf(tarfile.GNU_FORMAT))
    for place, data in raw.items():
        at = int(place.removeprefix("at"))
        block[at : at + len(data)] = data
    block[148:156] = b" " * 8
    block[148:156] = b"%06o\0 " % sum(block[:512])
    return bytes(block)


def in_256(number: int) -> bytes:
    """Return a number as GNU tar writes one that octal digits cannot hold."""
    return bytes([0x80 if number >= 0 else 0xFF]) + (number % (1 << 88)).to_bytes(11, "big")


def pax(*records: tuple[str, str], data: bytes = b"") -> bytes:
    body = b""
    for key, value in records:
        said = f" {key}={value}\n".encode()
        long = len(said) + len(str(len(said) + 3))
        body += str(long).encode() + said
    first = head("pax", len(body), b"x") + body + bytes(-len(body) % 512)
    return first + head("bag/s", len(data)) + data


END = bytes(1024)
TARS = {
    "a sparse file of a terabyte": head("bag/s", 0, b"S", at386=b"0" * 11, at483=in_256(TERABYTE)),
    "a sparse file as pax has it": pax(
        ("GNU.sparse.major", "1"), ("GNU.sparse.minor", "0"), ("GNU.sparse.name", "bag/s"),
        ("GNU.sparse.realsize", str(TERABYTE)), data=b"1\n0\n0\n".ljust(512, b"\0"),
    ),
    "an older sparse file as pax has it": pax(
        ("GNU.sparse.size", str(TERABYTE)), ("GNU.sparse.numblocks", "1"), ("GNU.sparse.map", "0,0")
    ),
    "a name of a terabyte": head("././@LongLink", 0, b"L", at124=in_256(TERABYTE)),
    "a pax header of a terabyte": head("pax", 0, b"x", at124=in_256(TERABYTE)),
    "a pax header that goes backwards": head("pax", 0, b"x", at124=in_256(-512)),
    "a file that is longer than the tar": head("bag/x", 0, at124=in_256(TERABYTE)),
    "a file that goes backwards": head("bag/x", 0, at124=in_256(-512)),
    "a folder that goes backwards": head("bag/x", 0, b"5", at124=in_256(-512)),
    "a file of a lesser size": pax(("size", "-1024")),
    "a way out of the folder": head("bag/../../out", 1) + b"x".ljust(512, b"\0"),
    "a way from the root": head("/tmp/out", 1) + b"x".ljust(512, b"\0"),
    "a link": head("bag/x", 0, b"2"),
    "a hard link": head("bag/x", 0, b"1"),
    "a pipe": head("bag/x", 0, b"6"),
    "a device": head("bag/x", 0, b"3"),
    "a name with a line feed and an escape": head("bag/\x1b[2J\nx", 1) + b"x".ljust(512, b"\0"),
    "nothing": b"",
}  # fmt: skip


def test_a_tar_made_to_do_harm_is_refused_in_words_and_leaves_nothing(tmp_path: Path):
    paths = [tmp_path / f"bag{place}.tar" for place in range(len(TARS))]
    for path, data in zip(paths, TARS.values(), strict=True):
        path.write_bytes(data + END)
    words = [("--record", tmp_path / f"new{n}", "unpack", p) for n, p in enumerate(paths)]
    for what, path, (status, said) in zip(TARS, paths, told(tmp_path, *words), strict=True):
        assert status in (1, 2) and str(path) in said and "\x1b" not in said, (what, said)
    left = {each for each in tmp_path.iterdir() if each.name != ".local"}
    assert left == set(paths)


@pytest.mark.parametrize("what", TARS)
def test_nor_is_one_taken_that_is_read_where_it_lies(tmp_path: Path, what: str):
    """As `unpack --sealed` reads it, from the disk and from memory, within little memory."""
    path = tmp_path / "bag.tar"
    path.write_bytes(TARS[what] + END)
    for data in (None, TARS[what] + END):
        with pytest.raises(BadBag, match=r"bag\.tar") as fault, closing(TarBag(path, data)) as bag:
            held(bag)
        assert "\x1b" not in str(fault.value)
    assert [*tmp_path.iterdir()] == [path]


@pytest.fixture
def other(folder: Path, log: Log, tmp_path: Path) -> Path:
    """A copy of a record, with one sheet more."""
    log.close()
    shutil.copytree(folder, tmp_path / "other")
    with Log.open(tmp_path / "other") as there:
        post_text(there, sheet("## remark\n\nA stone.", writer="ck"))
    return tmp_path / "other"


def test_pipes_and_devices_in_a_folder_that_is_merged_hold_nobody(
    folder: Path, other: Path, tmp_path: Path
):
    known = {each.name for each in (folder / "sheets").iterdir()}
    (kept,) = [each for each in (other / "sheets").iterdir() if each.name not in known]
    for make in (os.mkfifo, lambda at: at.symlink_to("/dev/zero")):
        kept.unlink()
        make(kept)
        ((status, said),) = told(tmp_path, ("--record", folder, "merge", other))
        assert status == 1 and str(kept) in said and "nothing was merged" in said


def test_pipes_in_a_folder_of_lines_hold_nobody(folder: Path, log: Log, tmp_path: Path):
    log.close()
    merge = ("--record", folder, "merge")
    told(tmp_path, ("--record", folder, "pack", tmp_path / "bag"))
    lines = tmp_path / "bag" / "data"
    names = ("links.jsonl", "contents.jsonl", "checkpoint.txt")
    for name in names:
        shutil.copytree(lines, tmp_path / f"of-{name}")
        (tmp_path / f"of-{name}" / name).unlink()
        os.mkfifo(tmp_path / f"of-{name}" / name)
    answers = told(
        tmp_path, (*merge, lines), *((*merge, tmp_path / f"of-{name}") for name in names)
    )
    assert answers[0] == (0, "")
    for name, (status, said) in zip(names, answers[1:], strict=True):
        assert status in (1, 2) and f"of-{name}" in said, said


TABLES = {
    "a view that never ends": (
        "DROP TABLE links",
        "CREATE VIEW links AS WITH RECURSIVE r(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM r) "
        "SELECT x AS hash, 'a' AS site, 'b' AS writer, x AS seq, 'c' AS content, 'd' AS received, "
        "x'00' AS line FROM r",
    ),
    "a worked column of a gigabyte": (
        "DROP TABLE contents",
        "CREATE TABLE contents (hash, kind, about, line GENERATED ALWAYS AS (zeroblob(900000000)))",
        "INSERT INTO contents (hash) SELECT content FROM links",
    ),
    "lines that are not there": (
        "CREATE TABLE l AS SELECT * FROM links", "DROP TABLE links",
        "ALTER TABLE l RENAME TO links",
        "UPDATE links SET line = NULL, hash = NULL",
    ),
    "a line of 300 MB": ("UPDATE links SET line = zeroblob(300000000)",),
    "a line that is a number": ("UPDATE links SET line = 20000000000",),
    "a line that is words": ("UPDATE links SET line = 'words'",),
    "a hash that is no text": ("UPDATE links SET hash = CAST(x'ff' AS TEXT) || rowid",),
    "other columns": ("DROP TABLE links", "CREATE TABLE links (a)"),
    "a version that is no text": ("UPDATE alembic_version SET version_num = x'ff'",),
}  # fmt: skip


def test_a_database_made_to_do_harm_is_refused_in_words(folder: Path, other: Path, tmp_path: Path):
    commands: list[tuple[str | Path, ...]] = []
    for place, statements in enumerate(TABLES.values()):
        copy = tmp_path / f"copy{place}"
        shutil.copytree(other, copy)
        _changed(copy / "record.sqlite", statements)
        commands += [("--record", folder, "merge", copy), ("--record", copy, "verify")]
    answers = told(tmp_path, *commands, ("--record", folder, "verify"))
    for what, (status, said), (found, _) in zip(TABLES, answers[::2], answers[1::2], strict=False):
        assert status in (1, 2) and str(tmp_path / "copy") in said, (what, said)
        assert found in (1, 2), what
    assert answers[-1] == (0, "")


def _changed(path: Path, statements: tuple[str, ...]) -> None:
    database = sqlite3.connect(path, isolation_level=None)
    named = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
    for (name,) in database.execute(named).fetchall():
        database.execute(f"DROP TRIGGER {name}")
    for sql in statements:
        database.execute(sql)
    database.close()
