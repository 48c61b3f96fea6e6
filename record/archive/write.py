"""A bag written down, as a folder or as one tar file: whole or not at all, for its owner alone."""

from __future__ import annotations

import hashlib
import shutil
import tarfile
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from record.archive.bag import BagFile
from record.halves import half_of
from record.log import LogFault
from record.log.whole import OWNER_FILE, OWNER_FOLDER, write_file


def write_folder(files: Sequence[BagFile], to: Path) -> None:
    """Write a bag as a folder that is not there yet. Raises LogFault."""
    refuse_what_is_there(to)
    half = half_of(to)
    try:
        half.mkdir(OWNER_FOLDER, parents=True)
        for file in files:
            place = half / file.path
            for folder in reversed(place.relative_to(half).parents[:-1]):
                (half / folder).mkdir(OWNER_FOLDER, exist_ok=True)
            write_file(place, [whole(file)])
        half.rename(to)
    except OSError as fault:
        raise LogFault(
            f"{to} cannot be written: {fault.strerror or fault}; nothing was packed"
        ) from fault
    finally:
        shutil.rmtree(half, ignore_errors=True)


def write_tar(pieces: Iterable[bytes], to: Path) -> None:
    """Write the bytes of a file that is not there yet. Raises LogFault."""
    refuse_what_is_there(to)
    half = half_of(to)
    try:
        write_file(half, pieces)
        half.rename(to)
    except OSError as fault:
        raise LogFault(
            f"{to} cannot be written: {fault.strerror or fault}; nothing was packed"
        ) from fault
    finally:
        half.unlink(missing_ok=True)


def refuse_what_is_there(to: Path) -> None:
    if to.exists() or to.is_symlink():
        raise LogFault(f"{to} is there already; nothing was packed. Name another.")


def whole(file: BagFile) -> bytes:
    """Return a file's bytes. Raises LogFault where they are not what was to be packed."""
    data = file.read()
    if hashlib.sha256(data).hexdigest() != file.sha256:
        raise LogFault(f"{file.path} was changed while it was packed; nothing was packed")
    return data


def tar_pieces(files: Iterable[BagFile], name: str) -> Iterator[bytes]:
    """
    Yield a tar (POSIX.1-2001, pax) of a bag in the folder ``name``, piece by piece.

    Owners, modes and days are the same for every file, so that the same bag is the same tar.
    """
    for file in files:
        data = whole(file)
        member = tarfile.TarInfo(f"{name}/{file.path}")
        member.size, member.mode, member.mtime = len(data), OWNER_FILE, 0
        yield member.tobuf(tarfile.PAX_FORMAT)
        yield data
        yield b"\0" * (-len(data) % tarfile.BLOCKSIZE)
    yield b"\0" * (2 * tarfile.BLOCKSIZE)
