"""A tar from somewhere, taken apart: plain files in plain folders, nothing else."""

from __future__ import annotations

import io
import os
import shutil
import tarfile
from collections.abc import Iterator
from pathlib import Path

from record.archive.check import (
    AT_ONCE,
    LARGEST_TAG_FILE,
    MOST_FILES,
    BadBag,
    shown_path,
    stays_inside,
)


def is_tar(path: Path) -> bool:
    return path.is_file() and tarfile.is_tarfile(path)


class _Held(io.FileIO):
    """A tar's file. A header that says it goes on for gigabytes, or backwards, is no header."""

    def read(self, size: int | None = -1) -> bytes:
        if size is None or not 0 <= size <= LARGEST_TAG_FILE:
            raise tarfile.ReadError("a header of it is larger than any of a bag")
        return super().read(size)


class _HeldBytes(io.BytesIO):
    """The same of a tar in memory."""

    def read(self, size: int | None = -1) -> bytes:
        if size is None or not 0 <= size <= LARGEST_TAG_FILE:
            raise tarfile.ReadError("a header of it is larger than any of a bag")
        return super().read(size)


class TarBag:
    """A bag in a tar that is read where it lies, on the disk or in memory, and not taken apart."""

    def __init__(self, name: Path, data: bytes | None = None) -> None:
        """Take the tar at ``name``, or ``data``, which was sealed there. Raises BadBag."""
        self._name = name
        self._file = _Held(name) if data is None else _HeldBytes(data)
        try:
            self._tar = tarfile.open(fileobj=self._file, mode="r:")  # noqa: SIM115  closed below
            members = [*_members(name, self._tar)]
        except (tarfile.TarError, BadBag) as fault:
            self._file.close()
            if isinstance(fault, BadBag):
                raise
            raise BadBag(f"{name} is no whole tar: {fault}; nothing was restored") from fault
        tops = {member.name.split("/")[0] for member in members}
        if len(tops) != 1:
            self.close()
            raise BadBag(f"{name} does not hold one bag; nothing was restored")
        self._members = {member.name.partition("/")[2]: member for member in members}

    @property
    def name(self) -> Path:
        return self._name

    def names(self) -> frozenset[str]:
        return frozenset(self._members)

    def pieces(self, name: str) -> Iterator[bytes]:
        source = self._tar.extractfile(self._members[name])
        assert source is not None
        try:
            with source:
                while piece := source.read(AT_ONCE):
                    yield piece
        except tarfile.TarError as fault:
            said = f"{self._name}: {shown_path(name)}: {fault}; nothing was restored"
            raise BadBag(said) from fault

    def close(self) -> None:
        self._tar.close()
        self._file.close()


def untar(path: Path, to: Path) -> Path:
    """
    Take a tar apart in ``to``, a new folder, and return the one folder that it holds.

    Raises BadBag for a link, a device, a path that leads out, a name that stands twice, or a tar
    that was cut short.
    """
    to.mkdir(0o700)
    tops = set()
    try:
        with _Held(path) as file, tarfile.open(path, "r:", fileobj=file) as tar:
            for member in _members(path, tar):
                tops.add(member.name.split("/")[0])
                _take(tar, member, to / member.name)
    except tarfile.TarError as fault:
        raise BadBag(f"{path} is no whole tar: {fault}; nothing was restored") from fault
    if len(tops) != 1:
        raise BadBag(f"{path} does not hold one bag; nothing was restored")
    return to / tops.pop()


def _members(path: Path, tar: tarfile.TarFile) -> Iterator[tarfile.TarInfo]:
    seen: set[str] = set()
    for member in tar:
        name = member.name
        why = None
        if not stays_inside(name):
            why = "it leads out of the bag"
        elif member.isdir():
            continue
        elif not member.isreg():
            why = (
                "it is a link to elsewhere" if member.islnk() or member.issym() else "it is no file"
            )
        elif member.issparse():
            why = "it is larger than what it holds"
        elif name in seen:
            why = "it stands there twice"
        elif len(seen) > MOST_FILES:
            why = f"there are more than {MOST_FILES} files"
        if why:
            raise BadBag(f"{path}: {shown_path(name)}: {why}; nothing was restored")
        seen.add(name)
        yield member


def _take(tar: tarfile.TarFile, member: tarfile.TarInfo, to: Path) -> None:
    to.parent.mkdir(0o700, parents=True, exist_ok=True)
    source = tar.extractfile(member)
    assert source is not None
    descriptor = os.open(to, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with source, os.fdopen(descriptor, "wb") as file:
        shutil.copyfileobj(source, file, AT_ONCE)
