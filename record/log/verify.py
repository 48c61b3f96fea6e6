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
    """
    The outcome: faults in chain order, writers with their counts, contents that are not here.

    A content may be missing because this copy's reader may not see it; whoever holds the
    owner's copy should find none missing, so ``without`` names them.
    """

    faults: tuple[Fault, ...]
    counts: tuple[tuple[str, int], ...]
    without: tuple[str, ...] = ()  # numbers of entries whose content is not here

    @property
    def withheld(self) -> int:
        return len(self.without)

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
    without: list[str] = []
    counts = []
    for (_, writer), chain in sorted(chains.items()):
        found = _check_chain(writer, chain, without)
        counts.append((writer, len(chain)))
        if found:
            faults.append(found)
    return Verdict(tuple(faults), tuple(counts), tuple(without))


def _check_chain(
    writer: str, chain: list[tuple[str, bytes, bytes | None]], without: list[str]
) -> Fault | None:
    """Return the first fault of one writer's chain; name the contents that are not here."""
    prev: str | None = None
    for place, (stored, link_line, content_line) in enumerate(chain, start=1):
        problem = _problem(stored, link_line, content_line, place, prev)
        if problem:
            return _named(writer, place, stored, link_line, problem)
        if content_line is None:
            without.append(f"{writer}-{place}")
        prev = hashlib.sha256(link_line).hexdigest()
    return None


def _named(writer: str, place: int, stored: str, link_line: bytes, problem: str) -> Fault:
    """Name the entry by its number, or by the hash it is kept under where the number is off."""
    seq = read(link_line, None).link.seq
    if hashlib.sha256(link_line).hexdigest() != stored and seq != place:
        return Fault(f"the entry stored as {stored[:12]}…", problem, place - 1)
    first = min(place, seq)  # a number that stands twice is met one place too late
    return Fault(f"{writer}-{first}", problem, first - 1)


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
