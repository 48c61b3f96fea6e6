"""A record's folder: the database under its fixed name, and kept files beside it.

record.sqlite     the entry lines
sheets/           day sheets as they were posted, named by their SHA-256
photos/           picture files as they came, named by their SHA-256
editions/         manuals as they were issued, named by their SHA-256
reserved/         what a copy reserves of what it lacks, named by a hash of which entries those are
packed/           the signature and manifests of the bag that a copy was made of, named likewise

An encrypted one has all of it in one folder, of which the one with the highest number counts:

sealed-1/record.sqlcipher
sealed-1/kept/
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Protocol

from record.log.plain import read_plain
from record.log.whole import OWNER_FOLDER, put_whole

DATABASE = "record.sqlite"
SEALED_DATABASE = "record.sqlcipher"
SEALED = re.compile(r"sealed-([1-9][0-9]{0,8})")
CACHES = ("index.cache", "manual.cache", "recall.kept")  # files, a folder: derived, deletable
WORK, BYGONE = ".converting", ".converted"  # what is made, or taken away, when it is converted
PLACES = ("sheets", "photos", "editions", "reserved", "packed")
HASH = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Found:
    """A kept file: where it lies, in words, its suffix and its bytes."""

    where: str
    suffix: str
    data: bytes

    @property
    def sha256(self) -> str:
        return hashlib.sha256(self.data).hexdigest()


class Files(Protocol):
    """Where a record's files are kept: sheets, photos, editions, each under its SHA-256."""

    def found(self, what: str, sha256: str) -> Found | None: ...

    def keep(self, what: str, data: bytes, suffix: str) -> str: ...

    def put(self, what: str, sha256: str, suffix: str, data: bytes) -> None: ...


@dataclass(frozen=True, slots=True)
class Folder:
    """The places of one record. Nothing is opened or made by naming them."""

    path: Path

    @property
    def database(self) -> Path:
        """The database, there already or to be made; an encrypted one counts before a plain."""
        sealed = self.sealed()
        return sealed[-1] / SEALED_DATABASE if sealed else self.path / DATABASE

    def sealed(self) -> tuple[Path, ...]:
        """Return the folders in it that hold an encrypted database, the one that counts last."""
        there = self.sealed_folders()
        return tuple(each for each in there if (each / SEALED_DATABASE).is_file())

    def sealed_folders(self) -> tuple[Path, ...]:
        """Return the folders that are named for one, even where the database is gone."""
        try:
            with os.scandir(self.path) as found:
                names = [each.name for each in found if SEALED.fullmatch(each.name)]
        except OSError:
            return ()
        return tuple(sorted((self.path / name for name in names), key=number_of))

    def left_open(self) -> bool:
        """Return whether plain or older files of an encrypted record lie beside it still."""
        others = (self.path / name for name in (DATABASE, WORK, *CACHES))
        there = len(self.sealed_folders()) > 1 or any(each.exists() for each in others)
        return there or next(self.every_place(), None) is not None

    def kept(self, what: str, sha256: str, suffix: str) -> Path:
        """Return where a kept file lies: ``what`` is sheets, photos or editions."""
        return self.path / what / f"{sha256}{suffix}"

    def found(self, what: str, sha256: str) -> Found | None:
        """Return a kept file, whatever it holds by now, or None. Raises OSError."""
        place = self.path / what
        for names in (_names, _names.__wrapped__):  # what was listed before may have changed since
            with suppress(FileNotFoundError, NotADirectoryError):
                if name := names(str(place), place.stat().st_mtime_ns).get(sha256):
                    found = place / name
                    return Found(str(found), found.suffix, read_plain(found))
        return None

    def every(self) -> Iterator[tuple[str, str, Found]]:
        """Yield (what, SHA-256 by its name, the file) for each that is kept. Raises OSError."""
        for place in self.every_place():
            sha256, _, rest = place.name.partition(".")
            suffix = f".{rest}" if rest else ""
            yield place.parent.name, sha256, Found(str(place), suffix, place.read_bytes())

    def every_place(self) -> Iterator[Path]:
        """Yield where each kept file lies; other files in those folders are somebody's own."""
        for what in PLACES:
            with suppress(FileNotFoundError, NotADirectoryError):
                for place in sorted((self.path / what).iterdir()):
                    if HASH.fullmatch(place.name.partition(".")[0]) and place.is_file():
                        yield place

    def put(self, what: str, sha256: str, suffix: str, data: bytes) -> None:
        """Write ``data`` as what is kept under ``sha256``, whatever it is. Raises OSError."""
        write_whole(self.kept(what, sha256, suffix), data)

    def keep(self, what: str, data: bytes, suffix: str) -> str:
        """
        Write ``data`` under its hash, down to the disk, and return the hash.

        It is on the disk before any entry names it, so an entry never points at nothing. A
        file already there with the same bytes is left alone. Raises OSError.
        """
        sha256 = hashlib.sha256(data).hexdigest()
        place = self.kept(what, sha256, suffix)
        if place.exists() and hashlib.sha256(place.read_bytes()).hexdigest() == sha256:
            return sha256
        write_whole(place, data)
        return sha256


def number_of(sealed: Path) -> int:
    return int(sealed.name.partition("-")[2])


@lru_cache(maxsize=16)
def _names(place: str, _changed_ns: int) -> Mapping[str, str]:
    """List a folder of kept files once, by hash: a record of many pictures is asked for each."""
    return {
        path.name.partition(".")[0]: path.name
        for path in sorted(Path(place).iterdir(), reverse=True)
    }


def write_whole(place: Path, data: bytes) -> None:
    """Write a file in a folder that need not be there yet. Raises OSError."""
    place.parent.mkdir(mode=OWNER_FOLDER, exist_ok=True)
    put_whole(place, [data])
