"""Each sign-off as three files that OpenSSL takes: the bytes signed, the signature, the key."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence

from record.archive.bag import PAYLOAD, BagFile
from record.entry import Entry
from record.trust import message, read_heads
from record.trust.ed25519 import BEFORE_KEY

SIGNED = "signed-off"


def signatures(entries: Sequence[Entry]) -> Iterator[BagFile]:
    """Yield the files of every sign-off that can be read at all, whether it holds or not."""
    for entry in entries:
        if entry.content is None or entry.content.kind != SIGNED:
            continue
        said = {name: str(value) for name, value in entry.content.body.items()}
        heads = read_heads(said.get("chains", ""))
        public, signature = _bytes(said.get("public_key")), _bytes(said.get("signature"))
        if heads is None or len(public) != 32 or not signature:
            continue
        signed = message(entry.link.site, said.get("signer", ""), said.get("day", ""), heads)
        folder = f"{PAYLOAD}signatures/{entry.number.replace('/', '-')}"
        yield BagFile.of(f"{folder}/key.pem", pem_of(public))
        yield BagFile.of(f"{folder}/signature.bin", signature)
        yield BagFile.of(f"{folder}/signed.txt", signed)


def _bytes(text: str | None) -> bytes:
    try:
        return bytes.fromhex(text or "")
    except ValueError:
        return b""


def pem_of(public: bytes) -> bytes:
    body = base64.b64encode(BEFORE_KEY + public).decode("ascii")
    return f"-----BEGIN PUBLIC KEY-----\n{body}\n-----END PUBLIC KEY-----\n".encode()
