"""Who had seen what: the only order that decides anything, told by the chains themselves.

A writer sees its own chain, and of the others what each entry's ``seen`` says was known when
it was written. No clock comes in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from operator import attrgetter

from record.entry import Entry


@dataclass(frozen=True, slots=True)
class Sight:
    """The entries at hand, asked which of two had seen the other."""

    here: Mapping[str, Entry]  # by link hash
    forked: frozenset[tuple[str, str]]  # site and writer of chains in which a number stands twice

    def saw(self, later: Entry, earlier: Entry) -> bool:
        """Return whether ``earlier`` was known when ``later`` was written."""
        writer = earlier.link.writer
        forked = (earlier.link.site, writer) in self.forked
        if later.link.writer == writer and (self._follows(later, earlier) or not forked):
            return self._follows(later, earlier)
        seen = (later.content.seen if later.content else None) or {}
        # One head a writer; of a forked chain the further ones stand as "ld/a3f2c0d1".
        names = [n for n in seen if n.partition("/")[0] == writer] if forked else [writer]
        heads = [head for name in names if (head := self.here.get(seen.get(name, "")))]
        return any(h.hash == earlier.hash or self._follows(h, earlier) for h in heads)

    def before(self, entry: Entry) -> Iterator[Entry]:
        """Yield the entries at hand that ``entry`` names as known: its own last, others' heads."""
        seen = entry.content.seen if entry.content else None
        for known in (entry.link.prev, *(seen or {}).values()):
            entry_known = self.here.get(known or "")
            if entry_known is not None:
                yield entry_known

    def _follows(self, later: Entry, earlier: Entry) -> bool:
        """Return whether ``later`` stands behind ``earlier`` in one chain."""
        if later.link.seq <= earlier.link.seq:
            return False
        if (later.link.site, later.link.writer) not in self.forked:
            return True
        at: Entry | None = later
        while at is not None and at.link.seq > earlier.link.seq:
            at = self.here.get(at.link.prev or "")
        return at is not None and at.hash == earlier.hash


class _Last:
    """The entries that were asked about last: a question asks of the same ones many times."""

    entries: Iterable[Entry] = ()
    seen = Sight({}, frozenset())


def sight(entries: Iterable[Entry]) -> Sight:
    if not isinstance(entries, tuple):
        return _sight(entries)
    if entries is not _Last.entries:
        _Last.seen = _sight(entries)
        _Last.entries = entries
    return _Last.seen


def _sight(entries: Iterable[Entry]) -> Sight:
    here = {entry.hash: entry for entry in entries}
    numbers = {(e.link.site, e.link.writer, e.link.seq) for e in here.values()}
    if len(numbers) == len(here):
        return Sight(here, frozenset())
    count = Counter((e.link.site, e.link.writer, e.link.seq) for e in here.values())
    forked = frozenset((site, writer) for (site, writer, _), n in count.items() if n > 1)
    return Sight(here, forked)


def in_order(seen: Sight) -> tuple[Entry, ...]:
    """
    Return every entry once, each behind all it had seen, in one order whatever the clocks say.

    Entries that had not seen each other stand by how much each had seen, then by writer.
    """
    depth = _depths(seen)
    chains: dict[tuple[str, str], list[Entry]] = {}
    for entry in seen.here.values():
        chains.setdefault((entry.link.site, entry.link.writer), []).append(entry)
    ordered: list[Entry] = []
    for chain in sorted(chains):
        ordered += sorted(chains[chain], key=_IN_CHAIN if chain in seen.forked else _NUMBER)
    # Stable: of the same depth, they stay by site, writer, number and hash.
    ordered.sort(key=lambda entry: depth[entry.hash])
    return tuple(ordered)


_NUMBER, _IN_CHAIN = attrgetter("link.seq"), attrgetter("link.seq", "hash")


def _depths(seen: Sight) -> dict[str, int]:
    """Return how deep each entry stands: one more than the deepest it had seen."""
    depth: dict[str, int] = {}
    of_seen: dict[int, int] = {}  # a day's entries share what they had seen of the others
    for entry in seen.here.values():
        content, prev = entry.content, depth.get(entry.link.prev or "")
        heads = of_seen.get(id(content.seen)) if content and content.seen else None
        if prev is not None and heads is not None:
            depth[entry.hash] = 1 + (prev if prev > heads else heads)
        elif entry.hash not in depth:
            _measure(entry, seen, depth, of_seen)
    return depth


def _measure(entry: Entry, seen: Sight, depth: dict[str, int], of_seen: dict[int, int]) -> None:
    """Work out how deep an entry stands, and all that it had seen before it."""
    here = seen.here
    waiting = [entry]
    while waiting:
        at = waiting[-1]
        heads = at.content.seen if at.content else None
        deepest = of_seen.get(id(heads), -1) if heads else 0
        if deepest < 0 and heads:
            unknown = [here[h] for h in heads.values() if h in here and h not in depth]
            if unknown:
                waiting.extend(unknown)
                continue
            deepest = max((depth[h] for h in heads.values() if h in here), default=0)
            of_seen[id(heads)] = deepest
        prev = at.link.prev
        if prev is not None and prev in here:
            if prev not in depth:
                waiting.append(here[prev])
                continue
            deepest = max(deepest, depth[prev])
        depth[at.hash] = deepest + 1
        waiting.pop()
