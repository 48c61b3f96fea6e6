"""Many records: those in a folder or a database, each read on its own and what it says kept.

A record that cannot be read is named, and stops no other.
"""

from __future__ import annotations

import hashlib
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

import msgspec

from record.entry import Entry
from record.index.file import seal, unsealed
from record.index.opened import made_by
from record.log import Folder, Log, LogFault, NotARecord, Office, Place, RecordTooNew
from record.log.faults import said_plainly
from record.log.office import cache_of, opened_at, sites_in
from record.readers import View, look
from record.recall.ask import Asks
from record.recall.kept import FORM, NAME, Bundle, Kept, Whole, bundle
from record.recall.pieces import Site, site_of
from record.secret import Vault

Look = Callable[[Sequence[Entry]], View]
SETTLED_NS = 2_000_000_000  # a file written this lately may change again and look the same


def records_in(place: Place) -> Mapping[str, tuple[Place, str]]:
    """
    Return the records at ``place`` by name: where each is, and the mark of its state, "" for none.

    A record is itself; a folder has those in the folders in it; a database its sites. Raises
    NotARecord where there is none, LogFault.
    """
    if isinstance(place, Office):
        return _in_office(place)
    if Folder(place).database.exists():
        return {place.name: (place, _mark(place))}
    found: dict[str, tuple[Place, str]] = {
        each.name: (each, _mark(each)) for each in sorted(_within(place))
    }
    if not found:
        raise NotARecord(f"{place} is not a record, and no folder in it is one")
    return found


def _in_office(office: Office) -> Mapping[str, tuple[Place, str]]:
    engine = opened_at(office)
    with said_plainly(f"{office} cannot be read"):
        sites = sites_in(engine)
    wanted = [office.site] if office.site else sorted(sites)
    if not {*wanted} & sites.keys():
        raise NotARecord(f"{office} is not a record: nothing is recorded there")
    return {site: (office.of(site), sites[site]) for site in wanted if site in sites}


def _within(path: Path) -> Iterator[Path]:
    if path.is_dir():
        yield from (each for each in path.iterdir() if Folder(each).database.is_file())


def _mark(path: Path) -> str:
    """Return the state of a record's file; "" where it was written so lately that it may go on."""
    database = Folder(path).database
    said = []
    for each in (database, database.with_name(f"{database.name}-wal")):
        try:
            told = each.stat()
        except OSError:
            continue
        if time.time_ns() - told.st_mtime_ns < SETTLED_NS:
            return ""
        said.append(f"{told.st_ino} {told.st_size} {told.st_mtime_ns}")
    return ", ".join(said)


def sites_at(
    records: Mapping[str, tuple[Place, str]], see: Look = look
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


def kept_sites(
    place: Place, records: Mapping[str, tuple[Place, str]]
) -> tuple[tuple[Asks, ...], tuple[str, ...]]:
    """Return the same to the owner, from what is kept where that is still of today."""
    path = cache_of(Office(place.url), NAME) if isinstance(place, Office) else place / NAME
    known = _load(path)
    here: dict[str, Bundle] = {}
    faults: list[str] = []
    sealed = {name for name, (at, _) in records.items() if _is_sealed(at)}
    for name, (at, mark) in records.items():
        old = known.get(name)
        if name in sealed:
            found = _read_sealed(name, at, mark)
        elif old is not None and mark and old.mark == mark:
            found = old
        else:
            found = _bundled(_read(name, at, look), mark)
        if isinstance(found, str):
            faults.append(found)
        else:
            here[name] = found
    kept = {n: each for n, each in {**known, **here}.items() if n not in sealed}
    if sealed & known.keys() or any(known.get(n) is not kept[n] for n in kept if kept[n].mark):
        seal(path, msgspec.msgpack.encode(Whole(_made_by(), kept)))
    return tuple(Kept(each) for each in here.values()), tuple(faults)


def _is_sealed(at: Place) -> bool:
    return not isinstance(at, Office) and bool(Folder(at).sealed())


def _read_sealed(name: str, at: Place, mark: str) -> Bundle | str:
    """Return an encrypted record's pieces; what is kept of them lies in it, encrypted as it is."""
    try:
        with Log.open(at) as log:
            path, vault = log.cache(NAME), log.vault
            old = _load(path, vault).get(name)
            if old is not None and mark and old.mark == mark:
                return old
            found = _bundled(_said(name, log.entries(), look), mark)
    except (LogFault, NotARecord, RecordTooNew) as fault:
        return f"{name}: {fault}"
    if not isinstance(found, str) and mark:
        seal(path, msgspec.msgpack.encode(Whole(_made_by(), {name: found})), vault)
    return found


def _bundled(found: Site | str, mark: str) -> Bundle | str:
    return found if isinstance(found, str) else bundle(mark, found)


def _read(name: str, place: Place, see: Look) -> Site | str:
    try:
        with Log.open(place) as log:
            entries = log.entries()
    except (LogFault, NotARecord, RecordTooNew) as fault:
        return f"{name}: {fault}"
    return _said(name, entries, see)


def _said(name: str, entries: Sequence[Entry], see: Look) -> Site | str:
    view = see(entries)
    return site_of(view) if view.built.entries else f"{name}: nothing was recorded in it by then"


def _made_by() -> str:
    return hashlib.sha256(f"{FORM} {made_by()}".encode()).hexdigest()


def _load(path: Path, vault: Vault | None = None) -> dict[str, Bundle]:
    body = unsealed(path, vault)
    if body is None:
        return {}
    try:
        whole = msgspec.msgpack.decode(body, type=Whole)
    except (msgspec.MsgspecError, ValueError):
        return {}
    return whole.sites if whole.made_by == _made_by() else {}
