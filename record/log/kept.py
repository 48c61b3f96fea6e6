"""Kept files against the entries that name them: sheets, pictures, editions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.entry import Entry
from record.log.folder import Files

#: Kind of entry → the folder its files are kept in, and the fields that name them.
NAMED = {
    "sheet-posted": ("sheets", ("sha256",)),
    "photographed": ("photos", ("sha256",)),
    "edition-issued": ("editions", ("pdf", "html", "calendar", "emergency", "cards")),
}


def missing_files(files: Files, entries: Sequence[Entry]) -> tuple[tuple[str, str], ...]:
    """
    Return (entry number, what is wrong) for every file that is gone or was changed.

    A copy that lacks contents was made for a reader: editions of the manual that were made for
    others do not come along, and are not missed. One that is there is held to its hash.
    """
    return tuple(_faults(files, entries, any(entry.content is None for entry in entries)))


def _faults(files: Files, entries: Sequence[Entry], copy: bool) -> Iterator[tuple[str, str]]:
    for entry in entries:
        content = entry.content
        if content is None or content.kind not in NAMED:
            continue
        place, names = NAMED[content.kind]
        for name in names:
            sha256 = content.body.get(name)
            if not isinstance(sha256, str) or len(sha256) != 64:
                continue
            found = files.found(place, sha256)
            if found is None and not (copy and place == "editions"):
                yield entry.number, f"its file {place}/{sha256[:12]}… is missing"
            elif found is not None and found.sha256 != sha256:
                yield entry.number, f"its file {place}/{sha256[:12]}… was changed"
