"""A record packed for keeping or handing on: a BagIt bag, sealed where that is asked, and back."""

from __future__ import annotations

from record.archive.bag import BagFile, bagged
from record.archive.check import BadBag
from record.archive.pack import Packed, packed
from record.archive.plain import plain_files
from record.archive.seal import NotOpened
from record.archive.unpack import Unpacked, unpack
from record.archive.without import HeldBack, NothingSuch, held_back
from record.archive.write import write_folder, write_tar

__all__ = [
    "BadBag",
    "BagFile",
    "HeldBack",
    "NotOpened",
    "NothingSuch",
    "Packed",
    "Unpacked",
    "bagged",
    "held_back",
    "packed",
    "plain_files",
    "unpack",
    "write_folder",
    "write_tar",
]
