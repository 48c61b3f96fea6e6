"""Which statements still stand: the algebra of mending.

A mend says that something was never so; a withdrawal says it and puts nothing in its place.
Both name earlier entries by link hash, so no clock decides anything here:

- a withdrawal acts unless it is withdrawn itself; withdrawing it restores what it took away;
- a mend takes the place of the fields it names in its targets, unless it was withdrawn;
- what a mend says can be mended in turn; its targets stay replaced.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from record.entry import Content, Entry
from record.fold.sight import Sight, in_order

WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Mends:
    """For every entry: who withdrew it, and who replaced which of its fields."""

    withdrawn_by: Mapping[str, tuple[Entry, ...]]
    replaced_by: Mapping[tuple[str, str], tuple[Entry, ...]]  # (hash, field; "" is all of them)
    lines: Mapping[str, tuple[Entry, ...]]  # a mend's hash -> what it mends, and what that mends …
    astray: tuple[Entry, ...]  # mends of an entry that is not here, or that they had not seen
    touched: frozenset[str] = frozenset()  # hashes of what is withdrawn, or replaced in a field

    def stands(self, entry: Entry, field: str) -> bool:
        """Return whether what ``entry`` says of ``field`` still stands."""
        return entry.hash not in self.touched or not (
            entry.hash in self.withdrawn_by
            or (entry.hash, field) in self.replaced_by
            or (entry.hash, "") in self.replaced_by
        )

    def root(self, entry: Entry) -> Entry:
        """Return the entry that is mended in the end, whose place in time a mend takes."""
        line = self.lines.get(entry.hash)
        return line[0] if line else entry

    def answers(self, mend: Entry, other: Entry) -> bool:
        """Return whether ``mend`` names ``other``, or names a mend that does."""
        return any(each.hash == other.hash for each in self.lines.get(mend.hash, ()))

    def over(self, entry: Entry) -> tuple[Entry, ...]:
        """Return every entry that mends or withdraws ``entry``, in showing order."""
        found = {e.hash: e for e in self.withdrawn_by.get(entry.hash, ())}
        for (target, _), by in self.replaced_by.items():
            if target == entry.hash:
                found.update({e.hash: e for e in by})
        return tuple(sorted(found.values(), key=lambda e: e.order))


def mends(entries: Sequence[Entry], seen: Sight, ordered: Sequence[Entry] | None = None) -> Mends:
    """Return how ``entries`` mend one another; ``ordered`` is :func:`in_order` where known."""
    mending = [entry for entry in entries if entry.content and entry.content.replaces]
    if not mending:
        return Mends({}, {}, {}, ())
    if ordered is None:
        ordered = in_order(seen)
    ordered = [entry for entry in ordered if entry.content and entry.content.replaces]
    sound = [mend for mend in ordered if _targets(mend, seen)]
    kept = {mend.hash for mend in sound}
    withdrawn = _withdrawn(sound)
    replaced: dict[tuple[str, str], list[Entry]] = {}
    for mend in sound:
        if _content(mend).kind == WITHDRAWN or mend.hash in withdrawn:
            continue
        for target in _content(mend).replaces:
            for field in target.fields or ("",):
                replaced.setdefault((target.entry, field), []).append(mend)
    return Mends(
        withdrawn_by={target: tuple(by) for target, by in withdrawn.items()},
        replaced_by={target: tuple(by) for target, by in replaced.items()},
        lines=_lines(sound, seen),
        astray=tuple(mend for mend in ordered if mend.hash not in kept),
        touched=frozenset(withdrawn).union(target for target, _ in replaced),
    )


def _content(entry: Entry) -> Content:
    assert entry.content is not None
    return entry.content


def _targets(mend: Entry, seen: Sight) -> list[Entry]:
    """Return the mend's targets, or none where one is missing or not causally earlier."""
    targets = [seen.here.get(target.entry) for target in _content(mend).replaces]
    good = [t for t in targets if t is not None and seen.saw(mend, t)]
    return good if len(good) == len(targets) else []


def _withdrawn(sound: Sequence[Entry]) -> dict[str, list[Entry]]:
    """Return acting withdrawals by target. ``sound`` stands in order of sight."""
    found: dict[str, list[Entry]] = {}
    # From the last one back: whoever may have withdrawn a withdrawal was judged before it.
    for entry in reversed(sound):
        if _content(entry).kind == WITHDRAWN and entry.hash not in found:
            for target in _content(entry).replaces:
                found.setdefault(target.entry, []).insert(0, entry)
    return found


def _lines(sound: Sequence[Entry], seen: Sight) -> dict[str, tuple[Entry, ...]]:
    """Return for every mend all that it mends, the root first. ``sound`` stands in order."""
    lines: dict[str, tuple[Entry, ...]] = {}
    for mend in sound:
        if _content(mend).kind == WITHDRAWN:
            continue
        found: dict[str, Entry] = {}
        for target in _targets(mend, seen):
            # A target's own line ends, root first, before the target itself.
            for each in (*lines.get(target.hash, ()), target):
                found.setdefault(each.hash, each)
        lines[mend.hash] = tuple(found.values())
    return lines
