"""The entries as files that any program reads: the lines as they are, and tables of each kind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.archive.twins import twins
from record.entry import Entry, checkpoint
from record.log.merging import CONTENTS, HEADS, LINKS


def plain_files(entries: Sequence[Entry]) -> Iterator[tuple[str, bytes]]:
    """Yield (name, bytes) of the lines, the checkpoint, and a table of each kind in ``csv/``."""
    found = sorted(entries, key=lambda e: (e.link.writer, e.link.seq, e.hash))
    contents = {e.link.content: e.content_line for e in found if e.content_line is not None}
    yield LINKS, b"".join(entry.link_line for entry in found)
    yield CONTENTS, b"".join(contents.values())
    yield HEADS, checkpoint(found[0].link.site, found).text.encode("utf-8")
    for word, table in twins(found):
        yield f"csv/{word}.csv", table
