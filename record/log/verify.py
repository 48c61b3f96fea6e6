"""Check a log line by line: every hash, every chain, and name the first that does not match."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from record.entry import BadLine, Entry, read


@dataclass(frozen=True, slots=True)
class Fault:
    """What does not match, at which entry, and what of that chain is still sound."""

    entry: str
    problem: str
    sound_before: int  # entries of the same writer before it that match


@dataclass(frozen=True, slots=True)
class Verdict:
    """The outcome: faults in chain order, writers with their counts, contents withheld."""

    faults: tuple[Fault, ...]
    counts: tuple[tuple[str, int], ...]
    withheld: int

    @property
    def sound(self) -> bool:
        return not self.faults


def verify(lines: Iterable[tuple[str, str, bytes, bytes | None]]) -> Verdict:
    """
    Return what ``Log.lines`` holds that does not match its seals.

    ``lines`` come ordered by site, writer and number. One fault is named per chain: what comes
    after it rests on it.
    """
    chains: dict[tuple[str, str], list[tuple[str, bytes, bytes | None]]] = {}
    faults: list[Fault] = []
    for stored, _, link_line, content_line in lines:
        try:
            link = read(link_line, None).link
        except BadLine as bad:
            faults.append(Fault(f"the entry stored as {stored[:12]}…", str(bad), 0))
            continue
        chains.setdefault((link.site, link.writer), []).append((stored, link_line, content_line))
    withheld = 0
    counts = []
    for (_, writer), chain in sorted(chains.items()):
        found, missing = _check_chain(writer, chain)
        withheld += missing
        counts.append((writer, len(chain)))
        if found:
            faults.append(found)
    return Verdict(tuple(faults), tuple(counts), withheld)


def _check_chain(
    writer: str, chain: list[tuple[str, bytes, bytes | None]]
) -> tuple[Fault | None, int]:
    """Return the first fault of one writer's chain, and how many contents are withheld."""
    prev: str | None = None
    withheld = 0
    for place, (stored, link_line, content_line) in enumerate(chain, start=1):
        name = f"{writer}-{place}"
        problem = _problem(stored, link_line, content_line, place, prev)
        if problem:
            return Fault(name, problem, place - 1), withheld
        withheld += content_line is None
        prev = hashlib.sha256(link_line).hexdigest()
    return None, withheld


def _problem(
    stored: str, link_line: bytes, content_line: bytes | None, place: int, prev: str | None
) -> str | None:
    try:
        entry = read(link_line, content_line)
    except BadLine as fault:
        return str(fault)
    if entry.hash != stored:
        return "its link line was changed: the line does not give the hash it is kept under"
    if entry.link.seq != place:
        return _gap_or_fork(entry, place)
    if entry.link.prev != prev:
        return "it does not follow the entry before it: the line before was changed or put in"
    if content_line is not None and hashlib.sha256(content_line).hexdigest() != entry.link.content:
        return "its content line was changed: it does not give the hash its link was sealed with"
    return None


def _gap_or_fork(entry: Entry, place: int) -> str:
    if entry.link.seq < place:
        return f"two different entries carry the number {entry.number}: the chain forks there"
    return f"it is missing: the next entry of this writer here is {entry.number}"
