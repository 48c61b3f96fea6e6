"""The strict reader: what an entry line may hold, and the words for what it may not."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from datetime import datetime
from functools import lru_cache
from typing import Any

from record.entry.values import WRITER, BadLine, Content, Link, Replaces

LONGEST_LINE = 1_000_000  # bytes; a longer line is damage, or an attack on memory
DEEPEST = 32  # objects within objects; more than any fact needs, far from any program's limit


def read_link_strictly(line: bytes) -> Link:
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
        recorded=a_moment(_take(value, "recorded", str), "%Y-%m-%dT%H:%M:%SZ", "an instant in UTC"),
        content=a_hash(value.get("content"), "content"),
        prev=None if prev is None else a_hash(prev, "prev"),
    )


def read_content_strictly(line: bytes) -> Content:
    value = _object(line)
    seen = _take(value, "seen", dict, {})
    version = _take(value, "v", int)
    if version < 1:
        raise BadLine(f"the version {version} is below 1")
    return Content(
        kind=_take(value, "kind", str),
        version=version,
        about=_take(value, "about", str, ""),
        on=a_moment(_take(value, "on", str), "%Y-%m-%d", "a day"),
        at=a_moment(_take(value, "at", str, None), "%H:%M", "an hour"),
        zone=_take(value, "zone", str, None),
        did=_take(value, "did", str, None),
        saw=_take(value, "saw", str, None),
        by=_take(value, "by", str, None),
        readers=_words(_take(value, "readers", list, ["owner"]), "readers"),
        seen={writer: a_hash(head, "seen") for writer, head in seen.items()},
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
        entry=a_hash(value.get("entry"), "replaces"),
        number=_take(value, "number", str),
        fields=_words(_take(value, "fields", list, []), "fields"),
    )


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


def a_hash(value: Any, key: str) -> str:
    if not isinstance(value, str) or not _is_hash(value):
        raise BadLine(f'"{key}" is not a SHA-256 in hex')
    return value


@lru_cache(maxsize=4096)  # what entries had seen is mostly the same heads
def _is_hash(text: str) -> bool:
    return _HASH.fullmatch(text) is not None


def a_moment(text: str | None, form: str, what: str) -> Any:
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
