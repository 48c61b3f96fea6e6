"""The entry line: its exact bytes, its number, and its seal over the line before.

An entry is two lines of JSON in UTF-8, each ended by one line feed:

    link     site, writer, seq, recorded, content (hash), prev (hash)
    content  salt, kind, v, about, on, at, zone, did, saw, by, readers, seen,
             body, replaces, because, from

The lines are stored, hashed and exported as the bytes they were sealed with and are never
written again from parsed values. A hash is the SHA-256, in hex, of a line **with** its line
feed, so that ``sed -n 17p links.jsonl | sha256sum`` gives it. The chain runs over links only:
a reader's copy may lack contents and still verify.

Numbers that were measured are strings; a JSON number here is a count, never a measurement.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from typing import Annotated, Any, TypeVar

import msgspec

WRITER = re.compile(r"[a-z][a-z0-9]{0,15}")
LONGEST_LINE = 1_000_000  # bytes; a longer line is damage, or an attack on memory
DEEPEST = 32  # objects within objects; more than any fact needs, far from any program's limit


class BadLine(ValueError):
    """A line that is not an entry line; the text says what is wrong with it."""


@dataclass(frozen=True, slots=True)
class Replaces:
    """One earlier entry that is mended: its link hash, its number, and which fields.

    No fields at all means the whole entry.
    """

    entry: str
    number: str
    fields: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
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


@dataclass(frozen=True, slots=True)
class Entry:
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


_encoder = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))


def _line(value: Mapping[str, Any]) -> bytes:
    text = _encoder.encode(value) + "\n"
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError as fault:
        raise BadLine("half a character stands in a text") from fault


def seal(
    content: Content,
    *,
    site: str,
    writer: str,
    seq: int,
    recorded: str,
    prev: str | None,
    salt: bytes,
) -> Entry:
    """Return the entry that says ``content`` as number ``seq`` of ``writer``'s chain.

    ``salt`` is 16 random bytes; it keeps a withheld content from being guessed from its hash.
    Raises BadLine for what could not be read again: it would stop the whole record.
    """
    if len(salt) != 16:
        raise ValueError(f"a salt is 16 bytes, not {len(salt)}")
    content_line = _line(
        {
            "salt": salt.hex(),
            "kind": content.kind,
            "v": content.version,
            "about": content.about,
            "on": content.on,
            "at": content.at,
            "zone": content.zone,
            "did": content.did,
            "saw": content.saw,
            "by": content.by,
            "readers": list(content.readers),
            "seen": dict(sorted((content.seen or {}).items())),
            "body": dict(content.body),
            "replaces": [
                {"entry": r.entry, "number": r.number, "fields": list(r.fields)}
                for r in content.replaces
            ],
            "because": content.because,
            "from": dict(content.source) if content.source else None,
        }
    )
    link_line = _line(
        {
            "site": site,
            "writer": writer,
            "seq": seq,
            "recorded": recorded,
            "content": digest(content_line),
            "prev": prev,
        }
    )
    return read(link_line, content_line)


def _no_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Refuse a key that stands twice: two readers could take two different values."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise BadLine("a key stands twice")
    return found


def _no_fraction(text: str) -> Any:
    raise BadLine(f"{text[:40]} is a bare number; a measured number is written as a string")


def _whole(text: str) -> int:
    if len(text) > 15:
        raise BadLine(f"{text[:20]}… is too long for a count")
    return int(text)


_strict = json.JSONDecoder(
    object_pairs_hook=_no_twice,
    parse_float=_no_fraction,
    parse_constant=_no_fraction,
    parse_int=_whole,
)


def _object(line: bytes) -> dict[str, Any]:
    if not line.endswith(b"\n") or line.count(b"\n") != 1:
        raise BadLine("a line ends in one line feed, and holds no other")
    if len(line) > LONGEST_LINE:
        raise BadLine(f"the line is longer than {LONGEST_LINE} bytes")
    try:
        text = line[:-1].decode("utf-8")
    except UnicodeDecodeError as fault:
        raise BadLine(f"byte {fault.start + 1} is not UTF-8") from fault
    try:
        value = _strict.decode(text)
    except RecursionError as fault:
        raise BadLine("the line is nested too deeply") from fault
    except json.JSONDecodeError as fault:
        raise BadLine(f"not JSON at column {fault.colno}: {fault.msg}") from fault
    if not isinstance(value, dict):
        raise BadLine("the line is not a JSON object")
    # Half a character can only come by an escape, and depth only by brackets.
    if "\\u" in text or text.count("[") + text.count("{") > DEEPEST:
        _check_within(value)
    return value


_HALF = re.compile("[\\ud800-\\udfff]")  # of a UTF-16 pair: JSON can write one alone, UTF-8 cannot


def _check_within(value: Any) -> None:
    """Refuse what could be read here and break whatever works with it later."""
    waiting = [(value, 1)]
    while waiting:
        at, depth = waiting.pop()
        if depth > DEEPEST:
            raise BadLine("the line is nested too deeply")
        if isinstance(at, dict):
            waiting += [(key, depth) for key in at]
            waiting += [(each, depth + 1) for each in at.values()]
        elif isinstance(at, list):
            waiting += [(each, depth + 1) for each in at]
        elif isinstance(at, str) and _HALF.search(at):
            raise BadLine("half a character stands in a text")


_MUST = object()
_HASH = re.compile(r"[0-9a-f]{64}")


def _take(value: Mapping[str, Any], key: str, of: type, default: Any = _MUST) -> Any:
    got = value.get(key)
    if got is None:
        if default is _MUST:
            raise BadLine(f'"{key}" is missing')
        return default
    if not isinstance(got, of) or isinstance(got, bool):
        raise BadLine(f'"{key}" is {type(got).__name__}, not {of.__name__}')
    return got


def _hash(value: Any, key: str) -> str:
    if not isinstance(value, str) or not _is_hash(value):
        raise BadLine(f'"{key}" is not a SHA-256 in hex')
    return value


@lru_cache(maxsize=4096)  # what entries had seen is mostly the same heads
def _is_hash(text: str) -> bool:
    return _HASH.fullmatch(text) is not None


def _moment(text: str | None, form: str, what: str) -> Any:
    """Return ``text`` if it is a day, an hour or an instant that exists, written just so."""
    if text is not None and not _exists(text, form):
        raise BadLine(f'"{text[:40]}" is not {what}')
    return text


@lru_cache(maxsize=4096)  # a sheet's entries share their day and the moment of writing
def _exists(text: str, form: str) -> bool:
    try:
        return datetime.strptime(text, form).strftime(form) == text
    except ValueError:
        return False


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
        return _read_link_strictly(line)
    if not _is_writer(quick.writer):
        raise BadLine(f'"{quick.writer}" is not a writer')
    if quick.seq < 1:
        raise BadLine(f"the sequence number {quick.seq} is below 1")
    return Link(
        site=quick.site,
        writer=quick.writer,
        seq=quick.seq,
        recorded=_moment(quick.recorded, "%Y-%m-%dT%H:%M:%SZ", "an instant in UTC"),
        content=_hash(quick.content, "content"),
        prev=None if quick.prev is None else _hash(quick.prev, "prev"),
    )


def read_content(line: bytes) -> Content:
    """Return what ``line`` says. Raises BadLine. An unknown kind is read like any other."""
    quick = _quick(line, _quick_content)
    if quick is None:
        return _read_content_strictly(line)
    if quick.v < 1:
        raise BadLine(f"the version {quick.v} is below 1")
    return Content(
        kind=quick.kind,
        version=quick.v,
        about=quick.about,
        on=_moment(quick.on, "%Y-%m-%d", "a day"),
        at=_moment(quick.at, "%H:%M", "an hour"),
        zone=quick.zone,
        did=quick.did,
        saw=quick.saw,
        by=quick.by,
        readers=_readers(tuple(quick.readers)),
        seen=_seen(tuple(quick.seen.items())),
        body=quick.body,
        replaces=tuple(
            Replaces(_hash(each.entry, "replaces"), each.number, tuple(each.fields))
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
    return {writer: _hash(head, "seen") for writer, head in heads}


def _read_link_strictly(line: bytes) -> Link:
    value = _object(line)
    writer = _take(value, "writer", str)
    if not WRITER.fullmatch(writer):
        raise BadLine(f'"{writer}" is not a writer')
    seq = _take(value, "seq", int)
    if seq < 1:
        raise BadLine(f"the sequence number {seq} is below 1")
    prev = value.get("prev")
    return Link(
        site=_take(value, "site", str),
        writer=writer,
        seq=seq,
        recorded=_moment(_take(value, "recorded", str), "%Y-%m-%dT%H:%M:%SZ", "an instant in UTC"),
        content=_hash(value.get("content"), "content"),
        prev=None if prev is None else _hash(prev, "prev"),
    )


def _read_content_strictly(line: bytes) -> Content:
    value = _object(line)
    seen = _take(value, "seen", dict, {})
    version = _take(value, "v", int)
    if version < 1:
        raise BadLine(f"the version {version} is below 1")
    return Content(
        kind=_take(value, "kind", str),
        version=version,
        about=_take(value, "about", str, ""),
        on=_moment(_take(value, "on", str), "%Y-%m-%d", "a day"),
        at=_moment(_take(value, "at", str, None), "%H:%M", "an hour"),
        zone=_take(value, "zone", str, None),
        did=_take(value, "did", str, None),
        saw=_take(value, "saw", str, None),
        by=_take(value, "by", str, None),
        readers=_words(_take(value, "readers", list, ["owner"]), "readers"),
        seen={writer: _hash(head, "seen") for writer, head in seen.items()},
        body=_take(value, "body", dict),
        replaces=tuple(_replaces(item) for item in _take(value, "replaces", list, [])),
        because=_take(value, "because", str, None),
        source=_take(value, "from", dict, None),
    )


def _words(value: Iterable[Any], key: str) -> tuple[str, ...]:
    words = tuple(value)
    if not all(isinstance(word, str) for word in words):
        raise BadLine(f'"{key}" holds something that is not a word')
    return words


def _replaces(value: Any) -> Replaces:
    if not isinstance(value, dict):
        raise BadLine('"replaces" holds something that is not an object')
    return Replaces(
        entry=_hash(value.get("entry"), "replaces"),
        number=_take(value, "number", str),
        fields=_words(_take(value, "fields", list, []), "fields"),
    )


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


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """How far a record reached: per writer the count and the last link's hash.

    ``text`` is what is hashed and can be checked by hand: the site, then one sorted line
    ``writer count head`` each. A cut tail or a missing writer does not reproduce it.
    """

    site: str
    heads: tuple[tuple[str, int, str], ...]

    @property
    def text(self) -> str:
        lines = [self.site] + [f"{writer} {count} {head}" for writer, count, head in self.heads]
        return "\n".join(lines) + "\n"

    @property
    def hash(self) -> str:
        return digest(self.text.encode("utf-8"))


def checkpoint(site: str, entries: Iterable[Entry]) -> Checkpoint:
    """Return the checkpoint of ``entries``: the head of every chain, of each branch of a fork."""
    heads = [(e.link.writer, e.link.seq, e.hash) for each in tips(entries).values() for e in each]
    return Checkpoint(site, tuple(sorted(heads)))


def tips(entries: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    """
    Return, by writer, the entries that no other rests on: one, or of a fork one a branch.

    The first is the head that the next entry extends: of the longest branch, then the one with
    the smaller hash, so that every copy chooses alike.
    """
    every = tuple(entries)
    under = {entry.link.prev for entry in every}
    found: dict[str, list[Entry]] = {}
    for entry in every:
        if entry.hash not in under:
            found.setdefault(entry.link.writer, []).append(entry)
    return {
        writer: tuple(sorted(each, key=lambda entry: (-entry.link.seq, entry.hash)))
        for writer, each in sorted(found.items())
    }


def seen_heads(entries: Iterable[Entry], writer: str) -> tuple[Entry | None, dict[str, str]]:
    """
    Return the head that ``writer`` extends, and all other heads as ``seen`` says them.

    A further branch of a forked chain stands beside its writer, as ``ld/a3f2c0d1``.
    """
    own: Entry | None = None
    seen: dict[str, str] = {}
    for whose, heads in tips(entries).items():
        for place, head in enumerate(heads):
            if place == 0 and whose == writer:
                own = head
            else:
                seen[f"{whose}/{head.hash[:8]}" if place else whose] = head.hash
    return own, seen


def forks(entries: Iterable[Entry]) -> dict[tuple[str, str, int], tuple[Entry, ...]]:
    """Return the entries of which two or more share (site, writer, number), sorted by hash."""
    found: dict[tuple[str, str, int], dict[str, Entry]] = {}
    for entry in entries:
        key = (entry.link.site, entry.link.writer, entry.link.seq)
        found.setdefault(key, {})[entry.hash] = entry
    return {
        key: tuple(each[name] for name in sorted(each))
        for key, each in sorted(found.items())
        if len(each) > 1
    }


def numbered(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return ``entries``, those of a fork marked, here and wherever another mends one of them."""
    every = tuple(entries)
    marks = {
        entry.hash: entry.hash[: _told_apart(twins)]
        for twins in forks(every).values()
        for entry in twins
    }
    return tuple(_marked(entry, marks) for entry in every) if marks else every


def _told_apart(twins: Sequence[Entry]) -> int:
    return next(n for n in range(4, 65) if len({e.hash[:n] for e in twins}) == len(twins))


def _marked(entry: Entry, marks: Mapping[str, str]) -> Entry:
    content = entry.content
    if content and any(target.entry in marks for target in content.replaces):
        content = replace(
            content, replaces=tuple(_renumbered(target, marks) for target in content.replaces)
        )
    return replace(entry, content=content, mark=marks.get(entry.hash, ""))


def _renumbered(target: Replaces, marks: Mapping[str, str]) -> Replaces:
    mark = marks.get(target.entry)
    plain = target.number.partition("/")[0]
    return replace(target, number=f"{plain}/{mark}") if mark else target
