"""Stored lines are read here: quickly where nothing in a line is loose, else strictly."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Annotated, TypeVar

import msgspec

from record.entry.strict import (
    LONGEST_LINE,
    a_hash,
    a_moment,
    read_content_strictly,
    read_link_strictly,
)
from record.entry.values import WRITER, BadLine, Content, Entry, Link, Replaces, digest


def read(link_line: bytes, content_line: bytes | None) -> Entry:
    """Return the entry of two stored lines. Raises BadLine where either cannot be read.

    Whether the hashes agree is asked by ``record.log.verify``, which names the entry.
    """
    return Entry(
        read_link(link_line),
        link_line,
        digest(link_line),
        None if content_line is None else read_content(content_line),
        content_line,
    )


# The quick way reads a line as a shape with nothing loose in it, and takes it only if writing
# it again gives the very same bytes: then no key stands twice, no number has a point or is too
# long, and nothing is escaped that need not be. Anything else is judged by the strict reader.
_Count = Annotated[int, msgspec.Meta(ge=-(10**14) + 1, lt=10**15)]
_Plain = str | bool | _Count | None
_Nested = _Plain | list[_Plain] | dict[str, _Plain]
_Deep = _Plain | list[_Nested] | dict[str, _Nested]


class _LinkLine(msgspec.Struct, frozen=True, gc=False):
    site: str
    writer: str
    seq: _Count
    recorded: str
    content: str
    prev: str | None


class _ReplacesLine(msgspec.Struct, frozen=True, gc=False):
    entry: str
    number: str
    fields: list[str]


class _ContentLine(msgspec.Struct, frozen=True, gc=False):
    salt: str
    kind: str
    v: _Count
    about: str
    on: str
    at: str | None
    zone: str | None
    did: str | None
    saw: str | None
    by: str | None
    readers: list[str]
    seen: dict[str, str]
    body: dict[str, _Deep]
    replaces: list[_ReplacesLine]
    because: str | None
    source: dict[str, _Deep] | None = msgspec.field(name="from")


_quick_link = msgspec.json.Decoder(_LinkLine)
_quick_content = msgspec.json.Decoder(_ContentLine)
_again = msgspec.json.Encoder()
_T = TypeVar("_T")


def _quick(line: bytes, reader: msgspec.json.Decoder[_T]) -> _T | None:
    """Return the line's values if they are all of it, or None where it must be read strictly."""
    if len(line) > LONGEST_LINE:
        return None
    try:
        value = reader.decode(line)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return None
    return value if _again.encode(value) + b"\n" == line else None


def read_link(line: bytes) -> Link:
    """Return the link that ``line`` holds. Raises BadLine."""
    quick = _quick(line, _quick_link)
    if quick is None:
        return read_link_strictly(line)
    if not _is_writer(quick.writer):
        raise BadLine(f'"{quick.writer}" is not a writer')
    if quick.seq < 1:
        raise BadLine(f"the sequence number {quick.seq} is below 1")
    return Link(
        site=quick.site,
        writer=quick.writer,
        seq=quick.seq,
        recorded=a_moment(quick.recorded, "%Y-%m-%dT%H:%M:%SZ", "an instant in UTC"),
        content=a_hash(quick.content, "content"),
        prev=None if quick.prev is None else a_hash(quick.prev, "prev"),
    )


def read_content(line: bytes) -> Content:
    """Return what ``line`` says. Raises BadLine. An unknown kind is read like any other."""
    quick = _quick(line, _quick_content)
    if quick is None:
        return read_content_strictly(line)
    if quick.v < 1:
        raise BadLine(f"the version {quick.v} is below 1")
    return Content(
        kind=quick.kind,
        version=quick.v,
        about=quick.about,
        on=a_moment(quick.on, "%Y-%m-%d", "a day"),
        at=a_moment(quick.at, "%H:%M", "an hour"),
        zone=quick.zone,
        did=quick.did,
        saw=quick.saw,
        by=quick.by,
        readers=_readers(tuple(quick.readers)),
        seen=_seen(tuple(quick.seen.items())),
        body=quick.body,
        replaces=tuple(
            Replaces(a_hash(each.entry, "replaces"), each.number, tuple(each.fields))
            for each in quick.replaces
        ),
        because=quick.because,
        source=quick.source,
    )


@lru_cache(maxsize=1024)
def _is_writer(word: str) -> bool:
    return WRITER.fullmatch(word) is not None


@lru_cache(maxsize=1024)  # a record has few sets of readers; one tuple for each saves memory
def _readers(words: tuple[str, ...]) -> tuple[str, ...]:
    return words


@lru_cache(maxsize=256)  # the entries of a sheet had all seen the same: one mapping for them all
def _seen(heads: tuple[tuple[str, str], ...]) -> Mapping[str, str]:
    return {writer: a_hash(head, "seen") for writer, head in heads}
