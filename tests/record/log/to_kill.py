"""The commands that are killed: a place to start from, the work, and what can be seen of it."""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from PIL import Image

from record.archive import packed, unpack, write_folder, write_tar
from record.archive.write import tar_pieces
from record.log import Log, handed_over, merge, verify
from record.log.kept import missing_files
from record.posting import seeded_salt, stopped_clock
from record.readers import look
from record.secret import Words, asking
from tests.record.records import SITE, post_text, sheet

NOW = datetime(2031, 6, 1, 12, 0, tzinfo=UTC)
WORDS = "seven dry oaks"
RECEIVED = "2031-06-01T12:00:00Z"
Made = tuple[Path, Callable[[Path], None], Callable[[Path], Any]]


def day(writer: str, folder: Path) -> str:
    """Return a sheet with pictures, and draw them."""
    for n in range(2):
        Image.new("RGB", (64, 64), (n, len(writer), 9)).save(folder / f"{writer}{n}.png")
    pictures = "\n".join(f"![wide, looking east, {n}]({writer}{n}.png)" for n in range(2))
    stones = "\n\n".join(f"Stone {n} of {writer}." for n in range(12))
    return sheet(f"## remark\n\n{stones}\n\n{pictures}", writer=writer)


def record_at(place: Path) -> Path:
    place.mkdir(parents=True)
    with Log.make(place / "record") as log:
        post_text(log, SITE)
    return place


def seen(folder: Path) -> Any:
    """Return the record's lines; words where it is not sound, or a file is not there."""
    with Log.open(folder) as log:
        verdict = verify(log.lines())
        if not verdict.sound:
            return f"a record that is not sound: {verdict.faults}"
        if gone := missing_files(log.files, log.entries()):
            return f"an entry without its file: {gone}"
        return frozenset((stored, link, content) for stored, _, link, content in log.lines())


def of_record(place: Path) -> Any:
    return seen(place / "record")


def posting(place: Path) -> Made:
    record_at(place)
    text = day("ld", place)

    def work(at: Path) -> None:
        with Log.open(at / "record") as log:
            post_text(log, text, folder=at)

    return place, work, of_record


def merging(place: Path) -> Made:
    record_at(place)
    with Log.make(place / "other") as log:
        post_text(log, SITE)
        post_text(log, day("ck", place), folder=place)

    def work(at: Path) -> None:
        with Log.open(at / "record") as log:
            merge(log, [handed_over(at / "other")], received=RECEIVED)

    return place, work, of_record


def issuing(place: Path) -> Made:
    """The pages are laid out before; what is killed is the keeping and the recording."""
    from manual import issue
    from manual.build import build

    record_at(place)
    with Log.open(place / "record") as log:
        built = build(log.entries())
    issue.build = lambda *_, **__: built

    def work(at: Path) -> None:
        with Log.open(at / "record") as log:
            issue.issue(
                log,
                writer="of",
                reader="owner",
                clock=stopped_clock(NOW),
                salt=seeded_salt("fern-bank"),
                today=lambda: "2031-06-01",
                again=True,
            )

    def state(at: Path) -> Any:
        # Given twice, it issues a second edition: how many is not asked, only that each is whole.
        found = seen(at / "record")
        return found if isinstance(found, str) else len(found) > 2

    return place, work, state


def _bag(at: Path) -> Any:
    with Log.open(at / "record") as log:
        return packed(look(log.entries()), log.files)


def packing(place: Path) -> Made:
    record_at(place)
    with Log.open(place / "record") as log:
        post_text(log, day("ld", place), folder=place)

    def work(at: Path) -> None:
        if not (at / "bag").exists():
            write_folder(_bag(at).files, at / "bag")
        if not (at / "bag.tar").exists():
            write_tar(tar_pieces(_bag(at).files, "bag"), at / "bag.tar")

    def state(at: Path) -> Any:
        """What stands under its name must be whole; one of the two may be there alone."""
        found = {name: tree(at / name) for name in ("bag", "bag.tar") if (at / name).exists()}
        whole = {name: tree(wanted / name) for name in found}
        if found != whole:
            return "a bag in part"
        return len(found) == 2

    wanted = Path(f"{place}-wanted")
    wanted.mkdir()
    write_folder(_bag(place).files, wanted / "bag")
    write_tar(tar_pieces(_bag(place).files, "bag"), wanted / "bag.tar")
    return place, work, state


def unpacking(place: Path) -> Made:
    start, _, _ = packing(place)
    write_folder(_bag(place).files, place / "bag")

    def work(at: Path) -> None:
        if not (at / "again").exists():
            unpack(at / "bag", at / "again", received=RECEIVED)

    return start, work, lambda at: seen(at / "again") if (at / "again").exists() else None


def unpacking_sealed(place: Path) -> Made:
    """Into an encrypted record: at no moment does a plain word lie anywhere but in the bag."""
    asking(Words(lambda _: iter([WORDS])))
    start, _, _ = packing(place)
    write_folder(_bag(place).files, place / "bag")
    shutil.rmtree(place / "record")

    def work(at: Path) -> None:
        if not (at / "again").exists():
            unpack(at / "bag", at / "again", received=RECEIVED, sealed_with=WORDS)

    def state(at: Path) -> Any:
        for path in at.rglob("*"):
            theirs = at / "bag" in path.parents or path.suffix in (".png", ".md")
            if path.is_file() and not theirs and b"Stone" in path.read_bytes():
                return f"a plain word of it in {path.relative_to(at)}"
        return seen(at / "again") if (at / "again").exists() else None

    return start, work, state


def making(place: Path) -> Made:
    place.mkdir(parents=True)

    def work(at: Path) -> None:
        if not (at / "record" / "record.sqlite").exists():
            Log.make(at / "record").close()

    def state(at: Path) -> Any:
        made = (at / "record" / "record.sqlite").exists()
        return seen(at / "record") if made else None

    return place, work, state


def tree(path: Path) -> Any:
    files = [path] if path.is_file() else sorted(p for p in path.rglob("*") if p.is_file())
    return [(os.path.relpath(p, path), hashlib.sha256(p.read_bytes()).hexdigest()) for p in files]


COMMANDS: dict[str, Callable[[Path], Made]] = {
    "init": making,
    "post": posting,
    "merge": merging,
    "issue": issuing,
    "pack": packing,
    "unpack": unpacking,
    "unpack --sealed": unpacking_sealed,
}
