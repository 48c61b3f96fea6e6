"""The same log on PostgreSQL, many sites in one database, and how it is opened.

Whoever writes holds a lock of the site until the transaction ends, so that many crews can post at
once and none builds on a head that is not the newest.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from record.log.faults import said_plainly
from record.log.folder import Found
from record.log.places import Office
from record.log.sites import connected, connecting

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


def engine_at(office: Office) -> sa.Engine:
    """Return the engine of a database; each use has a connection of its own."""
    connect = connecting(office)
    return sa.create_engine("postgresql+psycopg://", creator=connect, poolclass=sa.NullPool)


def opened_at(office: Office) -> sa.Engine:
    """Return the engine of a database that has the tables. Raises NotARecord, RecordTooNew,
    LogFault."""
    with connected(office):
        return engine_at(office)


def made_at(office: Office) -> sa.Engine:
    """Make the tables where there are none, and return the engine. Raises LogFault."""
    from record.log.file import migrate

    engine = engine_at(office)
    with said_plainly(f"{office}: no tables were made"), engine.connect() as lock:
        lock.execute(sa.text("SELECT pg_advisory_lock(:key)"), {"key": MAKING})
        if not sa.inspect(lock).has_table("alembic_version"):
            migrate(engine)
    return opened_at(office)


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
