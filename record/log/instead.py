"""A folder that is not a record: what it is, and what to type instead."""

from __future__ import annotations

from pathlib import Path

from record.log.faults import NotARecord
from record.log.folder import DATABASE, SEALED_DATABASE

BAG, LINES = "bagit.txt", "links.jsonl"
SHOWN = 3  # records beside it that are named
MAKE = "Make one with `asburied --record FOLDER init`."


def not_a_record(path: Path, database: Path) -> NotARecord:
    """Return the fault for a folder, or a file, in which no record is."""
    if bag := _bag(path):
        return NotARecord(
            f"{path} is not a record: it is a copy that was packed",
            f"Restore it into a new folder: `asburied --record NEW unpack {bag}`; or take it into "
            f"a record that is there: `asburied --record RECORD merge {bag / 'data'}`.",
        )
    if path.is_file():
        return NotARecord(
            f"{path} is not a record: it is a file",
            f"If it is a packed copy, `asburied --record NEW unpack {path}` restores it.",
        )
    if not path.exists():
        return NotARecord(f"{path} is not a record: there is no such folder", MAKE)
    fault = f"{path} is not a record: it has no {database.name}"
    near = _records_in(path)
    if near:
        more = " or ".join(f"`asburied --record {one}`" for one in near)
        return NotARecord(fault, f"One is in it: {more}; or set $ASBURIED_RECORD to it.")
    return NotARecord(fault, MAKE)


def _bag(path: Path) -> Path | None:
    """Return the bag that a folder is, or is the data of."""
    if (path / BAG).is_file():
        return path
    if (path / LINES).is_file():
        return path.parent if (path.parent / BAG).is_file() else path
    return None


def _records_in(path: Path) -> list[Path]:
    found = {
        database.parent if name == DATABASE else database.parent.parent
        for name, pattern in ((DATABASE, f"*/{DATABASE}"), ("", f"*/*/{SEALED_DATABASE}"))
        for database in path.glob(pattern)
    }
    return sorted(found)[:SHOWN]
