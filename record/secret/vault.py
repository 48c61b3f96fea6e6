"""What lies beside an encrypted database, encrypted too: AES-256-GCM, with names that say nothing.

The key is random, of one record, and lies in its encrypted database alone. Three keys come from
it by HKDF-Expand (RFC 5869) with HMAC-SHA-256: for names, for kept files, for what is derived.

    a file:  "asburied kept 1\n"  nonce, 12 bytes  ciphertext  tag, 16 bytes

Its own name, or for what is derived ``index.cache``, is what it is bound to (associated data), so
that two files cannot change places. A kept file is named by HMAC-SHA-256 of ``photos/`` and its
SHA-256: under the plain hash, whoever has a picture or guesses a sheet could see that it is here.
"""

from __future__ import annotations

import hmac
import os

MAGIC = b"asburied kept 1\n"
KEY, NONCE, TAG = 32, 12, 16  # bytes
NAMES, FILES, DERIVED = b"asburied names", b"asburied files", b"asburied derived"


class Vault:
    """Hides and shows what lies beside one encrypted record."""

    def __init__(self, key: bytes) -> None:
        if len(key) != KEY:
            raise ValueError(f"a key has {KEY} bytes")
        self._names, self._files, self._derived = (
            _expanded(key, use) for use in (NAMES, FILES, DERIVED)
        )

    @staticmethod
    def new_key() -> bytes:
        return os.urandom(KEY)

    def name(self, what: str, sha256: str) -> str:
        """Return under which name a file is kept: ``what`` is sheets, photos or editions."""
        return hmac.digest(self._names, f"{what}/{sha256}".encode(), "sha256").hex()

    def hidden(self, name: str, data: bytes) -> bytes:
        """Return a kept file's bytes as they lie under ``name``."""
        return _hidden(self._files, name, data)

    def shown(self, name: str, sealed: bytes) -> bytes | None:
        """Return what lies under ``name``; None where it was changed, cut short or moved there."""
        return _shown(self._files, name, sealed)

    def hidden_cache(self, name: str, data: bytes) -> bytes:
        """Return what was derived from the record as it lies in a file of that name."""
        return _hidden(self._derived, name, data)

    def shown_cache(self, name: str, sealed: bytes) -> bytes | None:
        """Return what was derived, or None where it is not this record's, or was changed."""
        return _shown(self._derived, name, sealed)


def _expanded(key: bytes, use: bytes) -> bytes:
    """Return one block of HKDF-Expand; the key is random, so that no extraction is needed."""
    return hmac.digest(key, use + b"\x01", "sha256")


def _hidden(key: bytes, name: str, data: bytes) -> bytes:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    nonce = os.urandom(NONCE)
    return MAGIC + nonce + AESGCM(key).encrypt(nonce, data, name.encode())


def _shown(key: bytes, name: str, sealed: bytes) -> bytes | None:
    from cryptography.exceptions import InvalidTag
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    head = len(MAGIC) + NONCE
    if sealed[: len(MAGIC)] != MAGIC or len(sealed) < head + TAG:
        return None
    try:
        return AESGCM(key).decrypt(sealed[len(MAGIC) : head], sealed[head:], name.encode())
    except InvalidTag:
        return None
