"""The entries of each kind once more as CSV (RFC 4180), for a spreadsheet. The lines count."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from record.archive.kinds import EVERY
from record.entry import Content, Entry
from record.facts.values import Level, Value, from_json, in_words
from record.units import Quantity

HEAD = (
    "entry",
    "recorded",
    "about",
    "on",
    "at",
    "did",
    "saw",
    "by",
    "readers",
    "mends",
    "because",
)
UNREAD = "not-read-here"


def twins(entries: Sequence[Entry]) -> Iterator[tuple[str, bytes]]:
    """Yield (stored word of a kind, its CSV); kinds this version does not know go together."""
    by_kind: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.content is not None:
            known = (entry.content.kind, entry.content.version) in EVERY
            by_kind.setdefault(entry.content.kind if known else UNREAD, []).append(entry)
    for word, found in sorted(by_kind.items()):
        yield word, _unread(found) if word == UNREAD else _of_kind(found)


def _of_kind(entries: Sequence[Entry]) -> bytes:
    rows = [_row(entry) for entry in entries]
    names: dict[str, None] = {}
    for entry in entries:
        if entry.content is not None:
            fields = EVERY[entry.content.kind, entry.content.version].fields
            names |= dict.fromkeys(_columns(tuple(field.name for field in fields), rows))
    more = {name for row in rows for name in row} - names.keys() - set(HEAD)
    return _table([*HEAD, *names, *sorted(more)], rows)


def _columns(names: Sequence[str], rows: Sequence[Mapping[str, str]]) -> Iterator[str]:
    for name in names:
        yield name
        if any(f"{name}_si" in row for row in rows):
            yield from (f"{name}_si", f"{name}_unit")


def _row(entry: Entry) -> dict[str, str]:
    assert entry.content is not None
    row = _head(entry, entry.content)
    for name, form in entry.content.body.items():
        value = from_json(form)
        row[name] = in_words(value)
        if measured := _measured(value):
            row[f"{name}_si"], row[f"{name}_unit"] = str(measured.si), measured.unit
    return row


def _measured(value: Value) -> Quantity | None:
    if isinstance(value, Level):
        return value.height
    return value if isinstance(value, Quantity) else None


def _head(entry: Entry, content: Content) -> dict[str, str]:
    return {
        "entry": entry.number,
        "recorded": entry.link.recorded,
        "about": content.about,
        "on": content.on,
        "at": content.at or "",
        "did": content.did or "",
        "saw": content.saw or "",
        "by": content.by or "",
        "readers": ", ".join(content.readers),
        "mends": ", ".join(target.number for target in content.replaces),
        "because": content.because or "",
    }


def _unread(entries: Sequence[Entry]) -> bytes:
    rows = []
    for entry in entries:
        assert entry.content is not None
        body: Any = dict(entry.content.body)
        rows.append(
            {
                **_head(entry, entry.content),
                "kind": entry.content.kind,
                "version": str(entry.content.version),
                "body": json.dumps(body, ensure_ascii=False),
            }
        )
    return _table([*HEAD, "kind", "version", "body"], rows)


def _table(names: Sequence[str], rows: Sequence[Mapping[str, str]]) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(names)
    writer.writerows([row.get(name, "") for name in names] for row in rows)
    return out.getvalue().encode("utf-8")
