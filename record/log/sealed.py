"""Kept files of an encrypted record: each encrypted, under a name that says nothing of it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from record.log.faults import LogFault
from record.log.folder import HASH, Found, write_whole
from record.secret import Vault

KEPT = "kept"


@dataclass(frozen=True, slots=True, repr=False)
class SealedFiles:
    """The kept files of one encrypted record; before each stands what it is, on a line."""

    path: Path  # the folder of the encrypted database
    vault: Vault

    def place(self, what: str, sha256: str) -> Path:
        return self.path / KEPT / self.vault.name(what, sha256)

    def found(self, what: str, sha256: str) -> Found | None:
        """
        Return a kept file, or None. Raises OSError.

        One that was changed, cut short or changed places does not open: it comes as it lies,
        so that its hash is another.
        """
        place = self.place(what, sha256)
        try:
            sealed = place.read_bytes()
        except FileNotFoundError:
            return None
        inside = self.vault.shown(place.name, sealed)
        if inside is None:
            return Found(str(place), "", sealed)
        head, _, data = inside.partition(b"\n")
        return Found(str(place), head.decode().removeprefix(f"{what}/{sha256}"), data)

    def every(self) -> Iterator[tuple[str, str, Found]]:
        """
        Yield (what, SHA-256, the file) for each that is kept. Raises OSError.

        Raises LogFault at one that does not open: nobody could tell what it was.
        """
        with suppress(FileNotFoundError):
            for place in sorted((self.path / KEPT).iterdir()):
                if HASH.fullmatch(place.name):
                    yield self._told(place)

    def _told(self, place: Path) -> tuple[str, str, Found]:
        inside = self.vault.shown(place.name, place.read_bytes())
        if inside is None:
            raise LogFault(
                f"{place} does not open: it was changed or cut short. `asburied verify` names the "
                "entry it is of; restore it from a copy, or move it away to go on without it"
            )
        head, _, data = inside.partition(b"\n")
        what, _, name = head.decode().partition("/")
        sha256, suffix = name[:64], name[64:]
        return what, sha256, Found(str(place), suffix, data)

    def keep(self, what: str, data: bytes, suffix: str) -> str:
        """Write ``data`` encrypted, down to the disk, and return its hash. Raises OSError."""
        sha256 = hashlib.sha256(data).hexdigest()
        there = self.found(what, sha256)
        if there is None or there.sha256 != sha256:
            self.put(what, sha256, suffix, data)
        return sha256

    def put(self, what: str, sha256: str, suffix: str, data: bytes) -> None:
        """Write ``data`` as what is kept under ``sha256``, whatever it is. Raises OSError."""
        place = self.place(what, sha256)
        inside = f"{what}/{sha256}{suffix}\n".encode() + data
        write_whole(place, self.vault.hidden(place.name, inside))
