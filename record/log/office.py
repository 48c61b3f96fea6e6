"""The same log on PostgreSQL, many sites in one database: where it is, and how it is opened.

A place is written ``postgresql://host/database#site``. Whoever writes holds a lock of the site
until the transaction ends, so that many crews can post at once and none builds on a head that is
not the newest. Passwords come from the environment or a password file of libpq, never from the
place itself.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import sqlalchemy as sa

from record.log.faults import LogFault, NotARecord, RecordTooNew, reason, said_plainly
from record.log.folder import Found
from record.log.tables import REVISION

SCHEMES = ("postgresql://", "postgres://")
NOT_HERE = (
    "PostgreSQL is spoken to through psycopg, which is not installed: "
    "pip install 'asburied[office]'"
)
MAKING = 7_318_002_113  # of the lock that two who make the tables at once wait for

_tables = sa.MetaData()
KEPT = sa.Table(
    "kept",
    _tables,
    sa.Column("site", sa.Text, primary_key=True),
    sa.Column("place", sa.Text, primary_key=True),
    sa.Column("sha256", sa.Text, primary_key=True),
    sa.Column("suffix", sa.Text),
    sa.Column("data", sa.LargeBinary),
)


class PasswordInPlace(ValueError):
    """A password stands in the place of a database, where others could read it."""


@dataclass(frozen=True, slots=True)
class Office:
    """A database of many sites, and perhaps one site in it."""

    url: str
    site: str = ""

    def __str__(self) -> str:
        return f"{self.url}#{self.site}" if self.site else self.url

    def of(self, site: str) -> Office:
        return Office(self.url, site)


Place = Path | Office


def place_of(text: str) -> Place:
    """
    Return where a record is: a folder, or a database's place. Raises PasswordInPlace.

    >>> place_of("postgresql://ld@office/asburied#larch-end")
    Office(url='postgresql://ld@office/asburied', site='larch-end')
    """
    if not text.startswith(SCHEMES):
        return Path(text)
    url, _, site = text.partition("#")
    parts = urlsplit(url)
    if parts.password is not None or "password=" in parts.query.casefold():
        raise PasswordInPlace(
            "a password on the command line can be read by others; leave it out, and put it "
            "into ~/.pgpass, or a file that $PGPASSFILE names"
        )
    return Office(url, site)


def engine_at(office: Office) -> sa.Engine:
    """Return the engine of a database; each use has a connection of its own."""
    try:
        import psycopg
    except ImportError as fault:
        raise LogFault(NOT_HERE) from fault

    def connect() -> Any:
        return psycopg.connect(office.url, application_name="asburied", connect_timeout=30)

    return sa.create_engine("postgresql+psycopg://", creator=connect, poolclass=sa.NullPool)


def made_at(office: Office) -> sa.Engine:
    """Make the tables where there are none, and return the engine. Raises LogFault."""
    from record.log.file import migrate

    engine = engine_at(office)
    with said_plainly(f"{office}: no tables were made"), engine.connect() as lock:
        lock.execute(sa.text("SELECT pg_advisory_lock(:key)"), {"key": MAKING})
        if not sa.inspect(lock).has_table("alembic_version"):
            migrate(engine)
    return opened_at(office)


def opened_at(office: Office) -> sa.Engine:
    """Return the engine of a database that has the tables. Raises NotARecord, RecordTooNew,
    LogFault."""
    engine = engine_at(office)
    asked = sa.text("SELECT version_num FROM alembic_version")
    try:
        with engine.connect() as connection:
            revision = str(connection.execute(asked).scalar())
    except sa.exc.ProgrammingError as fault:
        if "alembic_version" in str(fault.orig) and "does not exist" in str(fault.orig):
            raise NotARecord(f"{office} is not a record: it has no table of entries") from fault
        raise LogFault(f"{office} cannot be read: {reason(fault)}") from fault
    except sa.exc.SQLAlchemyError as fault:
        raise LogFault(f"{office} cannot be read: {reason(fault)}") from fault
    if revision != REVISION:
        raise RecordTooNew(
            f"{office} was made by another version (its tables are at {revision!r}, this version "
            f"reads {REVISION!r}); nothing was changed. Install the newer version."
        )
    return engine


#: Every site by its first row alone, then the next: the rows between are never read.
_SITES = """
WITH RECURSIVE next(site) AS (
    (SELECT site FROM arrivals ORDER BY site LIMIT 1)
    UNION ALL
    SELECT (SELECT a.site FROM arrivals a WHERE a.site > n.site ORDER BY a.site LIMIT 1)
    FROM next n WHERE n.site IS NOT NULL
)
SELECT n.site, a.id, a.head FROM next n
CROSS JOIN LATERAL (
    SELECT id, head FROM arrivals WHERE site = n.site ORDER BY id DESC LIMIT 1
) a WHERE n.site IS NOT NULL
"""


def sites_in(engine: sa.Engine) -> dict[str, str]:
    """Return every site of a database, and a mark that changes whenever something comes in."""
    with engine.connect() as connection:
        return {site: f"{id_} {head}" for site, id_, head in connection.execute(sa.text(_SITES))}


@contextmanager
def site_held(engine: sa.Engine, site: str) -> Iterator[sa.Connection]:
    """Hold a site for writing until the block ends; then all of it is kept, or nothing."""
    with engine.begin() as connection:
        connection.execute(
            sa.text("SELECT pg_advisory_xact_lock(hashtextextended(:key, 0))"),
            {"key": f"asburied {site}"},
        )
        yield connection


AT_ONCE = 1000  # rows in one statement
_ARRAYS = ((sa.Integer, "integer[]"), (sa.LargeBinary, "bytea[]"), (sa.String, "text[]"))


def add_rows(connection: sa.Connection, table: sa.Table, rows: Sequence[Mapping[str, Any]]) -> None:
    """Add rows a thousand in a statement: each statement leaves a row in ``arrivals``."""
    columns = [column for column in table.columns if rows and column.name in rows[0]]
    arrays = [next(a for kind, a in _ARRAYS if isinstance(each.type, kind)) for each in columns]
    names = [column.name for column in columns]
    values = [f"CAST(:{name} AS {array})" for name, array in zip(names, arrays, strict=True)]
    add = sa.text(
        f"INSERT INTO {table.name} ({', '.join(names)}) SELECT * FROM unnest({', '.join(values)})"
    )
    for first in range(0, len(rows), AT_ONCE):
        some = rows[first : first + AT_ONCE]
        connection.execute(add, {name: [row[name] for row in some] for name in names})


@dataclass(frozen=True, slots=True)
class OfficeFiles:
    """Kept files as rows of the database, each under its hash."""

    office: Office
    engine: sa.Engine

    @property
    def path(self) -> Office:
        return self.office

    def found(self, what: str, sha256: str) -> Found | None:
        rows = sa.select(KEPT.c.suffix, KEPT.c.data).where(
            KEPT.c.site == self.office.site, KEPT.c.place == what, KEPT.c.sha256 == sha256
        )
        with said_plainly(f"{self.office} cannot be read"), self.engine.connect() as connection:
            row = connection.execute(rows).one_or_none()
        return None if row is None else Found(f"{what}/{sha256}", row[0], bytes(row[1]))

    def keep(self, what: str, data: bytes, suffix: str) -> str:
        sha256 = hashlib.sha256(data).hexdigest()
        self.put(what, sha256, suffix, data)
        return sha256

    def put(self, what: str, sha256: str, suffix: str, data: bytes) -> None:
        """Write ``data`` as what is kept under ``sha256``; what is there already stays."""
        from sqlalchemy.dialects.postgresql import insert

        row = {"site": self.office.site, "place": what, "sha256": sha256, "suffix": suffix}
        new = insert(KEPT).values(**row, data=data).on_conflict_do_nothing()
        with said_plainly(f"{self.office}: nothing was kept"), self.engine.begin() as connection:
            connection.execute(new)


def cache_of(office: Office, name: str) -> Path:
    """Return where this person keeps what is derived from a database; it can be deleted."""
    base = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return base / "asburied" / f"{hashlib.sha256(str(office).encode()).hexdigest()[:24]}-{name}"
