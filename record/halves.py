"""Names for what is not whole yet, and what is left of such when its process was killed.

`.NAME.` and twelve hex digits, beside what it is to become. It is drawn, not counted: what a killed
process left behind must never stand in the way of the next one, which may well have its number.
"""

from __future__ import annotations

import os
import re
import secrets
import shutil
import time
from contextlib import suppress
from pathlib import Path

LONG = 200  # bytes; a name may have 255
#: Seconds in which nothing of it changed: no command of this program writes for so long.
LEFT_S = 24 * 3600
_HASH = r"[0-9a-f]{64}(?:\.[a-z0-9]{1,8})?"  # kept files are named by one
_END = r"\.[0-9a-f]{12}(?:-wal|-shm|-journal)?"
_cleared: set[tuple[Path, str]] = set()


def half_of(place: Path) -> Path:
    """
    Return a name beside ``place`` that nothing has, for what is not whole yet.

    What a killed process left there under such a name, a day ago or more, is removed first: of the
    same name, or in a folder of kept files of any of them.
    """
    name = place.name if len(os.fsencode(place.name)) <= LONG else place.name[:40]
    clear_left(place.parent, _HASH if re.fullmatch(_HASH, name) else re.escape(name))
    return place.with_name(f".{name}.{secrets.token_hex(6)}")


def clear_left(folder: Path, names: str) -> None:
    """Remove halves of ``names``, a pattern, that nothing has written to for a day; once."""
    if (folder, names) in _cleared:
        return
    _cleared.add((folder, names))
    left = re.compile(rf"\.(?:{names}){_END}")
    with suppress(OSError), os.scandir(folder) as found:
        there = [Path(each.path) for each in found if left.fullmatch(each.name)]
        for each in there:
            _remove_if_left(each)


def _remove_if_left(half: Path) -> None:
    """Remove it if it is this login's own, no link, and all of it is old."""
    with suppress(OSError):  # what cannot be removed stands in nobody's way
        if half.is_symlink() or half.lstat().st_uid != os.getuid():
            return
        if time.time() - _newest(half) < LEFT_S:
            return
        if half.is_dir():
            shutil.rmtree(half)
        else:
            half.unlink()


def _newest(half: Path) -> float:
    """Return when anything of it was last written, seconds since 1970. Raises OSError."""
    newest = half.lstat().st_mtime
    for folder, _, files in os.walk(half, followlinks=False):
        for path in (Path(folder), *(Path(folder) / name for name in files)):
            newest = max(newest, path.lstat().st_mtime)
    return newest
