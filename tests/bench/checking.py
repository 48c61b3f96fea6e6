"""Verifying a record, against reading it and SHA-256 of every line and file, and nothing else."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Callable
from pathlib import Path

from record.log import Log, checked
from record.log.kept import missing_files
from tests.bench.made import Site, record_of

PICTURE = 2_000_000  # bytes of one; a telephone's are that and more (common practice)


def picture(digest: str) -> bytes:
    return (digest.encode() * (PICTURE // 64 + 1))[:PICTURE]


class Pictured(Site):
    """A site whose photographs, one entry in seven, have their files."""

    def __init__(self, site: str, photos: Path) -> None:
        super().__init__(site)
        self.photos = photos

    def _said(self) -> tuple[str, str, dict[str, object], list[dict[str, object]]]:
        kind, about, body, mended = super()._said()
        if kind == "photographed":
            data = picture(str(body["sha256"]))
            name = hashlib.sha256(data).hexdigest()
            (self.photos / f"{name}.jpg").write_bytes(data)
            body = {**body, "sha256": name}
        return kind, about, body, mended


def own(record: Path) -> None:
    with Log.open(record) as log:
        found = checked(log)
        if not found.verdict.sound or missing_files(log.files, found.named):
            raise AssertionError("what is timed must be sound")


def floor(record: Path) -> None:
    lines = sqlite3.connect(record / "record.sqlite")
    found = lines.execute(
        "SELECT l.line, c.line FROM links l JOIN contents c ON l.content = c.hash "
        "ORDER BY l.site, l.writer, l.seq, l.hash"
    )
    for link, content in found:
        hashlib.sha256(link).hexdigest(), hashlib.sha256(content).hexdigest()
    lines.close()
    for path in (record / "photos").iterdir():
        hashlib.sha256(path.read_bytes()).hexdigest()


def checking(
    place: Path,
    compare: Callable[[str, Callable[[], None], Callable[[], None], int], str],
    lines: int = 20_000,
    pictured: int = 700,
    times: int = 5,
) -> list[str]:
    """Return a row of lines alone, and one of a record with its pictures."""
    for name in ("lines", "pictures"):
        (place / name / "photos").mkdir(parents=True)
    bare = record_of(place / "lines", Lined("fern-bank"), lines)
    full = record_of(place / "pictures", Pictured("fern-bank", place / "pictures/photos"), pictured)
    count = len(list((full / "photos").iterdir()))
    return [
        compare(f"verify, {lines} entries alone", lambda: own(bare), lambda: floor(bare), times),
        compare(
            f"verify, {pictured}, {count} pictures", lambda: own(full), lambda: floor(full), times
        ),
    ]


class Lined(Site):
    """A site without photographs: each is a remark instead."""

    def _said(self) -> tuple[str, str, dict[str, object], list[dict[str, object]]]:
        kind, about, body, mended = super()._said()
        if kind == "photographed":
            return "remark", about, {"text": str(body["caption"])}, mended
        return kind, about, body, mended
