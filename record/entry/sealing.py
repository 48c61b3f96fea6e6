"""The seal: a content and its place in a chain, written as the two lines they stay."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from record.entry.reading import read
from record.entry.values import BadLine, Content, Entry, digest

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
