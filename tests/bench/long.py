"""Long records and a fleet: folding against decoding, and opening a record again.

There are two floors, of the same lines in memory: decoding them into typed, frozen values with
msgspec and nothing else ("bare"), and reading them as the record does ("read": checked to the
letter, hashed, into its own values). Each row names what its own side does, beside both.
"""

from __future__ import annotations

import gc
import os
import statistics
import subprocess
import sys
import time
import tracemalloc
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from record.entry import Entry, read
from record.fold import AsBuilt, fold
from record.log import Log
from tests.bench import floors
from tests.bench.made import Pair, Site, fleet, record_of

TURNS = 3
_T = TypeVar("_T")
PROGRAM = "from manual.cli import main; main()"


def read_all(pairs: Sequence[Pair]) -> list[Entry]:
    return [read(link, content) for _, link, content in pairs]


def ask_all(built: AsBuilt) -> int:
    """Ask for every thing and happening there is, so that nothing is left to be folded."""
    return sum(1 for _ in built.things.values()) + sum(1 for _ in built.happenings)


def folding(sites: Callable[[], Iterable[list[Pair]]], name: str, turns: int) -> list[str]:
    """Measure decoding, folding, folding with all asked, and reading with folding, in turns."""
    rows: list[tuple[float, ...]] = []
    count = 0
    for _ in range(turns):
        sums, count = [0.0] * 5, 0
        for pairs in sites():
            count += len(pairs)
            for place, spent in enumerate(_one(pairs)):
                sums[place] += spent
        rows.append(tuple(sums))
    told = ("fold, nothing asked yet", "fold, all of it asked", "lines read, folded, all asked")
    return [_row(f"{words}, {name}", rows, place, count) for place, words in enumerate(told, 2)]


def _one(pairs: list[Pair]) -> Iterator[float]:
    floor = _spent(lambda: floors.decode(pairs))
    reading, entries = _taken(lambda: read_all(pairs))
    folded = _spent(lambda: fold(entries))
    asked = _spent(lambda: ask_all(fold(entries)))
    yield from (floor, reading, folded, asked, reading + asked)


def _spent(work: Callable[[], object]) -> float:
    return _taken(work)[0]


def _taken(work: Callable[[], _T]) -> tuple[float, _T]:
    gc.collect()
    gc.freeze()  # what was there before is not gone through again for either side
    start = time.process_time()
    found = work()
    spent = time.process_time() - start
    gc.unfreeze()
    return spent, found


def _row(name: str, rows: Sequence[Sequence[float]], place: int, count: int) -> str:
    own = statistics.median(row[place] for row in rows)
    bare, reading = (statistics.median(row[place] / row[at] for row in rows) for at in (0, 1))
    floors_told = "/".join(
        f"{1e6 * statistics.median(r[at] for r in rows) / count:.1f}" for at in (0, 1)
    )
    return (
        f"{name:46} {own:7.2f} s {1e6 * own / count:5.1f} µs each (bare/read {floors_told})"
        f"   {bare:5.2f} × bare   {reading:5.2f} × read"
    )


def memory(count: int = 20_000) -> str:
    """Say how many bytes an entry costs: its lines, read, folded and all asked."""
    pairs = list(Site("fern-bank").entries(count))
    lines = sum(len(link) + len(content) for _, link, content in pairs) // count
    tracemalloc.start()
    entries = read_all(pairs)
    after_reading = tracemalloc.get_traced_memory()[0] // count
    built = fold(entries)
    ask_all(built)
    after_folding = tracemalloc.get_traced_memory()[0] // count
    tracemalloc.stop()
    return f"memory: lines {lines} B, read {after_reading} B, all folded {after_folding} B an entry"


def opening(place: Path, counts: Sequence[int] = (600, 10_000, 100_000)) -> Iterator[str]:
    """Time whole processes, by the processor: without an index, with it, after one new entry."""
    for count in counts:
        site = Site("fern-bank")
        record = record_of(place / f"r{count}", site, count)
        database = str(record / "record.sqlite")
        for words in (("show", "V-1"), ("behind", "P-1")):
            bare = [_run_anew(record, words) for _ in range(TURNS)]
            warm = [_run(record, words) for _ in range(TURNS)]
            after = [_run_after_one(record, site, words) for _ in range(TURNS)]
            told = "  ".join(
                f"{1000 * statistics.median(each):6.0f}" for each in (bare, warm, after)
            )
            floor = statistics.median(_process(floors.ONE, [database]) for _ in range(TURNS))
            yield f"{' '.join(words):14} {count:7} entries, CPU ms: {told}  {1000 * floor:6.0f}"


def _run(record: Path, words: Sequence[str]) -> float:
    return _process(PROGRAM, ["--record", str(record), *words])


def _process(program: str, words: Sequence[str]) -> float:
    before = os.times()
    command = [sys.executable, "-c", program, *words]
    subprocess.run(command, check=True, capture_output=True)
    after = os.times()
    spent = after.children_user + after.children_system
    return spent - before.children_user - before.children_system


def _run_anew(record: Path, words: Sequence[str]) -> float:
    (record / "index.cache").unlink(missing_ok=True)
    return _run(record, words)


def _run_after_one(record: Path, site: Site, words: Sequence[str]) -> float:
    with Log.open(record) as log, log.writing() as writing:
        new = read_all(list(site.entries(1)))
        writing.append(new, received="2031-06-01T12:00:00Z")
    return _run(record, words)


def growth(counts: Sequence[int] = (10_000, 100_000, 1_000_000)) -> Iterator[str]:
    """Read and fold records of growing length, once each: what an entry costs, and its memory."""
    gc.set_threshold(50_000)
    for count in counts:
        pairs = list(Site("fern-bank").entries(count))
        before = resident_b()
        reading, entries = _taken(lambda pairs=pairs: read_all(pairs))  # type: ignore[misc]
        folding, built = _taken(lambda entries=entries: fold(entries))  # type: ignore[misc]
        asking = _spent(lambda built=built: ask_all(built))  # type: ignore[misc]
        took = "  ".join(f"{1e6 * each / count:5.1f}" for each in (reading, folding, asking))
        kept = (resident_b() - before) // count
        yield f"{count:8} entries: read, fold, ask {took} µs each; {kept} B of memory each"
        del pairs, entries, built


def resident_b() -> int:
    """Return how much memory this process has, as Linux tells it; bytes."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE")


def main(place: Path, *, fleet_sites: int = 400, long: int = 100_000) -> Iterator[str]:
    gc.set_threshold(50_000)  # as the command line sets it
    for count in (long // 10, long):
        pairs = list(Site("fern-bank").entries(count))
        yield from folding(lambda pairs=pairs: [pairs], f"{count} entries", TURNS)  # type: ignore[misc]
        del pairs
    if fleet_sites:
        name = f"{fleet_sites} sites of 2500"
        yield from folding(lambda: fleet(fleet_sites, 2500), name, 1)
    yield memory(long // 5)
    yield f"{'':39} without an index, with it, after one new entry; floor: one entry read"
    yield from opening(place)
