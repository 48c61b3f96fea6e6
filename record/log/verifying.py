"""Check a log line by line: every hash, every chain, and name the first that does not match.

A chain that forks is sound in each of its branches: it is told, and is no fault of any line.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.entry import BadLine, Entry, forks, in_showing_order, numbered, read


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
    owner's copy should find none missing, so ``without`` names them. ``forks`` names entries
    that carry one number: two devices wrote under one name, or a copy was restored.
    """

    faults: tuple[Fault, ...]
    counts: tuple[tuple[str, int], ...]
    without: tuple[str, ...] = ()  # numbers of entries whose content is not here
    forks: tuple[tuple[str, ...], ...] = ()

    @property
    def withheld(self) -> int:
        return len(self.without)

    @property
    def sound(self) -> bool:
        return not self.faults


@dataclass(frozen=True, slots=True)
class _Row:
    """One entry as it is kept: under which hash, at which place of its chain, and its lines."""

    stored: str
    place: int
    entry: Entry  # of the link line alone where the content line cannot be read
    content_line: bytes | None
    unread: str = ""  # why it cannot


def verify(lines: Iterable[tuple[str, str, bytes, bytes | None]]) -> Verdict:
    """
    Return what ``Log.lines`` holds that does not match its seals.

    ``lines`` come ordered by site, writer and number. One fault is named per chain: what comes
    after it rests on it.
    """
    return verified(lines)[0]


def verified(
    lines: Iterable[tuple[str, str, bytes, bytes | None]],
) -> tuple[Verdict, tuple[Entry, ...]]:
    """Return the same, and the entries as ``Log.entries`` does; none where a fault is found."""
    chains: dict[tuple[str, str], list[_Row]] = {}
    faults: list[Fault] = []
    for stored, _, link_line, content_line in lines:
        try:
            entry, unread = _read(link_line, content_line)
        except BadLine as bad:
            faults.append(Fault(f"the entry stored as {stored[:12]}…", str(bad), 0))
            continue
        chain = chains.setdefault((entry.link.site, entry.link.writer), [])
        chain.append(_Row(stored, len(chain) + 1, entry, content_line, unread))
    verdict = _verdict(chains, faults)
    every = (row.entry for chain in chains.values() for row in chain)
    return verdict, in_showing_order(every) if verdict.sound else ()


def _read(link_line: bytes, content_line: bytes | None) -> tuple[Entry, str]:
    """Return an entry, and why its content cannot be read. Raises BadLine: its link cannot."""
    try:
        return read(link_line, content_line), ""
    except BadLine as bad:
        return read(link_line, None), str(bad)


def _verdict(chains: Mapping[tuple[str, str], Sequence[_Row]], faults: list[Fault]) -> Verdict:
    without: list[str] = []
    twins: list[tuple[str, ...]] = []
    faulty: set[str] = set()
    for (_, writer), chain in sorted(chains.items()):
        found = tuple(_first_fault(chain))
        faulty |= {writer} if found else set()
        faults += found
        if len({row.entry.link.seq for row in chain}) < len(chain):
            named = numbered(row.entry for row in chain)
            twins += [tuple(entry.number for entry in each) for each in forks(named).values()]
            kept = zip(named, chain, strict=True)
            without += [entry.number for entry, row in kept if row.content_line is None]
        else:
            without += [row.entry.place for row in chain if row.content_line is None]
    if len(faults) == len(faulty):  # a line nobody can read may be the very one that was seen
        faults += _seen_and_gone(chains, faulty)
    counts = tuple((writer, len(chain)) for (_, writer), chain in sorted(chains.items()))
    return Verdict(tuple(faults), counts, tuple(without), tuple(twins))


def _first_fault(chain: Sequence[_Row]) -> Iterator[Fault]:
    """Yield the first fault of one writer's chain, if it has one."""
    # A line that was changed may carry any number: it is looked for before numbers are trusted.
    for row in chain:
        if row.entry.hash != row.stored:
            yield _changed(row, chain)
            return
    ordered = sorted(chain, key=lambda row: (row.entry.link.seq, row.place))
    here = {row.entry.hash: row.entry for row in chain}
    highest = 0
    for before, (row, kept) in enumerate(zip(ordered, chain, strict=True)):
        number, seq = row.entry.place, row.entry.link.seq
        if seq > highest + 1:
            missing = f"{row.entry.link.writer}-{highest + 1}"
            yield Fault(missing, f"it is missing: {number} rests on an entry not here", before)
            return
        problem = _problem(row, kept, here)
        if problem:
            yield Fault(number, problem, before)
            return
        highest = seq


def _seen_and_gone(
    chains: Mapping[tuple[str, str], Sequence[_Row]], faulty: Collection[str]
) -> Iterator[Fault]:
    """Yield a fault for each head that an entry had seen and that is here no more, once."""
    here = {row.entry.hash for chain in chains.values() for row in chain}
    for (_, writer), chain in sorted(chains.items()):
        for before, row in enumerate(chain if writer not in faulty else ()):
            content = row.entry.content
            for name, head in ((content.seen if content else None) or {}).items():
                whose = name.partition("/")[0]
                if head in here or whose in faulty:
                    continue
                here.add(head)
                yield Fault(
                    row.entry.place,
                    f"it had seen an entry of {whose} ({head[:12]}…) that is not here: {whose}'s "
                    "chain was cut at its end, or that part was never handed over",
                    before,
                )


def _changed(row: _Row, chain: Sequence[_Row]) -> Fault:
    """Name a changed link by its number, or by the hash it is kept under where that is off."""
    problem = "its link line was changed: the line does not give the hash it is kept under"
    before = sum(1 for other in chain if other.place < row.place)
    if row.entry.link.seq != row.place:
        return Fault(f"the entry stored as {row.stored[:12]}…", problem, before)
    return Fault(row.entry.place, problem, before)


def _problem(row: _Row, kept: _Row, here: dict[str, Entry]) -> str | None:
    entry = row.entry
    if kept.entry.link.seq != entry.link.seq:
        return "it is kept under another number than its line says"
    if fault := _rests_on(entry, here):
        return fault
    if row.content_line is None:
        return None
    if hashlib.sha256(row.content_line).hexdigest() != entry.link.content:
        return "its content line was changed: it does not give the hash its link was sealed with"
    return row.unread or None


def _rests_on(entry: Entry, here: dict[str, Entry]) -> str | None:
    """Say why an entry does not follow one that is here; None where it does."""
    prev = entry.link.prev
    if prev is None and entry.link.seq == 1:
        return None
    under = here.get(prev or "")
    if under is None:
        return (
            f"{entry.place} rests on an entry that is not here: "
            "the line before was changed or put in, or a branch is missing"
        )
    if under.link.seq != entry.link.seq - 1:
        return f"it names {under.place} as the entry before it"
    return None
