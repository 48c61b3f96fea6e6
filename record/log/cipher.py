"""An encrypted database: SQLCipher 4 with the settings it comes with, opened by a passphrase.

The key is worked out here rather than by SQLCipher, by the same sum, so that it is worked out once
a command and not at each connection. What is set is written out: a later SQLCipher may come with
other settings. Neither the passphrase nor a key is ever part of a message.
"""

from __future__ import annotations

import hashlib
import os
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import sqlalchemy as sa

from record.log.faults import NO_DATABASE, Locked, LogFault, NoWords, reason
from record.log.file import engine_of, migrate, revision_of
from record.secret import KEY, Vault, Words

SALT, PAGE = 16, 4096  # bytes
ITERATIONS = 256_000
SETTINGS = (
    "cipher_page_size = 4096",
    "cipher_use_hmac = ON",
    "cipher_hmac_algorithm = HMAC_SHA512",
    "cipher_kdf_algorithm = PBKDF2_HMAC_SHA512",
    "cipher_plaintext_header_size = 0",
)
NOT_HERE = (
    "an encrypted record is kept through sqlcipher3, which is not installed: "
    "pip install 'asburied[sealed]'"
)
TABLE = "kept_key"  # one row: the key of what lies beside the database


def library() -> Any:
    """Return SQLCipher's own sqlite3. Raises LogFault where it is not installed."""
    try:
        from sqlcipher3 import dbapi2  # type: ignore[import-untyped]
    except ImportError as fault:
        raise LogFault(NOT_HERE) from fault
    return dbapi2


def key_from(words: str, salt: bytes) -> bytes:
    """Return the key of a database from a passphrase (as UTF-8, NFC) and the file's first bytes."""
    said = unicodedata.normalize("NFC", words).encode()
    return hashlib.pbkdf2_hmac("sha512", said, salt, ITERATIONS, KEY)


def unlock(connection: Any, key: bytes, salt: bytes) -> None:
    """Give a new connection its key, before anything else is asked of it."""
    connection.execute("PRAGMA cipher_log_level = NONE")  # else it tells of faults on its own
    connection.execute(f"PRAGMA key = \"x'{key.hex()}{salt.hex()}'\"")
    for setting in SETTINGS:
        connection.execute(f"PRAGMA {setting}")


def sealed_engine(database: Path, key: bytes, salt: bytes) -> sa.Engine:
    """Return the engine of an encrypted database file; a connection of it never makes one."""
    return engine_of(database, library(), lambda connection: unlock(connection, key, salt))


def fill_sealed(half: Path, words: str) -> None:
    """Make the tables in a new encrypted file, and the key of what will lie beside it."""
    salt = os.urandom(SALT)
    engine = sealed_engine(half, key_from(words, salt), salt)
    try:
        migrate(engine)
        with engine.begin() as connection:
            give_key(connection)
    finally:
        engine.dispose()


def give_key(connection: sa.Connection) -> None:
    connection.exec_driver_sql(f"CREATE TABLE {TABLE} (key BLOB NOT NULL)")
    connection.exec_driver_sql(f"INSERT INTO {TABLE} VALUES (?)", (Vault.new_key(),))


def vault_of(engine: sa.Engine) -> Vault:
    with engine.connect() as connection:
        return Vault(connection.exec_driver_sql(f"SELECT key FROM {TABLE}").scalar_one())


def unlocked(record: Path, database: Path, words: Words) -> sa.Engine:
    """Return the engine of an encrypted database, opened. Raises Locked, LogFault."""
    library()
    salt = _salt(database)
    words.opening(record)
    held = words.keys.get(salt)
    if held is not None:
        return sealed_engine(database, held, salt)
    asked = False
    for said in _not_empty(words.offered(record)):
        asked = True
        key = key_from(said, salt)
        engine = sealed_engine(database, key, salt)
        if _opens(engine, database):
            words.opens(said)
            words.keys[salt] = key
            return engine
        engine.dispose()
    if asked:
        raise Locked(
            f"{record} does not open: the passphrase is another, or {database.name} was changed or "
            "cut short; nothing was changed"
        )
    raise NoWords(f"{record} is encrypted, and no passphrase was given: {words.how}")


def _not_empty(offered: Iterator[str]) -> Iterator[str]:
    return (words for words in offered if words.strip())


def _salt(database: Path) -> bytes:
    try:
        size = database.stat().st_size
        with database.open("rb") as file:
            salt = file.read(SALT)
    except OSError as fault:
        raise LogFault(f"{database} cannot be read: {fault.strerror}") from fault
    if size < PAGE or size % PAGE:
        raise LogFault(
            f"{database} was cut short: it has {size} bytes, and no whole pages of {PAGE}; restore "
            "a copy"
        )
    return salt


def _opens(engine: sa.Engine, database: Path) -> bool:
    try:
        revision_of(engine)
    except sa.exc.SQLAlchemyError as fault:
        if reason(fault) == NO_DATABASE:
            return False
        raise LogFault(f"{database} cannot be read: {reason(fault)}") from fault
    return True
