"""What it costs that a record is encrypted: the same work on one, against it on a plain record."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from record.log import Log, convert
from tests.bench import day

PROGRAM = "from manual.cli import main; main()"
WORDS = "seven dry oaks"
Compare = Callable[[str, Callable[[], object], Callable[[], object], int], str]


def sealed(
    place: Path, compare: Compare, *, lines: int = 2000, times: int = 5, record: Path | None = None
) -> Iterator[str]:
    """Yield a row for a sheet posted, in one process, and one for a question, in its own."""
    text = day.long_sheet(lines)

    def logs(words: str | None) -> Iterator[Log]:
        for number in range(times + 1):
            log = Log.make(place / f"{'sealed' if words else 'plain'}-{number}", sealed_with=words)
            day.post_text(log, "site.md", day.SITE)
            yield log

    def post(on: Iterator[Log]) -> None:
        with next(on) as log:
            day.post_text(log, "day.md", text)

    name = f"sealed, post of {text.count(chr(10))} lines"
    own, floor = iter(list(logs(WORDS))), iter(list(logs(None)))
    yield compare(name, lambda: post(own), lambda: post(floor), times)

    plain = record or day.demo_record(place / "demo")
    shutil.copytree(plain, place / "encrypted")
    convert.seal(place / "encrypted", WORDS)
    (place / "words.txt").write_text(WORDS, encoding="utf-8")
    given = {**os.environ, "ASBURIED_RECORD_PASSPHRASE_FILE": str(place / "words.txt")}

    def ask(of: Path, *words: str) -> None:
        asked = [sys.executable, "-c", PROGRAM, "--record", str(of), *words]
        subprocess.run(asked, check=True, capture_output=True, env=given)

    for words in (("entries",),) if record else (("show", "DV-1"), ("behind", "A-L3")):
        yield compare(
            f"sealed, {' '.join(words)}",
            lambda words=words: ask(place / "encrypted", *words),
            lambda words=words: ask(plain, *words),
            times,
        )
