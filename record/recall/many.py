"""Many records: those in a folder or a database, each read on its own and what it says kept.

A record that cannot be read is named, and stops no other.
"""

from __future__ import annotations

import hashlib
import os
import stat
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from record.index.made import made_by
from record.log.faults import LogFault, NotARecord, RecordTooNew
from record.log.folder import SEALED_DATABASE, Folder
from record.log.places import Office, Place, cache_of
from record.recall.ask import Recall
from record.recall.keeping import keep
from record.recall.kept import Spoiled, forget, kept
from record.recall.kept_form import FORM, NAME
from record.recall.meaning import Asks
from record.recall.values import Site

if TYPE_CHECKING:
    from record.entry import Entry
    from record.readers import View

    Look = Callable[[Sequence[Entry]], View]
SETTLED_NS = 2_000_000_000


def records_in(place: Place) -> Mapping[str, tuple[Place, str]]:
    """
    Return the records at ``place`` by name: where each is, and the mark of its state, "" for none.

    A record is itself; a folder has those in the folders in it; a database its sites. Raises
    NotARecord where there is none, LogFault.
    """
    if isinstance(place, Office):
        return _in_office(place)
    if (mark := _mark(Folder(place).database)) is not None:
        return {place.name: (place, mark)}
    within = sorted(_within(place), key=lambda each: each[0].name)
    found: dict[str, tuple[Place, str]] = {each.name: (each, mark) for each, mark in within}
    if not found:
        raise NotARecord(f"{place} is not a record, and no folder in it is one")
    return found


def _in_office(office: Office) -> Mapping[str, tuple[Place, str]]:
    from record.log.sites import sites_in

    sites = sites_in(office)
    wanted = [office.site] if office.site else sorted(sites)
    if not {*wanted} & sites.keys():
        raise NotARecord(f"{office} is not a record: nothing is recorded there")
    return {site: (office.of(site), sites[site]) for site in wanted if site in sites}


def _within(path: Path) -> Iterator[tuple[Path, str]]:
    """Yield every record in a folder, and the mark of its state."""
    for each in path.iterdir() if path.is_dir() else ():
        if (mark := _mark(Folder(each).database)) is not None:
            yield each, mark


def _mark(database: Path) -> str | None:
    """
    Return the state of a record's file, None where there is none.

    It is "" where the file was written so lately that it may change again and look the same.
    """
    said = [SEALED_DATABASE] if database.name == SEALED_DATABASE else []
    own, journal = _told(database), _told(database.with_name(f"{database.name}-wal"))
    if own is None or not stat.S_ISREG(own.st_mode):
        return None
    for told in (own, journal) if journal else (own,):
        if time.time_ns() - told.st_mtime_ns < SETTLED_NS:
            return ""
        said.append(f"{told.st_ino} {told.st_size} {told.st_mtime_ns}")
    return ", ".join(said)


def _told(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except (FileNotFoundError, NotADirectoryError):
        return None


def sites_at(
    records: Mapping[str, tuple[Place, str]], see: Look | None = None
) -> tuple[tuple[Asks, ...], tuple[str, ...]]:
    """Return what every record says of lots, and which could not be read, and why."""
    sites: list[Asks] = []
    faults: list[str] = []
    for name, (place, _) in records.items():
        found = _read(name, place, see)
        if isinstance(found, str):
            faults.append(found)
        else:
            sites.append(found)
    return tuple(sites), tuple(faults)


def asked_of(
    place: Place,
    records: Mapping[str, tuple[Place, str]],
    ask: Callable[[Sequence[Asks], Sequence[str]], Recall],
) -> Recall:
    """
    Return what ``ask`` says to the owner, of the sites and of what could not be read.

    Where pieces turn out not to be those that were kept, all are looked over and it is asked again.
    """
    for look_over in (False, True):
        try:
            return ask(*kept_sites(place, records, look_over=look_over))
        except Spoiled:
            continue
    return ask(*sites_at(records))


def kept_sites(
    place: Place, records: Mapping[str, tuple[Place, str]], *, look_over: bool = False
) -> tuple[tuple[Asks, ...], tuple[str, ...]]:
    """
    Return the same to the owner, from what is kept where that is still of today.

    What a site says may raise Spoiled, unless it was looked over first.
    """
    at = cache_of(Office(place.url), NAME) if isinstance(place, Office) else place / NAME
    here: list[Asks] = []
    faults: list[str] = []
    for name, (each, mark) in records.items():
        if _is_sealed(each, mark):
            forget(at, name)  # from before it was encrypted
            found = _kept_sealed(name, each, mark, look_over)
        else:
            found = _kept_at(at, name, each, mark, look_over)
        if isinstance(found, str):
            faults.append(found)
        else:
            here.append(found)
    return tuple(here), tuple(faults)


def forget_record(path: Path) -> None:
    """Take away what was kept of the record in a folder, beside those it is asked with."""
    for each in {path.absolute(), path.resolve()}:
        forget(each.parent / NAME, each.name)


def _kept_at(at: Path, name: str, place: Place, mark: str, look_over: bool) -> Asks | str:
    found = kept(at, name, mark, _made_by())
    if found is not None and not (look_over and not found.whole()):
        return found
    read = _read(name, place)
    if isinstance(read, str) or not mark:
        return read
    keep(at, name, mark, _made_by(), read)
    # Two thousand sites are too much to hold; what could not be written is held.
    return kept(at, name, mark, _made_by()) or read


def _is_sealed(place: Place, mark: str) -> bool:
    """Return whether a record is encrypted; its mark says so, but for one written just now."""
    if mark or isinstance(place, Office):
        return mark.startswith(SEALED_DATABASE)
    return bool(Folder(place).sealed())


def _kept_sealed(name: str, place: Place, mark: str, look_over: bool) -> Asks | str:
    """Return the same of an encrypted record: what is kept lies in it, encrypted as it is."""
    from record.log import Log

    try:
        with Log.open(place) as log:
            at, vault = log.cache(NAME), log.vault
            found = kept(at, name, mark, _made_by(), vault)
            if found is not None and not (look_over and not found.whole()):
                return found
            read = _said(name, log.entries())
    except (LogFault, NotARecord, RecordTooNew) as fault:
        return f"{name}: {fault}"
    if not isinstance(read, str) and mark:
        keep(at, name, mark, _made_by(), read, vault)
    return read


def _read(name: str, place: Place, see: Look | None = None) -> Site | str:
    from record.log import Log

    try:
        with Log.open(place) as log:
            entries = log.entries()
    except (LogFault, NotARecord, RecordTooNew) as fault:
        return f"{name}: {fault}"
    return _said(name, entries, see)


def _said(name: str, entries: Sequence[Entry], see: Look | None = None) -> Site | str:
    from record.readers import look
    from record.recall.pieces import site_of

    view = (see or look)(entries)
    return site_of(view) if view.built.entries else f"{name}: nothing was recorded in it by then"


@cache
def _made_by() -> str:
    return hashlib.sha256(f"{FORM} {made_by()}".encode()).hexdigest()
