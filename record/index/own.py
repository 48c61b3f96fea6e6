"""Files of this person's own: sealed with a key that lies elsewhere, or they are not taken.

A record's folder may be handed on, and a file in it may have been made to mislead. The key lies
outside the folder, so that what was made elsewhere is only so many bytes. What is derived from an
encrypted record is encrypted by its vault. Nothing here raises: where a file cannot be read or
written there is none.
"""

from __future__ import annotations

import hmac
import os
import secrets
import stat
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from record.halves import half_of

if TYPE_CHECKING:
    from record.secret import Vault

SEAL = 32  # bytes of HMAC-SHA-256, before everything else


def unsealed(path: Path, vault: Vault | None = None) -> memoryview | bytes | None:
    """Return what was sealed into a file by this person, or None where nothing can be taken."""
    key = _key(make=False)
    data = _own(path) if key is not None else None
    if key is None or data is None:
        return None
    body = memoryview(data)[SEAL:]
    whole = hmac.compare_digest(hmac.digest(key, body, "sha256"), data[:SEAL])
    if not whole:
        return None
    return body if vault is None else vault.shown_cache(path.name, bytes(body))


def seal(path: Path, body: bytes, vault: Vault | None = None) -> None:
    """Write ``body`` with its seal, whole or not at all."""
    key = _key(make=True)
    if key is None:
        return
    if vault is not None:
        body = vault.hidden_cache(path.name, body)
    write(path, hmac.digest(key, body, "sha256"), body)


def write(path: Path, *parts: bytes) -> bool:
    """Write a file for this person alone, whole or not at all, and return whether it was."""
    half = half_of(path)
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        _begin(half, *parts)
        half.replace(path)
    except OSError:
        with suppress(OSError):
            half.unlink(missing_ok=True)
        return False
    return True


def _begin(half: Path, *parts: bytes) -> None:
    """Write a new file that this person alone may read. Raises OSError."""
    descriptor = os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.writelines(parts)


def _own(path: Path) -> bytes | None:
    """Return the bytes of a plain file that is this person's own, and that nobody else may read."""
    try:
        descriptor = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
        with os.fdopen(descriptor, "rb") as file:
            told = os.fstat(descriptor)
            private = told.st_uid == os.getuid() and not told.st_mode & 0o077
            return file.read() if stat.S_ISREG(told.st_mode) and private else None
    except OSError:
        return None


def _key(*, make: bool) -> bytes | None:
    """Return this person's key; it never lies in a record's folder."""
    path = _key_path(os.environ.get("XDG_STATE_HOME"), os.environ.get("HOME"))
    try:
        if make and not path.exists():
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            half = half_of(path)
            _begin(half, secrets.token_bytes(32))
            try:
                os.link(half, path)  # whoever comes second takes the first one's key
            finally:
                half.unlink()
    except FileExistsError:
        pass
    except OSError:
        return None
    try:
        told = path.stat()
        key = _read(path, told.st_ino, told.st_mtime_ns)
    except OSError:
        return None
    return key if len(key) == 32 else None


@lru_cache(maxsize=4)  # asked for each of two thousand files; _home is what Path.home() goes by
def _key_path(state: str | None, _home: str | None) -> Path:
    return Path(state or Path.home() / ".local" / "state") / "asburied" / "index.key"


@lru_cache(maxsize=4)
def _read(path: Path, _number: int, _changed_ns: int) -> bytes:
    return path.read_bytes()
