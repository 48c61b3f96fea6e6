"""A record in which all is as it should be, told so as fast as its lines can be read and hashed.

Nothing is named here: whatever is wrong, forked, missing or only not plain, `verify` looks at line
by line, and says what it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from hashlib import sha256

from record.entry import (
    Checkpoint,
    ContentLine,
    Entry,
    LinkLine,
    at_once,
    checkpoint,
    entry_of,
    in_showing_order,
)
from record.log.kept import NAMED
from record.log.store import Log, Row, not_collecting
from record.log.verifying import Verdict, verified

SIGNED = "signed-off"


@dataclass(slots=True)
class Sound:
    """What was found sound: its lines, and where each writer's chain ends."""

    site: str = ""
    heads: dict[str, tuple[int, str]] = field(default_factory=dict)  # writer → count, last hash
    signed: bool = False
    named: list[Entry] = field(default_factory=list)  # those that name kept files
    _rows: list[tuple[Sequence[Row], list[LinkLine], list[ContentLine]]] = field(
        default_factory=list
    )

    @property
    def verdict(self) -> Verdict:
        return Verdict((), tuple((writer, count) for writer, (count, _) in self.heads.items()))

    @property
    def checkpoint(self) -> Checkpoint:
        heads = ((writer, count, head) for writer, (count, head) in self.heads.items())
        return Checkpoint(self.site, tuple(sorted(heads)))

    def entries(self) -> tuple[Entry, ...]:
        """Return every entry, as ``Log.entries`` does; only where the lines were kept."""
        return in_showing_order(
            _entry(row, link, content)
            for lines in self._rows
            for row, link, content in zip(*lines, strict=True)
        )


def _entry(row: Row, link: LinkLine, content: ContentLine) -> Entry:
    stored, link_line, content_line = row
    assert content_line is not None
    return entry_of(link, link_line, stored, content, content_line)


def sound(lines: Callable[[], Iterable[Sequence[Row]]]) -> Sound | None:
    """
    Return what is known of a record that is whole and sound; None for the least doubt.

    ``lines`` is ``Log.lines_at_once``: by site, writer and number. Only of one that was signed are
    they kept, for whoever judges signatures.
    """
    found = _sound(lines(), keep=False)
    return _sound(lines(), keep=True) if found and found.signed else found


def _sound(batches: Iterable[Sequence[Row]], *, keep: bool) -> Sound | None:
    found, here, seen = Sound(), set[str](), set[str]()
    for rows in batches:
        lines = _read(rows)
        if lines is None or not _follow(found, rows, *lines):
            return None
        if keep:
            found._rows.append((rows, *lines))
        elif found.signed:
            return found  # to be read again, and kept
        here.update([row[0] for row in rows])
        for content in lines[1]:
            seen.update(content.seen.values())
    return found if seen <= here and found.heads else None


def _read(rows: Sequence[Row]) -> tuple[list[LinkLine], list[ContentLine]] | None:
    """Return what lines hold, where each is of the hash that it is kept or was sealed under."""
    contents = [content for _, _, content in rows if content is not None]
    if len(contents) < len(rows):
        return None
    lines = at_once([link for _, link, _ in rows], contents)
    if lines is None:
        return None
    for (stored, link, _), content, of_link in zip(rows, contents, lines[0], strict=True):
        if sha256(link).hexdigest() != stored or sha256(content).hexdigest() != of_link.content:
            return None
    return lines


def _follow(
    found: Sound, rows: Sequence[Row], links: list[LinkLine], contents: list[ContentLine]
) -> bool:
    """Take in more lines; False where one does not follow the one before it in its chain."""
    found.site = found.site or links[0].site
    for row, link, content in zip(rows, links, contents, strict=True):
        count, head = found.heads.get(link.writer, (0, None))
        if link.prev != head or link.seq != count + 1 or link.site != found.site:
            return False
        found.heads[link.writer] = (link.seq, row[0])
        if content.kind in NAMED:
            found.named.append(_entry(row, link, content))
        elif content.kind == SIGNED:
            found.signed = True
    return True


@dataclass(frozen=True, slots=True)
class Checked:
    """
    What was found of a log: the verdict, its checkpoint (None where nothing can be read).

    ``named`` are the entries that name kept files. ``entries`` are all of them where there is more
    to ask of them: where something was signed, withheld or forked; else none.
    """

    verdict: Verdict
    point: Checkpoint | None
    named: tuple[Entry, ...]
    entries: tuple[Entry, ...]


def checked(log: Log) -> Checked:
    """Check a log, line by line only where that is called for."""
    with not_collecting():
        found = sound(log.lines_at_once)
        if found is not None:
            entries = found.entries() if found.signed else ()
            named = in_showing_order(found.named)
            return Checked(found.verdict, found.checkpoint, named, entries)
        verdict, entries = verified(log.lines())
    point = checkpoint(entries[0].link.site, entries) if entries else None
    return Checked(verdict, point, entries, entries)
