"""What many records say of lots, kept beside them: derived, deletable, this person's own.

Each site has two files. In ``.names`` is one small row: the names it bears, and how many pieces
of each make it has; it is read whole, at every asking. In ``.pieces`` are the pieces by family,
read only where a row does not answer. The row is sealed and names its place, the state of the
record it was read from and the hash of every part of the pieces: what was changed, or put in
from elsewhere, is not taken. Of an encrypted record both lie in it, encrypted by its vault.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

import msgspec

from record.recall.values import Came, Copy, Done, LotOf, Notice, Told

NAME = "recall.kept"
FORM = 4  # raised whenever the meaning of what is kept changes
Family = tuple[str, str]
Where = tuple[int, int, bytes]  # first byte, how many, their SHA-256
REST = ""  # no family is called so
NO_TEXT = b"\xff"  # stands in no UTF-8


class Row(msgspec.Struct, array_like=True):
    """
    One site in short.

    ``names`` stand between line feeds, which no name holds; those of each part, in the order of
    ``parts``, between bytes that no text holds.
    """

    made_by: str
    place: str
    mark: str
    site: str
    name: str
    unread: tuple[str, ...]
    missing: int
    notices: tuple[Notice, ...]
    names: bytes
    alike: dict[bytes, int]  # a piece that stands for others, packed → how many
    parts: dict[str, Where]


class Rest(msgspec.Struct, array_like=True):
    """What is asked of few sites."""

    came: tuple[Came, ...]
    lots: tuple[LotOf, ...]
    told: tuple[Told, ...]
    done: tuple[Done, ...]
    copies: tuple[Copy, ...]


def key_of(family: Family) -> str:
    """Return what a family is called among the parts."""
    return "\n".join(family)


def bound_to(key: str) -> str:
    """Return what a part is bound to when it is encrypted."""
    return f"{NAME} {key}"


def file_of(at: Path, place: str, what: str) -> Path:
    """Return one of the two files of a site: "names" or "pieces"."""
    called = hashlib.sha256(place.encode(errors="surrogatepass")).hexdigest()[:32]
    return at / f"{called}.{what}"
