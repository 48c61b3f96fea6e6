"""A recall over a fleet of generated sites, in folders and in one PostgreSQL database.

    python -m tests.bench.recalls [SITES [ENTRIES]]     2000 2500 is five million lines

The first asking reads every record; what is counted is the second, which reads none. One site in
forty has the lot among its valves; every valve of every other site is ruled out one by one.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from record.entry import read
from record.log import Log, Office, Place
from record.recall import Recall, recall
from record.recall.many import asked_of, records_in
from tests.bench.made import Site
from tests.office import running

RECEIVED = "2031-06-01T12:00:00Z"
LOT = "V-7"
TIMES = 5


class Lotted(Site):
    """A site whose valves say their lot: of forty lots one is called back.

    Each site has some hundred lots that no other has.
    """

    def _said(self) -> tuple[str, str, dict[str, object], list[dict[str, object]]]:
        kind, about, body, mends = super()._said()
        number = int(self.site.rpartition("-")[2])
        if kind == "valve" and "type" in body:
            body = {**body, "lot": f"V-{number % 40}, S-{number}-{self.count}"}
        elif kind == "coat-applied":
            body = {**body, "lot": f"T-{number}-{self.count % 97}"}
        return kind, about, body, mends


def fill(places: Iterator[tuple[str, Place]], entries: int) -> None:
    for site, place in places:
        lines = Lotted(site, int(site.rpartition("-")[2])).entries(entries)
        with Log.make(place) as log, log.writing() as writing:
            writing.append([read(link, content) for _, link, content in lines], received=RECEIVED)
        if isinstance(place, Path):
            database = place / "record.sqlite"
            then = time.time_ns() - 10**10  # as a fleet lies there: written a while ago
            os.utime(database, ns=(then, then))


def ask(at: Place) -> tuple[Recall, float]:
    start = time.perf_counter()
    answer = asked_of(
        at, records_in(at), lambda sites, faults: recall(sites, LOT, not_read=faults, every=False)
    )
    return answer, time.perf_counter() - start


def measure(name: str, at: Place, sites: int, entries: int) -> str:
    first, cold = ask(at)
    warm = []
    for _ in range(TIMES):
        again, took = ask(at)
        assert again == first
        warm.append(took)
    assert {each.site for each in first.has_it} == {f"site-{n}" for n in range(7, sites, 40)}
    return (
        f"recall, {name}, {sites} sites of {entries}: first {cold:.1f} s, then "
        f"{statistics.median(warm):.3f} s ({min(warm):.3f} to {max(warm):.3f}); "
        f"{len(first.has_it)} have it, {sum(first.ruled_out_at.values())} ruled out"
    )


def in_folders(place: Path, sites: int, entries: int) -> str:
    fill(((f"site-{n}", place / f"site-{n}") for n in range(sites)), entries)
    return measure("SQLite", place, sites, entries)


def in_office(url: str, sites: int, entries: int) -> str:
    at = Office(url)
    fill(((f"site-{n}", at.of(f"site-{n}")) for n in range(sites)), entries)
    return measure("PostgreSQL", at, sites, entries)


def main(sites: int = 80, entries: int = 500) -> Iterator[str]:
    """Yield a row for each database."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_CACHE_HOME"] = str(Path(folder) / "cache")
        os.environ["XDG_STATE_HOME"] = str(Path(folder) / "state")
        (Path(folder) / "sites").mkdir()
        yield in_folders(Path(folder) / "sites", sites, entries)
        with running() as server:
            os.environ["PGPASSFILE"] = str(server.password_file)
            yield in_office(server.url(server.database()), sites, entries)


if __name__ == "__main__":
    for row in main(*map(int, sys.argv[1:])):
        print(row, flush=True)
