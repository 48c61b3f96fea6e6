"""Many records: those in a folder, each read on its own, so that one that fails stops no other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from record.entry import Entry
from record.log import Folder, Log, LogFault, NotARecord, RecordTooNew
from record.readers import View, look
from record.recall.pieces import Site, site_of

Look = Callable[[Sequence[Entry]], View]


def records_in(path: Path) -> tuple[Path, ...]:
    """
    Return the records at ``path``: itself, or those in the folders in it, by name.

    Raises NotARecord where there is none.
    """
    if Folder(path).database.exists():
        return (path,)
    found = tuple(sorted(_within(path)))
    if not found:
        raise NotARecord(f"{path} is not a record, and no folder in it is one")
    return found


def _within(path: Path) -> Iterator[Path]:
    if path.is_dir():
        yield from (each for each in path.iterdir() if Folder(each).database.is_file())


def sites_at(paths: Sequence[Path], see: Look = look) -> tuple[tuple[Site, ...], tuple[str, ...]]:
    """Return what every record says of lots, and which could not be read, and why."""
    sites: list[Site] = []
    faults: list[str] = []
    for path in paths:
        try:
            with Log.open(path) as log:
                entries = log.entries()
        except (LogFault, NotARecord, RecordTooNew) as fault:
            faults.append(f"{path.name}: {fault}")
            continue
        view = see(entries)
        if view.built.entries:
            sites.append(site_of(view))
        else:
            faults.append(f"{path.name}: nothing was recorded in it by then")
    return tuple(sites), tuple(faults)
