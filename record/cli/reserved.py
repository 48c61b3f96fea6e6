"""What `verify` says of what a copy reserves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log.folder import Files


@dataclass(frozen=True, slots=True)
class Told:
    words: tuple[str, ...] = ()
    form: dict[str, Any] | None = None
    faulty: bool = False


def reserved_of(files: Files, entries: Sequence[Entry]) -> Told:
    """Return what goes with a copy for what it lacks, and whether that still holds."""
    from record.entry import stubs
    from record.reserved import PLACE, holds, read_reserved

    lacks = stubs(entries)
    found = files.found(PLACE, lacks) if lacks else None
    if lacks is None or found is None:
        return Told()
    reserved = read_reserved(found.data, lacks)
    if reserved is None:
        what = f"{found.where}: it was changed, or is of another version: everything is reserved"
        return Told((what,), {"sha256": found.sha256, "reader": None, "holds": False}, faulty=True)
    holding = holds(reserved, entries)
    now = "holds" if holding else "something came in since that may move things: all is reserved"
    words = (
        f"What is reserved of what this copy lacks, as packed for {reserved.reader}: {now}.",
        f"  Its SHA-256, which the bag's README.txt tells too: {found.sha256}",
    )
    return Told(words, {"sha256": found.sha256, "reader": reserved.reader, "holds": holding})
