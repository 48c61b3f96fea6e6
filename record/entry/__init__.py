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

from record.entry.chains import (
    Checkpoint,
    checkpoint,
    forks,
    in_showing_order,
    numbered,
    seen_heads,
    stubs,
    tips,
)
from record.entry.points import BadPoint, Heads, history, not_extended, read_heads
from record.entry.reading import (
    ContentLine,
    LinkLine,
    at_once,
    entry_of,
    read,
    read_content,
    read_link,
)
from record.entry.sealing import seal
from record.entry.strict import DEEPEST, LONGEST_LINE
from record.entry.values import (
    WRITER,
    BadLine,
    Content,
    Entry,
    Link,
    Replaces,
    Swapped,
    digest,
)

__all__ = [
    "DEEPEST",
    "LONGEST_LINE",
    "WRITER",
    "BadLine",
    "BadPoint",
    "Checkpoint",
    "Content",
    "ContentLine",
    "Entry",
    "Heads",
    "Link",
    "LinkLine",
    "Replaces",
    "Swapped",
    "at_once",
    "checkpoint",
    "digest",
    "entry_of",
    "forks",
    "history",
    "in_showing_order",
    "not_extended",
    "numbered",
    "read",
    "read_content",
    "read_heads",
    "read_link",
    "seal",
    "seen_heads",
    "stubs",
    "tips",
]
