"""Where a record is: a folder, or a site in a database of many.

A place is written ``postgresql://host/database#site``. Passwords come from the environment or a
password file of libpq, never from the place itself.
"""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

SCHEMES = ("postgresql://", "postgres://")


class PasswordInPlace(ValueError):
    """A password stands in the place of a database, where others could read it."""


@dataclass(frozen=True, slots=True)
class Office:
    """A database of many sites, and perhaps one site in it."""

    url: str
    site: str = ""

    def __str__(self) -> str:
        return f"{self.url}#{self.site}" if self.site else self.url

    def of(self, site: str) -> Office:
        return Office(self.url, site)


Place = Path | Office


def place_of(text: str) -> Place:
    """
    Return where a record is: a folder, or a database's place. Raises PasswordInPlace.

    >>> place_of("postgresql://ld@office/asburied#larch-end")
    Office(url='postgresql://ld@office/asburied', site='larch-end')
    """
    if not text.startswith(SCHEMES):
        return Path(text)
    url, _, site = text.partition("#")
    parts = urlsplit(url)
    if parts.password is not None or "password=" in parts.query.casefold():
        raise PasswordInPlace(
            "a password on the command line can be read by others; leave it out, and put it "
            "into ~/.pgpass, or a file that $PGPASSFILE names"
        )
    return Office(url, site)


def cache_of(office: Office, name: str) -> Path:
    """Return where this person keeps what is derived from a database; it can be deleted."""
    base = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return base / "asburied" / f"{hashlib.sha256(str(office).encode()).hexdigest()[:24]}-{name}"
