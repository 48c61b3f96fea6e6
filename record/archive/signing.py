"""A bag signed by whoever packed it, with the key of a writer: one signature over all of it."""

from __future__ import annotations

from collections.abc import Sequence

from record.archive.bag import BagFile
from record.archive.signatures import pem_of
from record.proof import KEY, SIGNATURE, TAG_MANIFEST
from record.trust import Key


def signed(bag: Sequence[BagFile], key: Key) -> tuple[BagFile, ...]:
    """Return a bag with its signature: over the bytes of the tag manifest, so over every file."""
    tags = next(file for file in bag if file.path == TAG_MANIFEST).read()
    more = (
        BagFile.of(KEY, pem_of(bytes.fromhex(key.public))),
        BagFile.of(SIGNATURE, bytes.fromhex(key.sign(tags))),
    )
    return tuple(sorted((*bag, *more), key=lambda file: file.path))
