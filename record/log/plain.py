"""Plain files alone: what a stranger's folder holds is read so.

A pipe may never end and a device never stop giving; either would hold whoever opens it.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path


def read_plain(path: Path) -> bytes:
    """Return a file's bytes, links followed. Raises OSError, for what is no plain file too."""
    descriptor = os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    with os.fdopen(descriptor, "rb") as file:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            raise OSError(errno.EINVAL, "it is no plain file", str(path))
        return file.read()
