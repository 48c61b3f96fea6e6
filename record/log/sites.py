"""The sites of one PostgreSQL database, asked through psycopg alone.

A recall over many sites that was asked before needs no more of the database than this, and starts
without SQLAlchemy.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from record.log.faults import LogFault, NotARecord, RecordTooNew, reason
from record.log.places import Office

if TYPE_CHECKING:
    import psycopg

REVISION = "0001"  # the newest migration this version reads; a test holds the two together
NOT_HERE = (
    "PostgreSQL is spoken to through psycopg, which is not installed: "
    "pip install 'asburied[office]'"
)


def connecting(office: Office) -> Callable[[], psycopg.Connection[Any]]:
    """Return what connects to a database. Raises LogFault where there is no psycopg."""
    try:
        import psycopg
    except ImportError as fault:
        raise LogFault(NOT_HERE) from fault

    def connect() -> psycopg.Connection[Any]:
        return psycopg.connect(office.url, application_name="asburied", connect_timeout=30)

    return connect


@contextmanager
def connected(office: Office) -> Iterator[psycopg.Connection[Any]]:
    """
    Connect to a database that has the tables, until the block ends.

    Raises NotARecord, RecordTooNew, LogFault.
    """
    connect = connecting(office)
    import psycopg

    try:
        with connect() as connection:
            _of_this_version(office, connection)
            yield connection
    except psycopg.errors.UndefinedTable as fault:
        if "alembic_version" in str(fault):
            raise NotARecord(f"{office} is not a record: it has no table of entries") from fault
        raise LogFault(f"{office} cannot be read: {reason(fault)}") from fault
    except psycopg.Error as fault:
        raise LogFault(f"{office} cannot be read: {reason(fault)}") from fault


def _of_this_version(office: Office, connection: psycopg.Connection[Any]) -> None:
    row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    revision = str(row[0] if row else None)
    if revision != REVISION:
        raise RecordTooNew(
            f"{office} was made by another version (its tables are at {revision!r}, this version "
            f"reads {REVISION!r}); nothing was changed. Install the newer version."
        )


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


def sites_in(office: Office) -> dict[str, str]:
    """
    Return every site of a database, and a mark that changes whenever something comes in.

    Raises NotARecord, RecordTooNew, LogFault.
    """
    with connected(office) as connection:
        return {site: f"{id_} {head}" for site, id_, head in connection.execute(_SITES)}
