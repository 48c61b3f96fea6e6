"""Measure, and print ratios against floors taken in the same run, turn by turn.

    python -m tests.bench [post] [question] [figures] [manual] [ready] [reckon] [long]
                          [panels] [verify] [sealed] [growth]

Each row gives the median of the project's own time, of the floor's, and of the ratio taken pair
by pair, with the least and the greatest ratio. Figures move with the machine; ratios less so.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench import checking, day, floors, long, manuals, panels
from tests.bench import sealed as sealing

LINES = 2000
PROGRAM = "from manual.cli import main; main()"
#: Of the ratio; of figures, of the time itself.
AIMS = {
    "post": 3.0,
    "question": 1.5,
    "figures": "2 s",
    "reckon": 1.5,
    "ready": 3.0,
    "verify": 1.5,
    "sealed": "none",
}


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def compare(name: str, own: Callable[[], object], floor: Callable[[], object], times: int) -> str:
    """Run both in turn, and return the row that is printed."""
    own(), floor()  # a first time each, not counted
    pairs = [(seconds(own), seconds(floor)) for _ in range(times)]
    ratios = sorted(a / b for a, b in pairs)
    aim = AIMS[name.split(",")[0]]
    return (
        f"{name:34} {statistics.median(a for a, _ in pairs):8.3f} s"
        f" {statistics.median(b for _, b in pairs):8.3f} s"
        f"   {statistics.median(ratios):5.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})   {aim}"
    )


def post(place: Path, lines: int = LINES, times: int = 5) -> str:
    text = day.long_sheet(lines)
    with day.fresh_log(place / "r") as log:
        entries = day.post_text(log, "day.md", text)
    pairs = floors.bodies(entries)
    logs = iter([day.fresh_log(place / f"r{n}") for n in range(times + 1)])

    def own() -> None:
        with next(logs) as log:
            day.post_text(log, "day.md", text)

    name = f"post, {text.count(chr(10))} lines, {len(entries)} entries"
    floor = place / "floor.sqlite"
    return compare(name, own, lambda: floors.read_and_write(text, pairs, floor), times)


def process(program: str, *words: str) -> None:
    """Run a program in an interpreter of its own, to its end."""
    subprocess.run([sys.executable, "-c", program, *words], check=True, capture_output=True)


def question(record: Path, times: int = 9) -> list[str]:
    path = str(record / "record.sqlite")

    def ask(*words: str) -> Callable[[], None]:
        return lambda: process(PROGRAM, "--record", str(record), *words)

    def floor() -> None:
        process(floors.QUESTION, path)

    return [
        compare("question, show DV-1", ask("show", "DV-1"), floor, times),
        compare("question, behind A-L3", ask("behind", "A-L3"), floor, times),
    ]


def figures(record: Path, times: int = 5) -> str:
    """Time every figure of a record in one pass, as a process of its own."""
    path = str(record / "record.sqlite")
    return compare(
        "figures, every one of the demo",
        lambda: process(PROGRAM, "--record", str(record), "figures"),
        lambda: process(floors.QUESTION, path),
        times,
    )


def reckon(times: int = 9) -> list[str]:
    asked = {
        "heap": ("volume=1.519 m³", "width=2.70 m"),
        "air-drop": (
            "flow=100 m³/h",
            "length=15.20 m; 152 mm; plastic, jointed; 0.5",
            "fitting=smooth bend 90, r/d 1.5; 2",
            "altitude=1180 m",
            "temperature=10 °C",
        ),
    }
    return [
        compare(
            f"reckon, {name}",
            lambda name=name, given=given: process(PROGRAM, "reckon", name, *given),
            lambda name=name: process(floors.RECKON, name),
            times,
        )
        for name, given in asked.items()
    ]


def evening(things: int = 5000, times: int = 5) -> str:
    """A covering asked of many things in memory, against the fold alone with all of it asked."""
    from record.checks import ready
    from record.fold import fold
    from record.readers import look_at
    from tests.bench.evening import EACH, Big

    entries = long.read_all(Big("fern-bank").things(things))
    covering = f"FILL-{things // EACH // 2}"
    return compare(
        f"ready, {things} things",
        lambda: ready(look_at(fold(entries)), covering),
        lambda: long.ask_all(fold(entries)),
        times,
    )


def manual(place: Path, times: int = 3) -> Iterator[str]:
    """Yield rows of the demo's manual, and of a site of 300 panels and 60 photographs."""
    (place / "site").mkdir(parents=True)
    yield from manuals.manuals(place, day.demo_record(place / "manual"), "the demo", times)
    yield from manuals.manuals(place, manuals.panelled(place / "site"), "300 panels", times)


def main(asked: list[str]) -> None:
    print(f"{'':34} {'own':>10} {'floor':>10}   ratio (least to most)  aim")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        if not asked or "post" in asked:
            print(post(place), flush=True)
        if not asked or "question" in asked:
            print("\n".join(question(day.demo_record(place / "demo"))), flush=True)
        if not asked or "figures" in asked:
            print(figures(day.demo_record(place / "figures")), flush=True)
        if not asked or "ready" in asked:
            print(evening(), flush=True)
        if not asked or "reckon" in asked:
            print("\n".join(reckon()), flush=True)
        if not asked or "manual" in asked:
            for row in manual(place / "manuals"):
                print(row, flush=True)
        if not asked or "long" in asked:
            for row in long.main(place):
                print(row, flush=True)
        if not asked or "panels" in asked:
            for row in panels.panels():
                print(row, flush=True)
        if not asked or "verify" in asked:
            print("\n".join(checking.checking(place / "verify", compare)), flush=True)
        if not asked or "sealed" in asked:
            for row in sealing.sealed(place / "sealing", compare):
                print(row, flush=True)
        if "growth" in asked:  # some minutes: a million entries
            for row in long.growth():
                print(row, flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
