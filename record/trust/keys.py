"""The keys of this device: one file a writer, in the user's own configuration folder.

A key never enters the record; only its public half does, in an entry of kind "writer key".
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from record.entry import WRITER
from record.halves import half_of
from record.trust.ed25519 import from_pem, public_of, sign, to_pem


class KeyFault(Exception):
    """A key cannot be made, found or read; the text says why."""


@dataclass(frozen=True, slots=True)
class Key:
    """A writer's key on this device. Its private half is shown by nothing."""

    writer: str
    path: Path
    _seed: bytes

    def __repr__(self) -> str:
        return f"Key({self.writer!r}, {self.public!r})"

    @property
    def public(self) -> str:
        """The public key, 64 hex digits."""
        return public_of(self._seed).hex()

    def sign(self, message: bytes) -> str:
        """Return the signature over ``message``, 128 hex digits."""
        return sign(self._seed, message).hex()


def keys_folder(environ: Mapping[str, str]) -> Path:
    """Return where keys lie: $ASBURIED_CONFIG, else asburied in $XDG_CONFIG_HOME or ~/.config."""
    own = environ.get("ASBURIED_CONFIG")
    if own:
        return Path(own)
    home = environ.get("XDG_CONFIG_HOME")
    return (Path(home) if home else Path.home() / ".config") / "asburied"


def make_key(folder: Path, writer: str, seed: bytes, *, anew: bool = False) -> Key:
    """
    Keep a key made of 32 random bytes, readable by its user alone.

    A key that is there stays unless ``anew`` is asked. Raises KeyFault.
    """
    if not WRITER.fullmatch(writer):
        raise KeyFault(f'"{writer}" is not a writer; write a few small letters, such as ld')
    place = _place(folder, writer)
    if place.exists() and not anew:
        raise KeyFault(f"{writer} has a key on this device already: {place}")
    half = half_of(place)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder.chmod(0o700)
        descriptor = os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(descriptor, "wb") as file:
            file.write(to_pem(seed))
            file.flush()
            os.fsync(file.fileno())
        half.replace(place)
    except OSError as fault:
        raise KeyFault(f"{place} cannot be written: {fault.strerror}") from fault
    finally:
        half.unlink(missing_ok=True)
    return Key(writer, place, seed)


def read_key(folder: Path, writer: str) -> Key:
    """Return a writer's key on this device. Raises KeyFault where there is none, or no such."""
    place = _place(folder, writer)
    try:
        return Key(writer, place, from_pem(place.read_bytes()))
    except FileNotFoundError as fault:
        raise KeyFault(
            f"{writer} has no key on this device. Make one with `asburied writer {writer} --record`"
        ) from fault
    except OSError as fault:
        raise KeyFault(f"{place} cannot be read: {fault.strerror}") from fault
    except ValueError as fault:
        raise KeyFault(f"{place} is not a key: {fault}") from fault


def readable_keys(folder: Path) -> tuple[str, ...]:
    """Return the writers that have a key on this device."""
    return tuple(sorted(path.stem for path in folder.glob("*.pem") if WRITER.fullmatch(path.stem)))


def _place(folder: Path, writer: str) -> Path:
    return folder / f"{writer}.pem"
