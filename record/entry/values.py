"""What an entry is: its link, its content, and the number people use."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import msgspec

WRITER = re.compile(r"[a-z][a-z0-9]{0,15}")


class BadLine(ValueError):
    """A line that is not an entry line; the text says what is wrong with it."""


class Replaces(msgspec.Struct, frozen=True, gc=False):
    """One earlier entry that is mended: its link hash, its number, and which fields.

    No fields at all means the whole entry.
    """

    entry: str
    number: str
    fields: tuple[str, ...] = ()


class Content(msgspec.Struct, frozen=True, gc=False, kw_only=True):
    """What one entry says. ``body`` holds plain JSON values; their meaning is the kind's."""

    kind: str
    version: int
    about: str
    on: str  # ISO date: true in the field
    body: Mapping[str, Any]
    at: str | None = None  # HH:MM, local; None is "order not known"
    zone: str | None = None
    did: str | None = None
    saw: str | None = None
    by: str | None = None
    readers: tuple[str, ...] = ("owner",)
    seen: Mapping[str, str] | None = None  # writer -> link hash: other chains known when writing
    replaces: tuple[Replaces, ...] = ()
    because: str | None = None
    source: Mapping[str, Any] | None = None


class Link(msgspec.Struct, frozen=True, gc=False, kw_only=True):
    """Where one entry stands in its writer's chain."""

    site: str
    writer: str
    seq: int
    recorded: str  # ISO instant in UTC: a claim of the writer's clock
    content: str
    prev: str | None


@dataclass(frozen=True, slots=True)
class Swapped:
    """What an entry says in its own line, where two tags were swapped that it names.

    ``doubt``: whether it was written before or after they were is not known.
    """

    written: Content
    by: tuple[Entry, ...]
    doubt: bool = False


class Entry(msgspec.Struct, frozen=True, gc=False):
    """One sealed entry. ``content`` is None where this copy does not hold it.

    The fold reads an entry whose tags were swapped as it was meant, and keeps beside it in
    ``swapped`` what was written; the lines are as they were sealed.
    """

    link: Link
    link_line: bytes
    hash: str
    content: Content | None
    content_line: bytes | None
    swapped: Swapped | None = None
    mark: str = ""  # of a fork: as much of the hash as tells it from its twin

    @property
    def place(self) -> str:
        """Writer and number, such as ``ck-17``; of a fork, its twin has the same."""
        return f"{self.link.writer}-{self.link.seq}"

    @property
    def number(self) -> str:
        """The number people use, such as ``ck-17``, or ``ck-17/a3f2`` where that stands twice."""
        return f"{self.place}/{self.mark}" if self.mark else self.place

    @property
    def order(self) -> tuple[str, str, int, str]:
        """A stable order to show entries in. It decides nothing."""
        return (self.link.recorded, self.link.writer, self.link.seq, self.hash)


def digest(line: bytes) -> str:
    """Return the SHA-256 of a line, line feed included, in hex."""
    return hashlib.sha256(line).hexdigest()
