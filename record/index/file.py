"""The index's file, which is this person's own."""

from __future__ import annotations

from pathlib import Path

import msgspec

from record.index.own import seal, unsealed
from record.index.rows import Index
from record.secret import Vault

_encode = msgspec.msgpack.Encoder().encode
_decode = msgspec.msgpack.Decoder(Index).decode


def load(path: Path, made_by: str, vault: Vault | None = None) -> Index | None:
    """Return the index in a file, or None where there is none that can be taken."""
    body = unsealed(path, vault)
    if body is None:
        return None
    try:
        index = _decode(body)
    except (msgspec.MsgspecError, ValueError):
        return None
    return index if index.made_by == made_by else None


def save(path: Path, index: Index, vault: Vault | None = None) -> None:
    """Write the index, whole or not at all; where the disk refuses, nothing is said."""
    seal(path, _encode(index), vault)
