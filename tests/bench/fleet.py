"""Many sites, filled once and kept, and a recall over them as a person types it.

    python -m tests.bench.fleet fill PLACE SITES ENTRIES
    python -m tests.bench.fleet ask PLACE

PLACE is a folder, or a database's URL (its password in the file that $PGPASSFILE names). What is
filled are real chains of hashes; the rows go past posting, in bulk, and one site in a hundred is
verified afterwards, every line and every link. What is asked is a process of its own each time,
from its start to its end: the first reads every record, if none was asked before; those after it
read what was kept.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import msgspec

from record.log import Log, Office, place_of, verify
from record.log.folder import Folder
from tests.bench.recalls import LOT, RECEIVED, Lotted

TIMES = 7
CHECKED = 100  # one site in so many
PROGRAM = "from manual.cli import main; main()"
LINKS = "hash, site, writer, seq, content, received, line"
CONTENTS = "hash, kind, about, line"


class Link(msgspec.Struct):
    site: str
    writer: str
    seq: int
    content: str


class Content(msgspec.Struct):
    kind: str
    about: str


_link, _content = (msgspec.json.Decoder(each).decode for each in (Link, Content))
Rows = tuple[list[tuple[object, ...]], list[tuple[object, ...]]]


def rows(number: int, entries: int) -> Rows:
    """Return what one site has in the two tables."""
    links: list[tuple[object, ...]] = []
    contents: list[tuple[object, ...]] = []
    for hash_, link_line, content_line in Lotted(f"site-{number}", number).entries(entries):
        link, content = _link(link_line), _content(content_line)
        own = (hash_, link.site, link.writer, link.seq, link.content, RECEIVED, link_line)
        links.append(own)
        contents.append((link.content, content.kind, content.about, content_line))
    return links, contents


def fill_folders(at: Path, sites: int, entries: int) -> None:
    at.mkdir(parents=True)
    empty = at.with_name(f"{at.name}-empty")
    Log.make(empty).close()
    for number in range(sites):
        place = at / f"site-{number}"
        shutil.copytree(empty, place)
        links, contents = rows(number, entries)
        database = sqlite3.connect(Folder(place).database)
        with database:
            database.execute("PRAGMA synchronous = OFF")
            database.executemany(f"INSERT INTO links ({LINKS}) VALUES (?,?,?,?,?,?,?)", links)
            database.executemany(f"INSERT INTO contents ({CONTENTS}) VALUES (?,?,?,?)", contents)
        database.close()


def fill_office(at: Office, sites: int, entries: int) -> None:
    import psycopg

    Log.make(at.of("site-0")).close()
    with psycopg.connect(at.url, autocommit=True) as connection:
        for number in range(sites):
            links, contents = rows(number, entries)
            with connection.transaction(), connection.cursor() as cursor:
                with cursor.copy(f"COPY links ({LINKS}) FROM STDIN") as copy:
                    for row in links:
                        copy.write_row(row)
                with cursor.copy(f"COPY contents (site, {CONTENTS}) FROM STDIN") as copy:
                    for row in contents:
                        copy.write_row((f"site-{number}", *row))


def check(at: Path | Office, sites: int, entries: int) -> None:
    """Verify some of what was filled."""
    for number in range(0, sites, CHECKED):
        site = f"site-{number}"
        with Log.open(at.of(site) if isinstance(at, Office) else at / site) as log:
            verdict = verify(log.lines())
        assert verdict.sound and sum(count for _, count in verdict.counts) == entries, verdict


def typed(at: str, lot: str = LOT) -> tuple[float, str]:
    """Return how long a recall took from the start of its process to its end, and its answer."""
    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, "--record", at, "recall", lot],
        capture_output=True,
        text=True,
        check=False,
    )
    took = time.perf_counter() - start
    if done.returncode not in (0, 1) or done.stderr:
        raise RuntimeError(done.stderr)
    return took, done.stdout


def size_gb(at: Path | Office) -> float:
    """Return how much a fleet takes on the disk, as its files, or as its database says."""
    if isinstance(at, Office):
        import psycopg

        with psycopg.connect(at.url) as connection:
            row = connection.execute("SELECT pg_database_size(current_database())").fetchone()
            assert row is not None
            return float(row[0]) / 1e9
    return sum(each.stat().st_size for each in at.rglob("*") if each.is_file()) / 1e9


def ask(at: str) -> Iterator[str]:
    """Yield what was asked first took, and then the times after it."""
    first, answer = typed(at)
    yield f"first {first:.1f} s: {' '.join(answer.splitlines()[:1])}"
    took = []
    for _ in range(TIMES):
        one, again = typed(at)
        assert again == answer
        took.append(one)
    yield f"then {statistics.median(took):.2f} s ({min(took):.2f} to {max(took):.2f})"
    yield f"{size_gb(place_of(at)):.1f} GB"


def main(what: str, at: str, *numbers: str) -> None:
    if what == "fill":
        sites, entries = map(int, numbers)
        place, start = place_of(at), time.perf_counter()
        if isinstance(place, Office):
            fill_office(place, sites, entries)
        else:
            fill_folders(place, sites, entries)
        print(f"{sites} sites of {entries} in {time.perf_counter() - start:.0f} s", flush=True)
        check(place, sites, entries)
        return
    print(f"load {os.getloadavg()[0]:.1f}", flush=True)
    for row in ask(at):
        print(row, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
