"""The faults of day sheets as a crew sees them: sheets in ``errors/``, their words beside them.

``_record.md`` is what the record holds before; every other sheet is refused, and NAME.txt is
word for word what is printed. After a change of words, write them anew, then read the diff:

    python -m tests.record.sheets.catalogue
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from record.log import Log
from record.sheets import SheetRejected, Told, in_words
from tests.record.records import post_text

ERRORS = Path(__file__).parent / "errors"
SHEETS = sorted(
    path for path in ERRORS.iterdir() if path.suffix in (".md", ".csv") and path.name[0] != "_"
)


def begun(folder: Path) -> Log:
    """Return the log of a record that holds ``_record.md``."""
    log = Log.make(folder)
    post_text(log, (ERRORS / "_record.md").read_bytes(), name="_record.md")
    return log


def post_sheet(log: Log, path: Path) -> None:
    table = Told() if path.suffix == ".csv" else None
    post_text(log, path.read_bytes(), name=path.name, folder=path.parent, table=table)


def refusal(log: Log, path: Path) -> str:
    """Return what is printed when the sheet is posted; nothing if it is not refused."""
    try:
        post_sheet(log, path)
    except SheetRejected as fault:
        return "\n\n".join(in_words(each) for each in fault.faults) + "\n"
    return ""


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, begun(Path(folder) / "record") as log:
        for path in SHEETS:
            path.with_suffix(".txt").write_text(refusal(log, path), encoding="utf-8")


if __name__ == "__main__":
    main()
