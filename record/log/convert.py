"""A record made encrypted, made plain again, or given another passphrase: whole, or as it was.

The new form is made as a record in a folder within the record's, read back and held to the old,
and then put in place by one renaming. Up to it the old counts, from it on the new: ``sealed-2``
before ``sealed-1``, either before ``record.sqlite``. What was is removed last; where that was cut
short, each opening tells it, and :func:`finish` goes on. Whoever waits to write meanwhile is
refused, and told to do it again.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from record.log.copied import copied, copy_files, files_of, held_to_the_old, lacks
from record.log.faults import Locked, LogFault
from record.log.file import name_whole
from record.log.folder import (
    BYGONE,
    CACHES,
    DATABASE,
    HASH,
    PLACES,
    SEALED_DATABASE,
    WORK,
    Folder,
    number_of,
)
from record.log.opening import opened
from record.log.store import Log
from record.log.whole import flush_folder
from record.secret import Words


@dataclass(frozen=True, slots=True)
class Converted:
    """
    What became of a record: its entries and kept files, and what lies open in its folder still.

    ``removed`` were plain or older files of the record. ``left`` are somebody's own: by name.
    """

    entries: int
    files: int
    removed: int
    left: tuple[str, ...]


def seal(path: Path, passphrase: str) -> Converted:
    """
    Encrypt the record in a folder; one that is encrypted already, anew with this passphrase.

    Raises NotARecord, LogFault; up to the renaming nothing is changed then.
    """
    with _said(path):
        words = Words(lambda _: iter([passphrase]))
        with Log.open(path) as log:
            _finished(path, log)
        with Log.open(path) as log, log.writing():
            work = _cleared(path)
            with Log.make(work, sealed_with=passphrase) as new:
                done = copied(log, new)
            with Log.open(work, words) as new:
                held_to_the_old(log, new)
            number = 1 + max(map(number_of, Folder(path).sealed_folders()), default=0)
            flush_folder(work)
            (work / "sealed-1").rename(path / f"sealed-{number}")
            flush_folder(path)
        with Log.open(path, words) as log:
            removed = _finished(path, log)
    return Converted(*done, removed, tuple(_strangers(path)))


def unseal(path: Path) -> Converted:
    """Make an encrypted record plain. Raises NotARecord, LogFault, as :func:`seal` does."""
    with _said(path):
        with Log.open(path) as log:
            if log.vault is None:
                _without(path / BYGONE)
                raise LogFault(f"{path} is not encrypted; nothing was done")
            removed = _finished(path, log)
            with log.writing():
                work = _cleared(path)
                with Log.make(work) as new:
                    done = copied(log, new)
                with Log.open(work) as new:
                    held_to_the_old(log, new)
                _put_in_place(work, path)
                _without(work)  # now: after the renaming somebody else may make one there
                Folder(path).sealed()[-1].rename(path / BYGONE)
                flush_folder(path)
        _without(path / BYGONE)
    return Converted(*done, removed, ())


def finish(path: Path) -> Converted:
    """
    Remove what a conversion that was cut short left: files that the encrypted record holds too.

    Raises LogFault where something there is not in it.
    """
    with _said(path), Log.open(path) as log:
        removed = _finished(path, log)
        count = sum(chain.entries for chain in log.chains()[0])
        files = sum(1 for _ in files_of(log).every())
        return Converted(count, files, removed, tuple(_strangers(path)))


def _finished(path: Path, log: Log) -> int:
    """
    Remove all but the encrypted record; return how many files went.

    It is held meanwhile, so that nothing is taken away that somebody is making of it.
    """
    if log.vault is None:
        return 0
    with log.writing():
        folder = Folder(path)
        for database in _others(folder):
            with _older(path, database) as other:
                if found := lacks(log, other):
                    raise LogFault(
                        f"{database} holds {found} that the encrypted record lacks; nothing was "
                        f"removed. Move it into a folder of its own, and `merge` that into {path}"
                    )
                copy_files(files_of(other), files_of(log))
        copy_files(folder, files_of(log))
        return _removed(folder)


def _removed(folder: Folder) -> int:
    gone = list(_plain_files(folder))
    for older in folder.sealed()[:-1]:
        gone += [each for each in older.rglob("*") if each.is_file()]
    for place in gone:  # the database is last: while it is there, the rest can be held to it
        place.unlink(missing_ok=True)
    for older in folder.sealed_folders()[:-1]:
        shutil.rmtree(older)
    for what in (*PLACES, *CACHES):
        if (folder.path / what).is_dir() and not any((folder.path / what).iterdir()):
            (folder.path / what).rmdir()
    _cleared(folder.path)
    return len(gone)


def _others(folder: Folder) -> Iterator[Path]:
    """Yield the databases in a record's folder that are not the one that counts."""
    for database in (folder.path / DATABASE, *(each / SEALED_DATABASE for each in folder.sealed())):
        if database.is_file() and database != folder.database:
            yield database


def _older(path: Path, database: Path) -> Log:
    try:
        engine, files, where = opened(path, database, None)
    except Locked as fault:
        raise LogFault(
            f"{database.parent} is what this record was before its passphrase was changed, and "
            "does not open by what was given; delete that folder by hand if you know that nothing "
            "in it is wanted"
        ) from fault
    return Log(path, files, engine, where)


def _plain_files(folder: Folder) -> Iterator[Path]:
    """Yield the files of a plain record, half-written ones too, its database last."""
    path = folder.path
    for what in PLACES:
        if (path / what).is_dir():
            for place in sorted((path / what).iterdir()):
                if HASH.fullmatch(place.name.removeprefix(".").partition(".")[0]):
                    yield place
    for name in CACHES:
        yield from (each for each in path.glob(f"{name}/*") if each.is_file())
        yield from (each for each in path.glob(name) if each.is_file())
        yield from path.glob(f".{name}.*")
    yield from path.glob(f".{DATABASE}.*")
    for name in ("-wal", "-shm", "-journal", ""):
        yield from path.glob(DATABASE + name)


def _put_in_place(work: Path, path: Path) -> None:
    """Bring a plain record from ``work`` to where it shall be; the encrypted one counts still."""
    for place in list(Folder(work).every_place()):
        to = path / place.parent.name
        to.mkdir(mode=0o700, exist_ok=True)
        place.replace(to / place.name)
    for what in PLACES:
        if (path / what).is_dir():
            flush_folder(path / what)
    name_whole(work / DATABASE, path / DATABASE)
    flush_folder(path)


def _cleared(path: Path) -> Path:
    """
    Remove what was being made or taken away when it was cut short; return where to make anew.

    Only while the record is held: somebody else may be making it.
    """
    _without(path / BYGONE)
    _without(path / WORK)
    return path / WORK


def _without(path: Path) -> None:
    if path.exists():
        shutil.rmtree(path)


def _strangers(path: Path) -> Iterator[str]:
    """Yield the names of files in a record's folder that are somebody's own, and lie open."""
    for place in sorted(path.iterdir()):
        if place.is_file():
            yield place.name
        elif place.name in PLACES:
            yield from (f"{place.name}/{each.name}" for each in sorted(place.iterdir()))
        elif place not in Folder(path).sealed():
            yield f"{place.name}/"


@contextmanager
def _said(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as fault:
        raise LogFault(
            f"{fault.filename or path}: {fault.strerror or fault}; nothing is lost, run it again"
        ) from fault
