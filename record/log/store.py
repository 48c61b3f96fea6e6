"""Append and read entry lines in SQLite or PostgreSQL, through SQLAlchemy Core.

In SQLite a write is one transaction, flushed to the disk before it returns (write-ahead log,
synchronous=FULL). When the last connection closes, SQLite folds the write-ahead log into the
one file, so a record at rest is a single file that can be copied.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, NamedTuple

import sqlalchemy as sa

from record.entry import BadLine, Entry, in_showing_order, read
from record.log.faults import LogFault, said_plainly
from record.log.folder import Files, Folder
from record.log.office import OfficeFiles, add_rows, made_at, opened_at, site_held
from record.log.opening import held_to, make, opened, which
from record.log.places import Office, Place, cache_of
from record.log.sealed import SealedFiles
from record.log.sites import sites_in
from record.log.tables import (
    CONTENTS,
    LINKS,
    OFFICE_CONTENTS,
    content_rows,
    link_rows,
    office_pairs,
    pairs,
)
from record.secret import Vault, Words

Row = tuple[str, bytes, bytes | None]  # stored hash, link line, content line


class Chain(NamedTuple):
    """One writer's chain as the table has it: how many entries, and the last one's number."""

    site: str
    writer: str
    entries: int
    last: int


class Log:
    """One record's log. Open it with :meth:`make` or :meth:`open`, and close it."""

    def __init__(
        self, place: Place, files: Files, engine: sa.Engine, database: Path | None = None
    ) -> None:
        self.place = place
        self.files = files
        self.engine = engine
        self._database = database

    @staticmethod
    def make(place: Place, *, sealed_with: str | None = None) -> Log:
        """
        Make an empty record at ``place``, a folder or a database's, and return its log.

        In a folder it is encrypted where there is a passphrase for it. Raises LogFault where a
        record is there already or the place cannot be written.
        """
        if isinstance(place, Office):
            return _make_in_office(place)
        make(place, sealed_with)
        return Log.open(place, Words(lambda _: iter([sealed_with or ""])))

    @staticmethod
    def open(place: Place, words: Words | None = None) -> Log:
        """
        Return the log of the record at ``place``, a folder or a database's.

        An encrypted one is opened by ``words``, else by what :func:`record.secret.asked` gives.
        Raises NotARecord, RecordTooNew, and LogFault where the disk or the database refuses;
        of these Locked where no passphrase opens it.
        """
        if isinstance(place, Office):
            return _open_in_office(place)
        engine, files, database = opened(place, Folder(place).database, words)
        return Log(place, files, engine, database)

    @property
    def vault(self) -> Vault | None:
        """What hides what lies beside an encrypted record; None where a record is plain."""
        return self.files.vault if isinstance(self.files, SealedFiles) else None

    @property
    def name(self) -> str:
        """What the record's database is called, for people."""
        return str(self._database or self.place)

    def cache(self, name: str) -> Path:
        """Return where a file of that name may lie that is derived from the record."""
        if isinstance(self.place, Office):
            return cache_of(self.place, name)
        return self.place / name if self._database is None else self._database.parent / name

    def close(self) -> None:
        self.engine.dispose()

    def __enter__(self) -> Log:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def lines(self) -> Iterator[tuple[str, str, bytes, bytes | None]]:
        """Yield (stored hash, received, link line, content line or None) as they lie."""
        rows = self._pairs(LINKS.c.received).order_by(
            LINKS.c.site, LINKS.c.writer, LINKS.c.seq, LINKS.c.hash
        )
        with (
            said_plainly(f"{self.name} cannot be read"),
            self.engine.connect() as connection,
        ):
            for stored, link, content, received in connection.execute(rows):
                yield stored, received, bytes(link), None if content is None else bytes(content)

    def lines_at_once(self, many: int = 200) -> Iterator[Sequence[Row]]:
        """Yield the same many at a time, without when they came, as the driver gives them."""
        rows = self._pairs().order_by(LINKS.c.site, LINKS.c.writer, LINKS.c.seq, LINKS.c.hash)
        with self._reading() as connection:
            cursor = connection.execute(rows).cursor
            while found := cursor.fetchmany(many):
                yield found

    def entries(self) -> tuple[Entry, ...]:
        """
        Return every entry in showing order, those of a fork with their marks.

        Raises LogFault where a line cannot be read.
        """
        with not_collecting():
            found = [_read(stored, link, content) for stored, _, link, content in self.lines()]
            return in_showing_order(found)

    def chains(self) -> tuple[tuple[Chain, ...], int]:
        """Return every writer's chain, as the table's columns tell, and how many contents lie."""
        count, last = sa.func.count(), sa.func.max(LINKS.c.seq)
        rows = sa.select(LINKS.c.site, LINKS.c.writer, count, last).group_by(
            LINKS.c.site, LINKS.c.writer
        )
        contents = sa.select(sa.func.count()).select_from(CONTENTS)
        if isinstance(self.place, Office):
            rows = rows.where(LINKS.c.site == self.place.site)
            contents = sa.select(sa.func.count()).where(OFFICE_CONTENTS.c.site == self.place.site)
        with self._reading() as connection:
            found = [Chain(*row) for row in connection.execute(rows.order_by(None))]
            return tuple(sorted(found)), int(connection.execute(contents).scalar_one())

    def after(self, site: str, writer: str, seq: int) -> tuple[Entry, ...]:
        """Return a writer's entries from number ``seq`` on, in the order of their numbers."""
        with self._reading() as connection:
            rows = self._pairs().where(
                LINKS.c.site == site, LINKS.c.writer == writer, LINKS.c.seq >= seq
            )
            found = connection.execute(rows.order_by(LINKS.c.seq, LINKS.c.hash))
            return tuple(_read(*_bytes(row)) for row in found)

    def some(self, hashes: Sequence[str]) -> tuple[Entry, ...]:
        """Return the entries stored under these link hashes, in no order."""
        found: list[Entry] = []
        with self._reading() as connection:
            for start in range(0, len(hashes), AT_ONCE):
                rows = self._pairs().where(LINKS.c.hash.in_(hashes[start : start + AT_ONCE]))
                found += (_read(*_bytes(row)) for row in connection.execute(rows))
        return tuple(found)

    def _pairs(self, *more: sa.ColumnElement[Any]) -> sa.Select[Any]:
        if isinstance(self.place, Office):
            return office_pairs(self.place.site, *more)
        return pairs(*more)

    @contextmanager
    def _reading(self) -> Iterator[sa.Connection]:
        with (
            said_plainly(f"{self.name} cannot be read"),
            self.engine.connect() as connection,
        ):
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Writing]:
        """
        Hold the record for writing until the block ends; then all of it is kept, or nothing.

        A second process waits its turn here, before it reads what it will build on.
        """
        if isinstance(self.place, Office):
            with (
                said_plainly(f"{self.name}: nothing was recorded"),
                site_held(self.engine, self.place.site) as connection,
            ):
                yield Writing(connection, self.place.site)
            return
        before = which(self.place)
        with (
            said_plainly(f"{self.name}: nothing was recorded"),
            self.engine.connect() as connection,
        ):
            connection.exec_driver_sql("BEGIN IMMEDIATE")
            try:
                held_to(self.place, before)
                yield Writing(connection)
            except BaseException:
                # A full disk makes SQLite roll back by itself.
                with suppress(sa.exc.SQLAlchemyError):
                    connection.exec_driver_sql("ROLLBACK")
                raise
            connection.exec_driver_sql("COMMIT")


