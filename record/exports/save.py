"""What was exported is written whole or not at all, for its owner alone, and over nothing."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

from record.halves import half_of
from record.log import LogFault
from record.log.whole import OWNER_FOLDER, write_file


def save_file(data: bytes, to: Path) -> None:
    """Write a new file. Raises LogFault."""
    refuse_what_is_there(to)
    half = half_of(to)
    try:
        write_file(half, [data])
        half.rename(to)
    except OSError as fault:
        raise _not_written(to, fault) from fault
    finally:
        half.unlink(missing_ok=True)


def save_folder(files: Mapping[str, bytes], to: Path) -> None:
    """Write a new folder of files by their names. Raises LogFault."""
    refuse_what_is_there(to)
    half = half_of(to)
    try:
        half.mkdir(OWNER_FOLDER)
        for name, data in files.items():
            write_file(half / name, [data])
        half.rename(to)
    except OSError as fault:
        raise _not_written(to, fault) from fault
    finally:
        shutil.rmtree(half, ignore_errors=True)


def refuse_what_is_there(to: Path) -> None:
    if to.exists() or to.is_symlink():
        raise LogFault(f"{to} is there already; nothing was written. Name another.")


def _not_written(to: Path, fault: OSError) -> LogFault:
    return LogFault(f"{to} cannot be written: {fault.strerror or fault}; nothing was written")
