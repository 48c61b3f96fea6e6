"""Chains of entries: how far each reached, where it forks, and what the next one extends."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter

from msgspec.structs import replace

from record.entry.values import Entry, Replaces, digest


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """How far a record reached: per writer the count and the last link's hash.

    ``text`` is what is hashed and can be checked by hand: the site, then one sorted line
    ``writer count head`` each. A cut tail or a missing writer does not reproduce it.
    """

    site: str
    heads: tuple[tuple[str, int, str], ...]

    @property
    def text(self) -> str:
        lines = [self.site] + [f"{writer} {count} {head}" for writer, count, head in self.heads]
        return "\n".join(lines) + "\n"

    @property
    def hash(self) -> str:
        return digest(self.text.encode("utf-8"))


def checkpoint(site: str, entries: Iterable[Entry]) -> Checkpoint:
    """Return the checkpoint of ``entries``: the head of every chain, of each branch of a fork."""
    heads = [(e.link.writer, e.link.seq, e.hash) for each in tips(entries).values() for e in each]
    return Checkpoint(site, tuple(sorted(heads)))


def tips(entries: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    """
    Return, by writer, the entries that no other rests on: one, or of a fork one a branch.

    The first is the head that the next entry extends: of the longest branch, then the one with
    the smaller hash, so that every copy chooses alike.
    """
    every = tuple(entries)
    under = {entry.link.prev for entry in every}
    found: dict[str, list[Entry]] = {}
    for entry in every:
        if entry.hash not in under:
            found.setdefault(entry.link.writer, []).append(entry)
    return {
        writer: tuple(sorted(each, key=lambda entry: (-entry.link.seq, entry.hash)))
        for writer, each in sorted(found.items())
    }


def seen_heads(entries: Iterable[Entry], writer: str) -> tuple[Entry | None, dict[str, str]]:
    """
    Return the head that ``writer`` extends, and all other heads as ``seen`` says them.

    A further branch of a forked chain stands beside its writer, as ``ld/a3f2c0d1``.
    """
    own: Entry | None = None
    seen: dict[str, str] = {}
    for whose, heads in tips(entries).items():
        for place, head in enumerate(heads):
            if place == 0 and whose == writer:
                own = head
            else:
                seen[f"{whose}/{head.hash[:8]}" if place else whose] = head.hash
    return own, seen


def forks(entries: Iterable[Entry]) -> dict[tuple[str, str, int], tuple[Entry, ...]]:
    """Return the entries of which two or more share (site, writer, number), sorted by hash."""
    found: dict[tuple[str, str, int], dict[str, Entry]] = {}
    for entry in entries:
        key = (entry.link.site, entry.link.writer, entry.link.seq)
        found.setdefault(key, {})[entry.hash] = entry
    return {
        key: tuple(each[name] for name in sorted(each))
        for key, each in sorted(found.items())
        if len(each) > 1
    }


_SHOWN = attrgetter("link.recorded", "link.writer", "link.seq", "hash")  # as Entry.order


def in_showing_order(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return ``entries`` as they are shown: by when they were recorded, forks marked."""
    return numbered(sorted(entries, key=_SHOWN))


def numbered(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return ``entries``, those of a fork marked, here and wherever another mends one of them."""
    every = tuple(entries)
    marks = {
        entry.hash: entry.hash[: _told_apart(twins)]
        for twins in forks(every).values()
        for entry in twins
    }
    return tuple(_marked(entry, marks) for entry in every) if marks else every


def _told_apart(twins: Sequence[Entry]) -> int:
    return next(n for n in range(4, 65) if len({e.hash[:n] for e in twins}) == len(twins))


def _marked(entry: Entry, marks: Mapping[str, str]) -> Entry:
    content = entry.content
    if content and any(target.entry in marks for target in content.replaces):
        content = replace(
            content, replaces=tuple(_renumbered(target, marks) for target in content.replaces)
        )
    return replace(entry, content=content, mark=marks.get(entry.hash, ""))


def _renumbered(target: Replaces, marks: Mapping[str, str]) -> Replaces:
    mark = marks.get(target.entry)
    plain = target.number.partition("/")[0]
    return replace(target, number=f"{plain}/{mark}") if mark else target


def stubs(entries: Sequence[Entry]) -> str | None:
    """
    Return a hash of which entries are here without what they say; None where all say it.

    It is the SHA-256 of the site and the hashes of those links, a line each, sorted.
    """
    found = sorted(entry.hash for entry in entries if entry.content_line is None)
    if not found:
        return None
    return digest("\n".join((entries[0].link.site, *found, "")).encode())
