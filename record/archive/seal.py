"""A bag encrypted as an age file (age-encryption.org/v1), for whoever knows the words or the key.

The age tools open it too. Words come from a terminal, a file or the environment, never from a
command line, where others could read them; of a key only the public half is ever typed.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from record.log import LogFault

HEADER = b"age-encryption.org/v1\n"
BY_WORDS = b"-> scrypt "  # the only stanza of a file that words open
NOT_HERE = "a bag is sealed through pyrage, which is not installed: pip install 'asburied[sealed]'"


class NotOpened(Exception):
    """A sealed bag could not be opened: the text says why."""


def _age() -> Any:
    try:
        import pyrage  # type: ignore[import-untyped]
    except ImportError as fault:
        raise LogFault(NOT_HERE) from fault
    return pyrage


def sealed_for(pieces: Iterable[bytes], recipients: Sequence[str]) -> Iterable[bytes]:
    """Return the bytes sealed for public keys (``age1…``), any one of which opens them."""
    age = _age()
    try:
        keys = [age.x25519.Recipient.from_str(each) for each in recipients]
    except age.RecipientError as fault:
        raise LogFault(
            "a recipient is a public key of age, which begins with age1; nothing was packed"
        ) from fault
    out = io.BytesIO()
    age.encrypt_io(_Pieces(pieces), out, keys)
    return [out.getvalue()]


def sealed_with(pieces: Iterable[bytes], words: str) -> Iterable[bytes]:
    """Return the bytes sealed with a passphrase."""
    return [_age().passphrase.encrypt(b"".join(pieces), words)]


class _Pieces:
    """Read pieces as a file is read, one after the other."""

    def __init__(self, pieces: Iterable[bytes]) -> None:
        self._pieces = iter(pieces)
        self._left = b""

    def read(self, most: int = -1) -> bytes:
        while not self._left:
            piece = next(self._pieces, None)
            if piece is None:
                return b""
            self._left = piece
        cut = len(self._left) if most < 0 else most
        given, self._left = self._left[:cut], self._left[cut:]
        return given


def is_sealed(path: Path) -> bool:
    """Return whether a file is an age file. Raises OSError."""
    with path.open("rb") as file:
        return file.read(len(HEADER)) == HEADER


def asks_for_words(path: Path) -> bool:
    """Return whether a sealed file opens by a passphrase rather than a key. Raises OSError."""
    with path.open("rb") as file:
        return file.read(len(HEADER) + len(BY_WORDS)).endswith(BY_WORDS)


def opened_with(path: Path, words: str) -> bytes:
    """Return what a passphrase opens. Raises NotOpened, LogFault."""
    age = _age()
    try:
        return bytes(age.passphrase.decrypt(path.read_bytes(), words))
    except age.DecryptError as fault:
        raise NotOpened(
            f"{path} does not open: the passphrase is another, or the file was changed or cut "
            "short; nothing was restored"
        ) from fault


def opened_by(path: Path, identity: Path) -> bytes:
    """Return what the private key in a file (``AGE-SECRET-KEY-1…``) opens. Raises NotOpened."""
    age = _age()
    try:
        lines = identity.read_text(encoding="utf-8").split("\n")
        keys = [
            age.x25519.Identity.from_str(line.strip())
            for line in lines
            if line.strip() and not line.startswith("#")
        ]
    except (age.IdentityError, UnicodeDecodeError) as fault:
        # The line itself is never told: it may be a key with a slip in it.
        raise NotOpened(f"{identity} holds no key of age; nothing was restored") from fault
    try:
        return bytes(age.decrypt(path.read_bytes(), keys))
    except age.DecryptError as fault:
        raise NotOpened(
            f"{path} does not open: it was not sealed for the key in {identity}, or was changed "
            "or cut short; nothing was restored"
        ) from fault
