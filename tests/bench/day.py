"""A long day sheet, and the demo's record, to measure with."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from datetime import datetime
from pathlib import Path

from record.entry import Entry
from record.log import Log
from record.posting import post, seeded_salt, stopped_clock

ROOT = Path(__file__).parents[2]
NOW = datetime.fromisoformat("2031-06-01T12:00:00+00:00")

SITE = """# 2031-05-01 of plan

- site: fern-bank
- zone: America/Denver

## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth, 50.000 m
- grid: x east, y north
"""


def long_sheet(lines: int) -> str:
    """Return a day sheet of about ``lines`` lines: runs with stations, coats, readings."""
    head = "# 2031-05-14 ld\n\n- site: fern-bank\n- zone: America/Denver\n- did: ph\n"
    blocks = [head]
    count = head.count("\n")
    run = 0
    while count < lines:
        run += 1
        block = _run(f"R-{run}", 40) + _coats(f"R-{run}", 12)
        blocks.append(block)
        count += block.count("\n") + 1
    return "\n".join(blocks)


def _run(tag: str, stations: int) -> str:
    rows = "".join(
        f"| {n} bend | {20 + n / 2:.2f} | {6 + n / 4:.2f} | {49.8 - n / 50:.3f} ± 3 mm | staff |\n"
        for n in range(1, stations + 1)
    )
    return (
        f"\n## run {tag}\n\n- carries: condensate\n- size: 6 in\n- outside diameter: 160 mm\n"
        "- inside diameter: 152 mm\n- tracer wire: not recorded\n- freeze protection: n/a, deep\n\n"
        f"| station | x [m] | y [m] | invert [m] | how |\n|---|---|---|---|---|\n{rows}"
    )


def _coats(tag: str, coats: int) -> str:
    rows = "".join(
        f"| tar | {n} | {8 + n // 60:02d}:{n % 60:02d} | T-{n} | {14 + n % 5}.0 °C | 2.5 mm |\n"
        for n in range(1, coats + 1)
    )
    return (
        f"\n## coat applied {tag}\n\n- saw: ck\n\n"
        f"| layer | coat | started | lot | surface | film |\n|---|---|---|---|---|---|\n{rows}\n"
        "Dry all day, a light wind from the west.\n"
    )


def fresh_log(place: Path) -> Log:
    """Make a record that knows its site, ready for the long sheet."""
    shutil.rmtree(place, ignore_errors=True)
    log = Log.make(place)
    post_text(log, "site.md", SITE)
    return log


def post_text(log: Log, name: str, text: str) -> tuple[Entry, ...]:
    salt = seeded_salt("bench")
    return post(log, name, text.encode(), folder=None, clock=stopped_clock(NOW), salt=salt).recorded


def demo_record(place: Path) -> Path:
    """Build the demo in a folder, but for its manuals, and return its first record."""
    build = [sys.executable, ROOT / "demo" / "build", "--out", place, "--without-manual"]
    path = os.pathsep.join((str(Path(sys.executable).parent), os.environ.get("PATH", "")))
    subprocess.run(build, env={**os.environ, "PATH": path}, check=True, capture_output=True)
    return place / "larch-end"
