"""A checkpoint that was handed over before, held against the record of today."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.entry.chains import Checkpoint, checkpoint
from record.entry.values import WRITER, Entry

_HASH = re.compile(r"[0-9a-f]{8,64}")


class BadPoint(ValueError):
    """Text that is no checkpoint; it says which line is not, and what to write."""


@dataclass(frozen=True, slots=True)
class Heads:
    """A checkpoint as somebody wrote it down: hashes may be cut short, to 8 digits or more."""

    site: str
    heads: tuple[tuple[str, int, str], ...]  # writer, count, how the head's hash begins


def read_heads(text: str) -> Heads:
    """
    Return the heads that ``text`` tells: as ``verify`` prints them, or as an edition's table.

    The site stands on a line of its own and then ``writer count hash``; bars between and spaces
    within the hash are left out, and so is a line that begins with "Checkpoint". Raises BadPoint.
    """
    sites: list[str] = []
    heads: list[tuple[str, int, str]] = []
    for number, line in enumerate(text.splitlines(), 1):
        words = line.replace("|", " ").split()
        if not words or words[0].startswith("Checkpoint"):
            continue
        found = "".join(words[2:]).casefold().rstrip("….")
        if len(words) == 1 and not heads and not sites:
            sites.append(words[0])
        elif len(words) > 2 and words[1].isdecimal() and _HASH.fullmatch(found):
            heads.append((words[0], int(words[1]), found))
        else:
            raise BadPoint(
                f'line {number}, "{line.strip()[:60]}", is no head of a chain; write the site on '
                'the first line and then "writer count hash" a line, such as "ld 40 91aa2c07"'
            )
    if not heads or not all(WRITER.fullmatch(writer) for writer, _, _ in heads):
        raise BadPoint('it names no chain; write "writer count hash", such as "ld 40 91aa2c07"')
    return Heads(sites[0] if sites else "", tuple(heads))


def not_extended(
    point: Heads | Checkpoint, entries: Sequence[Entry]
) -> tuple[tuple[str, str], ...]:
    """Return (entry, what is wrong) for every head that ``entries`` do not hold any more."""
    return tuple(_lacking(point, entries))


def _lacking(point: Heads | Checkpoint, entries: Sequence[Entry]) -> Iterator[tuple[str, str]]:
    sites = sorted({entry.link.site for entry in entries})
    if point.site and sites and point.site not in sites:
        yield point.site, f"the checkpoint is of this site, and the record of {', '.join(sites)}"
        return
    chains: dict[str, list[Entry]] = {}
    for entry in entries:
        chains.setdefault(entry.link.writer, []).append(entry)
    for writer, count, head in point.heads:
        chain = chains.get(writer, [])
        at = [entry for entry in chain if entry.link.seq == count]
        if any(entry.hash.startswith(head) for entry in at):
            continue
        reached = max((entry.link.seq for entry in chain), default=0)
        if at:
            is_now = " and ".join(f"{entry.hash[:16]}…" for entry in at)
            yield f"{writer}-{count}", f"it was {head[:16]}…, and is {is_now} now"
        else:
            ends = f"{writer}'s entries end at {reached} here" if chain else f"{writer} has none"
            yield f"{writer}-{count}", f"it was {head[:16]}… and is gone: {ends}"


def history(entries: Sequence[Entry], batches: Iterable[Sequence[Entry]]) -> Iterator[Checkpoint]:
    """
    Yield every checkpoint that this record can be known to have given.

    As it is; as each entry found it and left it, by what that entry had seen; and as it was here
    after each of ``batches``, the entries in the order in which they came in.
    """
    if not entries:
        return
    site = entries[0].link.site
    yield checkpoint(site, entries)
    here = {entry.hash: entry for entry in entries}
    for entry in reversed(entries):
        found = _found_by(entry, here)
        yield Checkpoint(site, _heads(found))
        yield Checkpoint(
            site, _heads([each for each in found if not _under(each, entry)] + [entry])
        )
    yield from _as_it_grew(site, batches)


def _found_by(entry: Entry, here: Mapping[str, Entry]) -> list[Entry]:
    seen = (entry.content.seen if entry.content else None) or {}
    return [here[head] for head in (entry.link.prev or "", *seen.values()) if head in here]


def _under(head: Entry, entry: Entry) -> bool:
    return head.hash == entry.link.prev


def _heads(entries: Iterable[Entry]) -> tuple[tuple[str, int, str], ...]:
    return tuple(sorted({(e.link.writer, e.link.seq, e.hash) for e in entries}))


def _as_it_grew(site: str, batches: Iterable[Sequence[Entry]]) -> Iterator[Checkpoint]:
    heads: dict[str, Entry] = {}
    under: set[str] = set()
    for batch in batches:
        under.update(entry.link.prev for entry in batch if entry.link.prev)
        heads.update((entry.hash, entry) for entry in batch)
        for gone in heads.keys() & under:
            del heads[gone]
        yield Checkpoint(site, _heads(heads.values()))
