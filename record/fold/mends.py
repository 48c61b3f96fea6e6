"""Which statements still stand: the algebra of mending.

A mend says that something was never so; a withdrawal says it and puts nothing in its place.
Both name earlier entries by link hash, so no clock decides anything here:

- a withdrawal acts unless it is withdrawn itself; withdrawing it restores what it took away;
- a mend takes the place of the fields it names in its targets, unless it was withdrawn;
- what a mend says can be mended in turn; its targets stay replaced.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from record.entry import Content, Entry

WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Sight:
    """Who had seen what: one entry saw another if it came later in the same chain, or if the
    other's chain was known, that far, when it was written."""

    seq_of: Mapping[str, tuple[str, int]]  # link hash -> writer, seq

    def saw(self, later: Entry, earlier: Entry) -> bool:
        if later.link.writer == earlier.link.writer:
            return later.link.seq > earlier.link.seq
        seen = later.content.seen if later.content else None
        head = (seen or {}).get(earlier.link.writer)
        known = self.seq_of.get(head) if head else None
        return known is not None and known[1] >= earlier.link.seq


def sight(entries: Iterable[Entry]) -> Sight:
    return Sight({entry.hash: (entry.link.writer, entry.link.seq) for entry in entries})


@dataclass(frozen=True, slots=True)
class Mends:
    """For every entry: who withdrew it, and who replaced which of its fields."""

    withdrawn_by: Mapping[str, tuple[Entry, ...]]
    replaced_by: Mapping[tuple[str, str], tuple[Entry, ...]]  # (hash, field; "" is all of them)
    roots: Mapping[str, Entry]  # a mend's hash -> the entry it mends in the end
    astray: tuple[Entry, ...]  # mends of an entry that is not here, or that they had not seen

    def stands(self, entry: Entry, field: str) -> bool:
        """Return whether what ``entry`` says of ``field`` still stands."""
        return not (
            entry.hash in self.withdrawn_by
            or (entry.hash, field) in self.replaced_by
            or (entry.hash, "") in self.replaced_by
        )

    def root(self, entry: Entry) -> Entry:
        return self.roots.get(entry.hash, entry)

    def over(self, entry: Entry) -> tuple[Entry, ...]:
        """Return every entry that mends or withdraws ``entry``, in showing order."""
        found = {e.hash: e for e in self.withdrawn_by.get(entry.hash, ())}
        for (target, _), by in self.replaced_by.items():
            if target == entry.hash:
                found.update({e.hash: e for e in by})
        return tuple(sorted(found.values(), key=lambda e: e.order))


def mends(entries: Sequence[Entry], seen: Sight) -> Mends:
    """Return how ``entries`` mend one another."""
    here = {entry.hash: entry for entry in entries}
    mending = [entry for entry in entries if entry.content and entry.content.replaces]
    astray = tuple(m for m in mending if not _targets(m, here, seen))
    sound = [m for m in mending if m not in astray]
    withdrawn = _withdrawn(sound, here, seen)
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
        roots=_roots(sound, here),
        astray=astray,
    )


def _content(entry: Entry) -> Content:
    assert entry.content is not None
    return entry.content


def _targets(mend: Entry, here: Mapping[str, Entry], seen: Sight) -> list[Entry]:
    """Return the mend's targets, or none where one is missing or not causally earlier."""
    targets = [here.get(target.entry) for target in _content(mend).replaces]
    good = [t for t in targets if t is not None and seen.saw(mend, t)]
    return good if len(good) == len(targets) else []


def _withdrawn(
    sound: Sequence[Entry], here: Mapping[str, Entry], seen: Sight
) -> dict[str, list[Entry]]:
    """Return acting withdrawals by target, judged from the causally latest back."""
    by_target: dict[str, list[Entry]] = {}
    for entry in sound:
        if _content(entry).kind == WITHDRAWN:
            for target in _content(entry).replaces:
                by_target.setdefault(target.entry, []).append(entry)
    acts: dict[str, bool] = {}

    def acting(entry: Entry) -> bool:
        if entry.hash not in acts:
            # Targets are causally earlier, so this ends.
            acts[entry.hash] = not any(acting(w) for w in by_target.get(entry.hash, ()))
        return acts[entry.hash]

    found: dict[str, list[Entry]] = {}
    for mended, withdrawals in by_target.items():
        if live := [w for w in withdrawals if acting(w)]:
            found[mended] = live
    return found


def _roots(sound: Sequence[Entry], here: Mapping[str, Entry]) -> dict[str, Entry]:
    roots: dict[str, Entry] = {}
    for mend in sound:
        at = mend
        while at.content and at.content.replaces:
            at = here[at.content.replaces[0].entry]
        roots[mend.hash] = at
    return roots
