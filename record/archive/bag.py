"""A bag as RFC 8493 (BagIt 1.0) has it: payload files, their hashes, and what the bag is.

The same files give the same bag, byte for byte: no clock and no machine goes into it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from record.proof import MANIFEST, TAG_MANIFEST

PAYLOAD = "data/"
DECLARATION, INFO = "bagit.txt", "bag-info.txt"
DECLARED = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"


@dataclass(frozen=True, slots=True)
class BagFile:
    """
    One file of a bag: its path from the bag's folder, with ``/``, and its bytes when asked for.

    ``sha256`` and ``size`` are of those bytes; a reader that gives others is a fault.
    """

    path: str
    size: int
    sha256: str
    read: Callable[[], bytes] = field(repr=False, compare=False)

    @classmethod
    def of(cls, path: str, data: bytes) -> BagFile:
        return cls(path, len(data), hashlib.sha256(data).hexdigest(), lambda: data)


def bagged(files: Iterable[BagFile], info: Mapping[str, str]) -> tuple[BagFile, ...]:
    """
    Return every file of the bag, sorted by path: ``files`` and the tag files that BagIt asks for.

    What lies under ``data/`` is payload; anything else of ``files`` is a tag file.
    """
    given = sorted(files, key=lambda file: file.path)
    payload = [file for file in given if file.path.startswith(PAYLOAD)]
    octets = sum(file.size for file in payload)
    told = {**info, "Payload-Oxum": f"{octets}.{len(payload)}"}
    tags = [
        *(file for file in given if not file.path.startswith(PAYLOAD)),
        BagFile.of(DECLARATION, DECLARED),
        BagFile.of(INFO, "".join(f"{k}: {v}\n" for k, v in told.items()).encode()),
        BagFile.of(MANIFEST, _manifest(payload)),
    ]
    tags.sort(key=lambda file: file.path)
    every = [*payload, *tags, BagFile.of(TAG_MANIFEST, _manifest(tags))]
    return tuple(sorted(every, key=lambda file: file.path))


def _manifest(files: Sequence[BagFile]) -> bytes:
    return "".join(f"{file.sha256}  {escaped(file.path)}\n" for file in files).encode()


def escaped(path: str) -> str:
    """Return a path as a manifest has it: RFC 8493, 2.1.3."""
    return path.replace("%", "%25").replace("\n", "%0A").replace("\r", "%0D")


def unescaped(path: str) -> str:
    for mark, sign in (("%0A", "\n"), ("%0a", "\n"), ("%0D", "\r"), ("%0d", "\r"), ("%25", "%")):
        path = path.replace(mark, sign)
    return path


def read_manifest(text: str) -> Iterator[tuple[int, str, str]]:
    """Yield (line, sha256, path) of a manifest; raises ValueError with the line that is none."""
    for place, line in enumerate(text.splitlines(), start=1):
        sha256, _, path = line.partition(" ")
        if len(sha256) != 64 or not path.strip(" *"):
            raise ValueError(f"line {place} is not a hash and a path")
        yield place, sha256.casefold(), unescaped(path.lstrip(" *"))
