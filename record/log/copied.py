"""One record's rows and kept files in another, as they are, and the one held to the other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import Any

from record.log.faults import LogFault, said_plainly
from record.log.folder import Folder
from record.log.sealed import SealedFiles
from record.log.store import Log

TABLES = ("links", "contents")
AT_ONCE = 1000  # rows
_SCHEMA = "SELECT type, name, sql FROM sqlite_master WHERE name <> 'kept_key' ORDER BY type, name"


def copied(old: Log, new: Log) -> tuple[int, int]:
    """Write all of ``old`` into ``new``, which is empty; return how many entries and files."""
    entries = 0
    with said_plainly(f"{old.place}: nothing was changed"), new.engine.connect() as to:
        to.exec_driver_sql("BEGIN")
        for table in TABLES:
            with old.engine.connect() as of:
                rows = of.exec_driver_sql(f"SELECT * FROM {table} ORDER BY rowid")
                columns = rows.keys()
                insert = f"INSERT INTO {table} VALUES ({', '.join('?' * len(columns))})"
                for some in rows.partitions(AT_ONCE):
                    to.exec_driver_sql(insert, [tuple(row) for row in some])
                    entries += len(some) if table == "links" else 0
        to.exec_driver_sql("COMMIT")
    return entries, copy_files(files_of(old), files_of(new))


def copy_files(old: Folder | SealedFiles, new: Folder | SealedFiles) -> int:
    """Keep in ``new`` what ``old`` keeps and ``new`` lacks, whole or not; return how many."""
    count = 0
    for what, sha256, file in old.every():
        there = new.found(what, sha256)
        if there is None or (there.sha256 != sha256 and file.sha256 == sha256):
            new.put(what, sha256, file.suffix, file.data)
            count += 1
    return count


def held_to_the_old(old: Log, new: Log) -> None:
    """Raise LogFault where ``new`` does not hold just what ``old`` does."""
    with said_plainly(f"{old.place}: nothing was changed"):
        asked = (_SCHEMA, *(f"SELECT * FROM {table} ORDER BY rowid" for table in TABLES))
        same = all(
            one == other
            for question in asked
            for one, other in zip_longest(_rows(old, question), _rows(new, question))
        )
    for what, sha256, file in files_of(old).every():
        there = new.files.found(what, sha256)
        same = same and there is not None and there.sha256 in (sha256, file.sha256)
    if not same:
        raise LogFault(f"{old.place}: what was written was not what was read; nothing was changed")


def lacks(here: Log, other: Log) -> str:
    """Say what lines ``other`` holds that ``here`` lacks; nothing where there are none."""
    more = {
        table: {*_rows(other, f"SELECT hash FROM {table}")}
        - {*_rows(here, f"SELECT hash FROM {table}")}
        for table in TABLES
    }
    count = max(len(each) for each in more.values())
    return f"{count} {'entry' if count == 1 else 'entries'}" if count else ""


def _rows(log: Log, question: str) -> Iterator[tuple[Any, ...]]:
    with log.engine.connect() as connection:
        for row in connection.exec_driver_sql(question):
            yield tuple(row)


def files_of(log: Log) -> Folder | SealedFiles:
    """Return the kept files of a record in a folder."""
    if not isinstance(log.files, Folder | SealedFiles):
        raise LogFault(f"{log.place} is no folder; nothing was changed")
    return log.files
