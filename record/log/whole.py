"""A file that appears whole or not at all, for its owner's login alone."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable
from pathlib import Path

from record.halves import half_of

OWNER_FOLDER, OWNER_FILE = 0o700, 0o600


def write_file(place: Path, pieces: Iterable[bytes]) -> None:
    """Write a new file, down to the disk. Raises OSError."""
    descriptor = os.open(place, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNER_FILE)
    with os.fdopen(descriptor, "wb") as file:
        for piece in pieces:
            file.write(piece)
        file.flush()
        os.fsync(file.fileno())


def put_whole(place: Path, pieces: Iterable[bytes]) -> None:
    """Write a file in place of what may be there; until it is whole, that stays. OSError."""
    half = half_of(place)
    try:
        write_file(half, pieces)
        half.replace(place)
    finally:
        half.unlink(missing_ok=True)
    flush_folder(place.parent)


def flush_folder(path: Path) -> None:
    """Bring a folder's names down to the disk, where its file system can. Raises OSError."""
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    except OSError as fault:
        if fault.errno not in (errno.EINVAL, errno.ENOTSUP):  # a stick that cannot do that
            raise
    finally:
        os.close(descriptor)
