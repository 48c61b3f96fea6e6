"""A record's folder made, and opened: as it is, or encrypted. Neither is ever half there."""

from __future__ import annotations

import os
import shutil
import sqlite3
from importlib.resources import files
from pathlib import Path

import sqlalchemy as sa

from record.halves import half_of
from record.log.faults import (
    NO_DATABASE,
    NO_TABLE,
    LogFault,
    NotARecord,
    RecordTooNew,
    reason,
)
from record.log.file import MAGIC, engine_of, fill, has_its_tables, name_whole, revision_of
from record.log.folder import DATABASE, SEALED_DATABASE, Files, Folder
from record.log.instead import not_a_record
from record.log.places import Office, Place
from record.log.sealed import SealedFiles
from record.log.sites import REVISION
from record.log.whole import write_file
from record.secret import Words, asked

README = "README.txt"  # in every encrypted record: how it is opened without this program
Opened = tuple[sa.Engine, Files, Path]


def make(path: Path, sealed_with: str | None = None) -> None:
    """Make an empty record in a folder, encrypted with a passphrase if one is given."""
    folder = Folder(path)
    there = f"{path} holds a record already; nothing was changed"
    if folder.database.exists():
        raise LogFault(there)
    try:
        path.mkdir(mode=0o700, parents=True, exist_ok=True)
        if sealed_with is None:
            _make_plain(folder)
        else:
            _make_sealed(folder, sealed_with)
    except FileExistsError as fault:
        raise LogFault(there) from fault
    except OSError as fault:
        raise LogFault(f"{path} cannot be written: {fault.strerror}") from fault
    except (sa.exc.SQLAlchemyError, sqlite3.Error) as fault:
        raise LogFault(f"{path} cannot be written: {reason(fault)}") from fault


def _make_plain(folder: Folder) -> None:
    database = folder.path / DATABASE
    half = half_of(database)
    try:
        os.close(os.open(half, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
        fill(half)
        name_whole(half, database)
    finally:
        for left in folder.path.glob(f"{half.name}*"):
            left.unlink(missing_ok=True)


def _make_sealed(folder: Folder, words: str) -> None:
    from record.log.cipher import fill_sealed

    half = half_of(folder.path / "sealed-1")
    database = half / SEALED_DATABASE
    try:
        half.mkdir(mode=0o700)
        os.close(os.open(database, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
        fill_sealed(database, words)
        words_beside = files("record.log").joinpath("sealed_readme.txt").read_bytes()
        write_file(half / README, [words_beside])
        half.rename(folder.path / "sealed-1")
    finally:
        shutil.rmtree(half, ignore_errors=True)


def opened(path: Path, database: Path, words: Words | None) -> Opened:
    """
    Open the database of the record in a folder: its engine, its kept files, and where it lies.

    Raises NotARecord, RecordTooNew, LogFault; Locked where no passphrase opens it.
    """
    if not database.is_file():
        raise not_a_record(path, database)
    sealed = database.name == SEALED_DATABASE
    if sealed:
        from record.log.cipher import unlocked

        engine = unlocked(path, database, words or asked())
    else:
        _is_plain(database)
        engine = engine_of(database)
    try:
        revision = revision_of(engine)
        if revision == REVISION and not has_its_tables(engine):
            engine.dispose()
            raise NotARecord(f"{database} is not a record: its tables are not those of one")
        kept: Files = _sealed_files(engine, database) if sealed else Folder(path)
    except (sa.exc.SQLAlchemyError, sqlite3.Error) as fault:
        engine.dispose()
        what = reason(fault)
        if what in (NO_TABLE, NO_DATABASE):
            raise NotARecord(f"{database} is not a record: {what}") from fault
        raise LogFault(f"{database} cannot be read: {what}") from fault
    if revision != REVISION:
        engine.dispose()
        raise RecordTooNew(
            f"{path} was made by a newer version (its tables are at {revision!r}, this "
            f"version reads {REVISION!r}); nothing was changed. Install the newer version."
        )
    return engine, kept, database


def _sealed_files(engine: sa.Engine, database: Path) -> SealedFiles:
    from record.log.cipher import vault_of

    return SealedFiles(database.parent, vault_of(engine))


def _is_plain(database: Path) -> None:
    try:
        with database.open("rb") as file:
            # SQLite would turn an empty file into a database by opening it.
            if file.read(len(MAGIC)) != MAGIC:
                raise NotARecord(f"{database} is not a record: it is no database")
    except OSError as fault:
        raise LogFault(f"{database} cannot be read: {fault.strerror}") from fault


def which(place: Place) -> tuple[Path, int] | None:
    """Return which file the database of a record is."""
    if isinstance(place, Office):
        return None
    database = Folder(place).database
    try:
        return database, database.stat().st_ino
    except OSError:
        return database, 0


def held_to(place: Place, before: tuple[Path, int] | None) -> None:
    """Refuse to write where, while one waited, the record became another file."""
    if which(place) != before:
        raise LogFault(
            f"{place} was encrypted, opened or given another passphrase meanwhile; nothing was "
            "recorded. Run it again."
        )
