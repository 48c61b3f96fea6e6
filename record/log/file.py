"""The database file: made whole with its tables, named, and opened for use."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import quote

import sqlalchemy as sa

from record.log.tables import CONTENTS, LINKS

BUSY_S = 30.0
LONGEST_ROW = 8_000_000  # bytes; of eight times what a line may have nothing is read
MAGIC = b"SQLite format 3\0"


def name_whole(half: Path, database: Path) -> None:
    """Give a finished file its name: it appears whole, and never over another."""
    try:
        os.link(half, database)
    except FileExistsError:
        raise
    except OSError:  # a stick whose file system knows no links
        if database.exists():
            raise FileExistsError(database) from None
        half.rename(database)


def fill(half: Path) -> None:
    """Make the tables in a new file, and close it so that it is one file."""
    engine = engine_of(half)
    try:
        migrate(engine)
    finally:
        engine.dispose()


def _plain(connection: Any) -> None:
    """Unlock nothing; a row that would fill the memory is refused before it is there."""
    connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LONGEST_ROW)


def engine_of(
    database: Path, library: Any = sqlite3, unlock: Callable[[Any], None] = _plain
) -> sa.Engine:
    """
    Return the engine of a database file; a connection of it never makes one.

    ``library`` is sqlite3 or one that is called as it is; ``unlock`` is given each connection
    before anything is asked of it.
    """
    path = database.resolve()

    def connect() -> Any:
        asleep = not path.with_name(path.name + "-wal").exists()
        if asleep and not os.access(path.parent, os.W_OK):
            # A stick with its lock on, or a disc: SQLite may not make its side files there.
            connection = library.connect(
                f"file:{quote(str(path))}?immutable=1", uri=True, isolation_level=None
            )
            unlock(connection)
            return connection
        # rw, not rwc: opening a record never makes one.
        connection = library.connect(
            f"file:{quote(str(path))}?mode=rw", uri=True, timeout=BUSY_S, isolation_level=None
        )
        unlock(connection)
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
        except UnicodeDecodeError as fault:  # SQLite names what is wrong, in the bytes of that
            raise library.DatabaseError("malformed database schema") from fault
        return connection

    return sa.create_engine("sqlite://", module=library, creator=connect, poolclass=sa.NullPool)


def revision_of(engine: sa.Engine) -> str:
    """Return which migration the tables stand at."""
    with engine.connect() as connection:
        found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
        return str(found)


def migrate(engine: sa.Engine) -> None:
    """Bring the tables to the newest migration."""
    # Alembic is slow to import, and only a new record needs it.
    from alembic import command
    from alembic.config import Config

    import migrations

    config = Config()
    config.set_main_option("script_location", str(Path(migrations.__file__).parent))
    with engine.connect() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def has_its_tables(engine: sa.Engine) -> bool:
    """
    Return whether the log's tables are as they are made: plain columns, none of which may be empty.

    A view or a worked column in a stranger's file may never end, or give a gigabyte a row.
    """
    asked = 'SELECT name, "notnull", hidden FROM pragma_table_xinfo(?)'
    with engine.connect() as connection:
        found = [
            {tuple(row) for row in connection.exec_driver_sql(asked, (table.name,))}
            for table in (LINKS, CONTENTS)
        ]
    return found == [
        {(column.name, 1, 0) for column in table.columns} for table in (LINKS, CONTENTS)
    ]
