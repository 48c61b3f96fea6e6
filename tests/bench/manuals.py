"""A whole edition against WeasyPrint alone on the same page: time of the processor, and memory.

Each is a process of its own, so that the memory of one is not told as the other's. The record is
the demo's, or a site of many panels and photographs; the next edition comes after one new entry.

    python -m tests.bench.manuals own RECORD | page RECORD FILE | floor FILE
"""

from __future__ import annotations

import json
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

from record.log import Log
from tests.bench.day import NOW

FACES = (("left", 6.00), ("right", 6.00), ("near", 2.40), ("far", 2.40))
PANEL_M, HIGH_M = 0.60, 1.10
SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth
- grid: x east, y north
- builder: the crew's office
- emergency number: 911
- people: 4
"""
HULL = """
## hull H-{n}

- name: hull {n}
- inside length: 6.00 m
- inside width: 2.40 m
- inside height: 2.20 m
- steel thickness: 6 mm
- x: {x}.00 m
- y: 10.00 m
- floor level: 46.00 m
- bearing: 270°
- how: staff and level
"""
PANEL = """
## panel P-{n}

- hull: H-{hull}
- face: {face}
- {edge}: {at:.2f} m
- bottom: {bottom:.2f} m
- width: 0.60 m
- height: 1.10 m
- fixings: 4 screws
- thickness: 12 mm
- packing thickness: 25 mm
"""
FRAME = """
## fit-out FO-{n}

- what: bracket behind P-{n}
- hull: H-{hull}
- from near: {at:.2f} m
- from left: 0.00 m
- bottom: {bottom:.2f} m
- along: 0.20 m
- across: 0.03 m
- height: 0.20 m
"""
PHOTO = """
## photographed P-{n}

![close, looking east, board P-{n} before it was closed, all of it in one, rule in view, \
shows P-{n}](photos/{n}.jpg)
"""


def panelled(place: Path, *, panels: int = 300, photos: int = 60) -> Path:
    """Record a site of panels, a bracket behind one in three, and photographs of the first."""
    from record.posting import post, seeded_salt, stopped_clock

    (place / "photos").mkdir(parents=True)
    for n in range(1, photos + 1):
        _photo(n, place / "photos" / f"{n}.jpg")
    blocks = [*_panels(panels), *(PHOTO.format(n=n) for n in range(1, photos + 1))]
    text = "\n\n".join(("# 2031-05-14 ld", "- site: fern-bank", SITE, *blocks)) + "\n"
    with Log.make(place / "record") as log:
        clock, salt = stopped_clock(NOW), seeded_salt("bench")
        post(log, "day.md", text.encode(), folder=place, clock=clock, salt=salt)
    return place / "record"


def _panels(count: int) -> Iterator[str]:
    spots = [
        (face, column * PANEL_M, row * HIGH_M)
        for face, wide in FACES
        for column in range(int(wide / PANEL_M))
        for row in range(2)
    ]
    for n in range(1, count + 1):
        hull, spot = divmod(n - 1, len(spots))
        face, at, up = spots[spot]
        if spot == 0:
            yield HULL.format(n=hull + 1, x=10 * (hull + 1))
        edge = "from near" if face in ("left", "right") else "from left"
        told = {"n": n, "hull": hull + 1, "at": at, "bottom": 46.0 + up}
        yield PANEL.format(face=face, edge=edge, **told)
        if n % 3 == 0 and face == "left":
            yield FRAME.format(**told)


def _photo(n: int, path: Path) -> None:
    """Write a photograph as a camera would: 8 million points, none like its neighbour."""
    from PIL import Image

    grain = Image.effect_noise((816, 612), 40 + n).resize((3264, 2448))
    Image.merge("RGB", (grain, grain.rotate(180), grain)).save(path, "JPEG", quality=85)


def own(record: Path) -> None:
    from manual.build import build
    from manual.issue import kept_photos
    from manual.plans.reuse import shelf_of

    with Log.open(record) as log, shelf_of(log):
        build(log.entries(), kept=kept_photos(log))


def page(record: Path, file: Path) -> None:
    """Write the page that the press gets, for the floor to lay out."""
    from manual import theme
    from manual.build import bind, draw, whole_manual, write
    from manual.issue import kept_photos

    with Log.open(record) as log:
        book = bind(log.entries(), "owner", kept_photos(log))
        title, whole = whole_manual(book, draw(book, write(book)))
    file.write_text(theme.page(whole, title=title, lang="en"), encoding="utf-8")


def floor(file: Path) -> None:
    from tests.bench.floors import weasyprint_alone

    weasyprint_alone(file.read_text(encoding="utf-8"), datetime.now(UTC))


def manuals(place: Path, record: Path, name: str, times: int = 3) -> Iterator[str]:
    """Yield rows: a first edition, its memory, and the next edition after one new entry."""
    paper = place / "page.html"
    cache = record / "manual.cache"

    def first() -> tuple[float, float]:
        cache.unlink(missing_ok=True)
        return _measured("own", record)

    _run("page", record, paper)
    yield from _rows(name, first, lambda: _measured("floor", paper), times)
    enter(record)
    _run("page", record, paper)
    again, *_ = _rows(
        f"{name}, the next",
        lambda: _measured("own", record),
        lambda: _measured("floor", paper),
        times,
        "1.05",
    )
    yield again


def enter(record: Path) -> None:
    """Record one more thing."""
    from record.posting import post, seeded_salt, stopped_clock

    with Log.open(record) as log:
        site = log.entries()[0].link.site
        said = f"# 2031-06-02 ow\n\n- site: {site}\n\n## remark\n\nThe lamp was cleaned.\n"
        post(
            log,
            "more.md",
            said.encode(),
            folder=None,
            clock=stopped_clock(datetime(2031, 6, 2, 12, tzinfo=UTC)),
            salt=seeded_salt("bench"),
        )


def _rows(
    name: str,
    own: Callable[[], tuple[float, float]],
    floor: Callable[[], tuple[float, float]],
    times: int,
    aim: str = "1.15",
) -> Iterator[str]:
    pairs = [(own(), floor()) for _ in range(times)]
    for what, unit, at, most in (("time", "s", 0, aim), ("memory", "MB", 1, "1.2")):
        ratios = sorted(a[at] / b[at] for a, b in pairs)
        yield (
            f"manual, {name}, {what}".ljust(34)
            + f" {statistics.median(a[at] for a, _ in pairs):8.1f} {unit}"
            + f" {statistics.median(b[at] for _, b in pairs):8.1f} {unit}"
            + f"   {statistics.median(ratios):5.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})   {most}"
        )


def _measured(*words: object) -> tuple[float, float]:
    """Return seconds of the processor and megabytes at the peak, of a process of its own."""
    told = json.loads(_run(*words))
    return float(told["s"]), float(told["MB"])


def _run(*words: object) -> str:
    command = [sys.executable, "-m", "tests.bench.manuals", *map(str, words)]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def main(what: str, *places: str) -> None:
    start = time.process_time()
    {"own": own, "page": page, "floor": floor}[what](*map(Path, places))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"s": time.process_time() - start, "MB": peak}))


if __name__ == "__main__":
    main(*sys.argv[1:])
