"""The record inside the owner's PDF: its lines, and each kind once more as a table.

A convenience: the record itself is kept beside the manual, and a bag of it is what is handed on. A
reader's edition has nothing enclosed.
"""

from __future__ import annotations

from collections.abc import Sequence

from manual.languages import say
from manual.printing.pdf_finish import Attached
from record.entry import Entry
from record.facts.kind import OWNER
from record.words import english, speaking

_TYPES = {".jsonl": "application/json", ".txt": "text/plain", ".csv": "text/csv"}
_SAID = {"links.jsonl": "links", "contents.jsonl": "contents", "checkpoint.txt": "checkpoint"}


def enclosed(entries: Sequence[Entry], reader: str) -> tuple[Attached, ...]:
    """Return the files to go inside an edition for ``reader``."""
    from record.archive import plain_files

    if reader != OWNER:
        return ()
    with speaking(english()):  # data for programs, in the words it was recorded in
        files = sorted(plain_files(entries))
    return tuple(
        Attached(
            name=name.replace("/", "-"),
            media_type=_TYPES["." + name.rpartition(".")[2]],
            data=data,
            said=_said(name),
            relationship="Data" if name.startswith("csv/") else "Source",
        )
        for name, data in files
    )


def _said(name: str) -> str:
    if name in _SAID:
        return say(f"enclosed.file.{_SAID[name]}")
    return say("enclosed.table", kind=name.removeprefix("csv/").removesuffix(".csv"))
