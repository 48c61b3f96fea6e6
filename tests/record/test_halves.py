"""What a killed process left of a file is removed by the next that writes there, and no more."""

from __future__ import annotations

import os
import stat
import time
from pathlib import Path

import pytest

from record import halves
from record.halves import LEFT_S, half_of
from record.log import Folder
from record.log.whole import put_whole
from tests.typed import asburied

OLD_S, YOUNG_S = LEFT_S + 60, LEFT_S - 60
HEX = "0123456789ab"


@pytest.fixture(autouse=True)
def _as_a_new_process():
    halves._cleared.clear()


def left(path: Path, ago_s: float = OLD_S, *, within: bool = False) -> Path:
    """Leave a half behind, written to so long ago: a file, or a folder with a file deep in it."""
    if within:
        (path / "data").mkdir(parents=True)
        (path / "data" / "links.jsonl").write_bytes(b"secret")
    else:
        path.write_bytes(b"half")
    then = time.time() - ago_s
    for each in sorted([path, *path.rglob("*")], reverse=True):
        os.utime(each, (then, then))
    return path


def test_what_was_left_of_the_same_name_a_day_ago_is_removed(tmp_path: Path):
    old = (
        left(tmp_path / f".plan.pdf.{HEX}"),
        left(tmp_path / f".plan.pdf.{HEX[::-1]}", within=True),
    )
    put_whole(tmp_path / "plan.pdf", [b"whole"])
    assert not any(each.exists() for each in old)
    assert [each.name for each in tmp_path.iterdir()] == ["plan.pdf"]


@pytest.mark.parametrize(
    "name",
    [
        f".other.pdf.{HEX}",  # of another file: whoever writes that looks after it
        f"plan.pdf.{HEX}",
        f".plan.pdf.{HEX}0",
        f".plan.pdf.{HEX[:-1]}",
        f".plan.pdf.{HEX.upper()}",
        f".planxpdf.{HEX}",
        ".plan.pdf.swp",
        ".plan.pdf",
    ],
)
def test_what_is_not_named_just_so_stays(tmp_path: Path, name: str):
    other = left(tmp_path / name)
    put_whole(tmp_path / "plan.pdf", [b"whole"])
    assert other.exists()


def test_what_another_process_may_be_writing_still_stays(tmp_path: Path):
    young = left(tmp_path / f".plan.pdf.{HEX}", YOUNG_S)
    deep = left(tmp_path / f".plan.pdf.{HEX[::-1]}", within=True)
    (deep / "data" / "photo.jpg").write_bytes(b"just now")
    for each in (deep / "data", deep):
        os.utime(each, (0, 0))
    put_whole(tmp_path / "plan.pdf", [b"whole"])
    assert young.exists() and deep.exists()


def test_a_link_to_elsewhere_is_neither_followed_nor_removed(tmp_path: Path):
    mine = tmp_path / "mine"
    left(mine, within=True)
    link = tmp_path / f".plan.pdf.{HEX}"
    link.symlink_to(mine)
    os.utime(link, (0, 0), follow_symlinks=False)
    put_whole(tmp_path / "plan.pdf", [b"whole"])
    assert link.is_symlink() and (mine / "data" / "links.jsonl").exists()


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can give a file away")
def test_what_another_login_left_stays(tmp_path: Path):
    theirs = left(tmp_path / f".plan.pdf.{HEX}")
    os.chown(theirs, 12345, -1)
    put_whole(tmp_path / "plan.pdf", [b"whole"])
    assert theirs.exists()


def test_in_a_folder_of_kept_files_every_half_is_removed_and_a_strangers_file_stays(
    tmp_path: Path,
):
    photos = tmp_path / "photos"
    photos.mkdir()
    old = left(photos / f".{'0' * 64}.jpg.{HEX}")
    stranger = left(photos / f".holiday.jpg.{HEX}")
    Folder(tmp_path).keep("photos", b"a picture", ".png")
    assert not old.exists() and stranger.exists()


def test_they_are_looked_for_once_and_what_cannot_be_removed_stops_nobody(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    first = left(tmp_path / f".plan.pdf.{HEX}")

    def refused(_: Path) -> None:
        raise PermissionError

    monkeypatch.setattr(Path, "unlink", refused)
    half = half_of(tmp_path / "plan.pdf")
    assert first.exists() and not half.exists() and half.name.startswith(".plan.pdf.")
    monkeypatch.undo()
    half_of(tmp_path / "plan.pdf")
    assert first.exists()


def test_the_commands_that_write_clear_what_was_left_of_them(tmp_path: Path):
    """A record half made, a picture half kept, a bag half packed, one half opened, a half key."""
    sheet = tmp_path / "plan.md"
    sheet.write_text(
        "# 2031-05-01 of\n\n- site: fern-bank\n- zone: UTC\n\n## site fern-bank\n\n- name: Fern\n"
        "- datum: bolt\n- grid: x east, y north\n",
        encoding="utf-8",
    )
    record, keys = tmp_path / "r", tmp_path / "keys"
    run = ("--record", str(record))
    steps: tuple[tuple[tuple[str, ...], Path, bool], ...] = (
        ((*run, "init"), record / f".record.sqlite.{HEX}-wal", False),
        ((*run, "post", str(sheet)), record / "sheets" / f".{'0' * 64}.md.{HEX}", False),
        ((*run, "writer", "of", "--record"), keys / f".of.pem.{HEX}", False),
        ((*run, "pack", str(tmp_path / "bag")), tmp_path / f".bag.{HEX}", True),
        (
            ("--record", str(tmp_path / "again"), "unpack", str(tmp_path / "bag")),
            tmp_path / f".again.{HEX}",
            True,
        ),
    )
    for words, half, within in steps:
        half.parent.mkdir(exist_ok=True)
        left(half, within=within)
        done = asburied(*words, ASBURIED_NOW="2031-05-02T12:00:00Z", ASBURIED_CONFIG=str(keys))
        assert done.returncode == 0, done.stderr
        assert not half.exists(), words
    assert stat.S_IMODE((keys / "of.pem").stat().st_mode) == 0o600