def _bytes(row: Any) -> tuple[str, bytes, bytes | None]:
    stored, link, content = row
    return stored, bytes(link), None if content is None else bytes(content)


def _read(stored: str, link: bytes, content: bytes | None) -> Entry:
    try:
        return read(link, content)
    except BadLine as fault:
        raise LogFault(
            f"an entry of this record cannot be read ({fault}; stored as {stored[:12]}…). "
            "Run `asburied verify` to see which, and which before it are sound."
        ) from fault


AT_ONCE = 500  # hashes in one question; SQLite takes some thousands at most


@contextmanager
def not_collecting() -> Iterator[None]:
    """Keep Python from looking for rubbish while values are made that all stay."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


class Writing:
    """An open transaction: append is the only thing it can do to the past."""

    def __init__(self, connection: sa.Connection, site: str = "") -> None:
        self._connection = connection
        self._site = site

    def append(self, entries: Sequence[Entry], *, received: str) -> None:
        """Add sealed entries. Entries already there are refused by the database."""
        self.take(entries, entries, received=received)

    def take(self, links: Sequence[Entry], contents: Sequence[Entry], *, received: str) -> None:
        """Add the links of some entries, and the contents of others whose links may be here."""
        for entry in (*links, *contents):
            if self._site and entry.link.site != self._site:
                raise LogFault(
                    f"nothing was recorded: {entry.number} is of {entry.link.site}, and what was "
                    f"opened is {self._site}"
                )
        self._add(LINKS, list(link_rows(links, received)))
        table = OFFICE_CONTENTS if self._site else CONTENTS
        self._add(table, list(content_rows(contents, site=bool(self._site))))

    def _add(self, table: sa.Table, rows: list[dict[str, Any]]) -> None:
        if self._site:
            add_rows(self._connection, table, rows)
        elif rows:
            self._connection.execute(sa.insert(table), rows)


def _open_in_office(office: Office) -> Log:
    engine = opened_at(office)
    if not office.site:
        office = _only_site(office)
    return Log(office, OfficeFiles(office, engine), engine)


def _only_site(office: Office) -> Office:
    """Return the one site there is. Raises LogFault where there are several, or none yet."""
    sites = sorted(sites_in(office))
    if len(sites) == 1:
        return office.of(sites[0])
    there = f"holds {len(sites)} sites ({', '.join(sites[:6])}{', …' if sites[6:] else ''})"
    raise LogFault(
        f"{office} {there if sites else 'holds no site yet'}; say which is meant, such as "
        f"{office}#{sites[0] if sites else 'larch-end'}"
    )


def _make_in_office(office: Office) -> Log:
    engine = made_at(office)
    if office.site in sites_in(office):
        raise LogFault(f"{office} holds a record already; nothing was changed")
    return Log(office, OfficeFiles(office, engine), engine)
