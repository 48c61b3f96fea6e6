"""A bag from somewhere, held to its own manifests before a byte of it is used.

What was checked is what is used: every file is copied to a place of one's own while it is hashed.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from record.archive.bag import (
    DECLARATION,
    INFO,
    PAYLOAD,
    read_manifest,
)
from record.proof import KEY, MANIFEST, SIGNATURE, TAG_MANIFEST, Proof

AT_ONCE = 1 << 20  # bytes
LARGEST_TAG_FILE = 64_000_000  # bytes
LONGEST_SIGNATURE = 1000  # bytes
MOST_FILES = 1_000_000


class BadBag(Exception):
    """A bag that is not what it says; the text names every file that is at fault."""


class Source(Protocol):
    """Where the files of a bag are read: a folder, or a tar that is not taken apart."""

    @property
    def name(self) -> Path:
        """What it is called in words."""

    def names(self) -> frozenset[str]:
        """Return the path of every file from the bag's folder, with ``/``. Raises BadBag."""

    def pieces(self, name: str) -> Iterator[bytes]:
        """Yield the bytes of a file. Raises OSError."""


@dataclass(frozen=True, slots=True)
class Held:
    """A bag that is as its manifests say: path → SHA-256 of its payload, and its signature."""

    payload: Mapping[str, str]
    proof: Proof | None


def checked_copy(bag: Path, to: Path) -> Proof | None:
    """
    Copy a bag's payload to ``to``, a new folder of its owner alone, every file held to its hash.

    Returns the signature and what it is over, for who knows the keys; None where there is none.
    Raises BadBag, naming each file that is missing, changed, not listed, or not a file.
    """
    to.mkdir(0o700)
    return held(FolderBag(bag), to).proof


def held(source: Source, to: Path | None = None) -> Held:
    """Hold a bag to its manifests, and copy its payload to ``to`` if that is given. BadBag."""
    bag, found = source.name, source.names()
    _is_bag(source, found)
    of_tags, of_payload = _text(source, TAG_MANIFEST), _text(source, MANIFEST)
    tags, payload = _listed(bag, TAG_MANIFEST, of_tags), _listed(bag, MANIFEST, of_payload)
    proof = _proof(source, found, of_payload, of_tags)
    faults = [*_strangers(found, {**tags, **payload}), *_misplaced(tags, payload)]
    for manifest, listed in ((TAG_MANIFEST, tags), (MANIFEST, payload)):
        faults += [
            f"{path}: it is missing; {manifest} lists it" for path in listed if path not in found
        ]
    for path, sha256 in {**tags, **payload}.items():
        if path in found and stays_inside(path):
            target = to / path if to is not None and path in payload else None
            if _hashed(source.pieces(path), target) != sha256:
                faults.append(f"{path}: it was changed or cut short; its hash is another")
    if faults:
        raise BadBag(_said(bag, faults))
    return Held(payload, proof)


def _proof(source: Source, found: frozenset[str], manifest: str, tags: str) -> Proof | None:
    there = [name for name in (KEY, SIGNATURE) if name in found]
    if not there:
        return None
    if len(there) == 1:
        other = SIGNATURE if there == [KEY] else KEY
        raise BadBag(_said(source.name, [f"{other}: it is missing, and {there[0]} is here"]))
    signature = next(source.pieces(SIGNATURE), b"")[:LONGEST_SIGNATURE]
    return Proof(manifest, tags, _text(source, KEY), signature.hex())


def _said(bag: Path, faults: Sequence[str]) -> str:
    shown = "\n".join(f"  {shown_path(fault)}" for fault in faults[:40])
    more = f"\n  and {len(faults) - 40} more" if len(faults) > 40 else ""
    return f"{bag} is not as it was packed; nothing was restored:\n{shown}{more}"


def shown_path(text: str) -> str:
    """Return words that hold a stranger's file name, with nothing in them a terminal acts on."""
    plain = text.encode("utf-8", "backslashreplace").decode("utf-8")
    return "".join(sign if sign.isprintable() else repr(sign)[1:-1] for sign in plain)


@dataclass(frozen=True, slots=True)
class FolderBag:
    """A bag that lies there as a folder."""

    name: Path

    def names(self) -> frozenset[str]:
        return _files(self.name)

    def pieces(self, name: str) -> Iterator[bytes]:
        descriptor = os.open(self.name / name, os.O_RDONLY | os.O_NOFOLLOW)
        with os.fdopen(descriptor, "rb") as file:
            while piece := file.read(AT_ONCE):
                yield piece


