"""Stored lines are read here: quickly where nothing in a line is loose, else strictly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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

    Whether the hashes agree is asked by ``record.log.verifying``, which names the entry.
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


class LinkLine(msgspec.Struct, frozen=True, gc=False):
    """A link line as it was sealed, its values not yet looked at."""

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


class ContentLine(msgspec.Struct, frozen=True, gc=False):
    """A content line as it was sealed, its values not yet looked at."""

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


_quick_link = msgspec.json.Decoder(LinkLine)
_quick_content = msgspec.json.Decoder(ContentLine)
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


def at_once(
    links: Sequence[bytes], contents: Sequence[bytes]
) -> tuple[list[LinkLine], list[ContentLine]] | None:
    """
    Return what many lines hold, or None where one of them must be read by itself.

    None is returned for the least doubt: nothing is among what is returned that :func:`read`
    would refuse, but for numbers and hashes of other lines (``seq``, ``content``, ``prev``,
    ``seen``), which are to be held against those lines. It takes a third of the time.
    """
    of_links, of_contents = _all(links, _quick_link), _all(contents, _quick_content)
    if of_links is None or of_contents is None:
        return None
    try:
        for link in {(each.writer, each.recorded): each for each in of_links}.values():
            _link(link)
        for day in {each.on for each in of_contents}:
            a_moment(day, "%Y-%m-%d", "a day")
        for hour in {each.at for each in of_contents}:
            a_moment(hour, "%H:%M", "an hour")
        if min((each.v for each in of_contents), default=1) < 1:
            return None
        for target in (each for content in of_contents for each in content.replaces):
            a_hash(target.entry, "replaces")
    except BadLine:
        return None
    return of_links, of_contents


def _all(lines: Sequence[bytes], reader: msgspec.json.Decoder[_T]) -> list[_T] | None:
    whole = b"".join(lines)
    one_each = whole.count(b"\n") == len(lines) and all(line[-1:] == b"\n" for line in lines)
    if not one_each or max(map(len, lines), default=0) > LONGEST_LINE:
        return None
    try:
        values: list[_T] = reader.decode_lines(whole)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return None
    return values if _again.encode_lines(values) == whole else None


def entry_of(
    link: LinkLine, link_line: bytes, sha256: str, content: ContentLine, content_line: bytes
) -> Entry:
    """Return the entry of two lines that :func:`at_once` has read."""
    return Entry(_link_of(link), link_line, sha256, _content_of(content), content_line)


def read_link(line: bytes) -> Link:
    """Return the link that ``line`` holds. Raises BadLine."""
    quick = _quick(line, _quick_link)
    return read_link_strictly(line) if quick is None else _link(quick)


def _link(quick: LinkLine) -> Link:
    if not _is_writer(quick.writer):
        raise BadLine(f'"{quick.writer}" is not a writer')
    if quick.seq < 1:
        raise BadLine(f"the sequence number {quick.seq} is below 1")
    a_moment(quick.recorded, "%Y-%m-%dT%H:%M:%SZ", "an instant in UTC")
    a_hash(quick.content, "content")
    if quick.prev is not None:
        a_hash(quick.prev, "prev")
    return _link_of(quick)


def _link_of(quick: LinkLine) -> Link:
    return Link(
        site=quick.site,
        writer=quick.writer,
        seq=quick.seq,
        recorded=quick.recorded,
        content=quick.content,
        prev=quick.prev,
    )


def read_content(line: bytes) -> Content:
    """Return what ``line`` says. Raises BadLine. An unknown kind is read like any other."""
    quick = _quick(line, _quick_content)
    return read_content_strictly(line) if quick is None else _content(quick)


def _content(quick: ContentLine) -> Content:
    if quick.v < 1:
        raise BadLine(f"the version {quick.v} is below 1")
    a_moment(quick.on, "%Y-%m-%d", "a day")
    a_moment(quick.at, "%H:%M", "an hour")
    for each in quick.replaces:
        a_hash(each.entry, "replaces")
    return _content_of(quick)


def _content_of(quick: ContentLine) -> Content:
    return Content(
        kind=quick.kind,
        version=quick.v,
        about=quick.about,
        on=quick.on,
        at=quick.at,
        zone=quick.zone,
        did=quick.did,
        saw=quick.saw,
        by=quick.by,
        readers=_readers(tuple(quick.readers)),
        seen=_seen(tuple(quick.seen.items())),
        body=quick.body,
        replaces=tuple(Replaces(r.entry, r.number, tuple(r.fields)) for r in quick.replaces),
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
