"""A bag's record read where the bag lies, so that no plain byte of it is written anywhere.

Each file is held to its hash when it is checked and once more when it is used: what somebody
changes between the two is told, and goes in nowhere.
"""

from __future__ import annotations

import errno
import hashlib
from dataclasses import dataclass
from functools import cached_property
from pathlib import PurePosixPath

from record.archive.bag import PAYLOAD
from record.archive.check import BadBag, Held, Source, held
from record.log import Handed, handed_lines
from record.log.folder import Found


@dataclass(frozen=True)
class BagFiles:
    """What a bag's payload holds, read from its source when it is asked for."""

    source: Source
    held: Held

    def read(self, name: str) -> bytes:
        """Return a file of the payload by its name. Raises FileNotFoundError, BadBag."""
        path = f"{PAYLOAD}{name}"
        if path not in self.held.payload:
            raise FileNotFoundError(errno.ENOENT, "it is not in the bag", path)
        data = b"".join(self.source.pieces(path))
        if hashlib.sha256(data).hexdigest() != self.held.payload[path]:
            raise BadBag(
                f"{self.source.name}: {path} was changed while it was read; nothing was restored"
            )
        return data

    @cached_property
    def _kept(self) -> dict[tuple[str, str], PurePosixPath]:
        paths = (PurePosixPath(path.removeprefix(PAYLOAD)) for path in self.held.payload)
        return {
            (path.parts[0], path.name.partition(".")[0]): path
            for path in sorted(paths, reverse=True)
            if len(path.parts) == 2
        }

    def found(self, what: str, sha256: str) -> Found | None:
        path = self._kept.get((what, sha256))
        if path is None:
            return None
        return Found(f"{PAYLOAD}{path}", path.suffix, self.read(str(path)))

    def keep(self, what: str, data: bytes, suffix: str) -> str:
        raise OSError(errno.EROFS, "a bag is not written to", what)

    def put(self, what: str, sha256: str, suffix: str, data: bytes) -> None:
        raise OSError(errno.EROFS, "a bag is not written to", what)


def handed_in_place(source: Source) -> tuple[Handed, Held]:
    """
    Return the record that a bag holds, and what it was held to. Raises BadBag, NotMerged.
    """
    found = BagFiles(source, held(source))
    return handed_lines(source.name / "data", found, found.read), found.held