def _files(bag: Path) -> frozenset[str]:
    """Return every file of a folder by its path with ``/``. Links and devices are refused."""
    found: set[str] = set()
    waiting = [bag]
    while waiting:
        folder = waiting.pop()
        with os.scandir(folder) as listing:
            for each in listing:
                mode = each.stat(follow_symlinks=False).st_mode
                path = Path(each.path)
                name = path.relative_to(bag).as_posix()
                if stat.S_ISDIR(mode):
                    waiting.append(path)
                elif stat.S_ISREG(mode):
                    found.add(name)
                else:
                    what = "a link to elsewhere" if stat.S_ISLNK(mode) else "no file"
                    raise BadBag(_said(bag, [f"{name}: it is {what}, and is not followed"]))
                if len(found) > MOST_FILES:
                    raise BadBag(f"{bag} holds more than {MOST_FILES} files")
    return frozenset(found)


def _is_bag(source: Source, found: frozenset[str]) -> None:
    bag = source.name
    for name in (DECLARATION, INFO, MANIFEST, TAG_MANIFEST):
        if name not in found:
            raise BadBag(_said(bag, [f"{name}: it is missing; this is not a whole bag"]))
    if "fetch.txt" in found:
        raise BadBag(
            _said(bag, ["fetch.txt: this bag wants files from elsewhere; none is fetched"])
        )
    if not _text(source, DECLARATION).startswith("BagIt-Version: 1.0\n"):
        raise BadBag(_said(bag, [f"{DECLARATION}: it is no bag of version 1.0"]))


def _text(source: Source, name: str) -> str:
    read, size = [], 0
    for piece in source.pieces(name):
        read.append(piece)
        size += len(piece)
        if size > LARGEST_TAG_FILE:
            said = f"{name}: it is larger than {LARGEST_TAG_FILE} bytes"
            raise BadBag(_said(source.name, [said]))
    try:
        return b"".join(read).decode("utf-8")
    except UnicodeDecodeError as fault:
        said = f"{name}: byte {fault.start + 1} is not UTF-8"
        raise BadBag(_said(source.name, [said])) from fault


def _listed(bag: Path, manifest: str, text: str) -> dict[str, str]:
    """Return path → hash of a manifest. A path that leads out of the bag refuses all of it."""
    listed: dict[str, str] = {}
    try:
        for place, sha256, path in read_manifest(text):
            if not stays_inside(path):
                raise BadBag(_said(bag, [f"{path}: {manifest}, line {place} leads out of the bag"]))
            if path in listed:
                raise BadBag(_said(bag, [f"{path}: {manifest}, line {place} lists it again"]))
            listed[path] = sha256
    except ValueError as fault:
        raise BadBag(_said(bag, [f"{manifest}: {fault}"])) from fault
    return listed


def stays_inside(path: str) -> bool:
    """Return whether a path stays inside its folder, on every system."""
    parts = path.split("/")
    return not (
        path.startswith("~")
        or "\\" in path
        or ":" in parts[0]
        or "\0" in path
        or any(part in ("", ".", "..") for part in parts)
    )


def _strangers(found: frozenset[str], listed: Mapping[str, str]) -> Iterator[str]:
    for name in sorted(found):
        if name not in listed and name not in (TAG_MANIFEST, KEY, SIGNATURE):
            yield f"{name}: it was put in; no manifest lists it"


def _misplaced(tags: Mapping[str, str], payload: Mapping[str, str]) -> Iterator[str]:
    for path in tags:
        if path.startswith(PAYLOAD) or path in (TAG_MANIFEST, KEY, SIGNATURE):
            yield f"{path}: it does not belong into {TAG_MANIFEST}"
    for path in payload:
        if not path.startswith(PAYLOAD):
            yield f"{path}: it does not belong into {MANIFEST}"


def _hashed(pieces: Iterator[bytes], to: Path | None) -> str:
    """Hash a file, and write it where ``to`` is named. Returns the hash of what was written."""
    seal = hashlib.sha256()
    if to is None:
        for piece in pieces:
            seal.update(piece)
        return seal.hexdigest()
    to.parent.mkdir(0o700, parents=True, exist_ok=True)
    with os.fdopen(os.open(to, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as copy:
        for piece in pieces:
            seal.update(piece)
            copy.write(piece)
    return seal.hexdigest()
