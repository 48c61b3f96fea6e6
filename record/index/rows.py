"""The index as a value: made from entries in order, and carried on by the entries that follow.

Entries are named by their place in the order of sight. Histories that are rare and intricate
(forks, swapped tags, entries that cannot be read or are withheld) have no index: they are folded.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

import msgspec

from record.entry import Entry
from record.facts import STORED, Sort
from record.fold.lazy import concerned
from record.fold.mends import WITHDRAWN
from record.fold.swaps import SWAPPED

HASH = 32  # bytes
WHEN = 16  # letters of a day and an hour
Key = tuple[int, str, str, int, str]  # how deep, site, writer, number, hash: the order of sight


class NoIndex(Exception):
    """This history has no index, and is folded whole; the text says why."""


class Mend(msgspec.Struct, array_like=True):
    """One mend or withdrawal: its place, and its targets' places."""

    place: int
    withdraws: bool
    targets: list[int]


Places = bytearray  # four bytes a place, as this machine writes them: read at once, never parsed


def places_of(packed: Places) -> list[int]:
    return memoryview(packed).cast("I").tolist()


def _packed(number: int, size: int = 4) -> bytes:
    return number.to_bytes(size, sys.byteorder)


class Index(msgspec.Struct):
    """Everything that is looked up: by tag, the statements of a thing itself, and of its parts."""

    made_by: str
    site: str = ""
    hashes: bytearray = msgspec.field(default_factory=bytearray)
    kinds: list[str] = msgspec.field(default_factory=list)
    kind_at: bytearray = msgspec.field(default_factory=bytearray)  # two bytes a place
    depth_at: Places = msgspec.field(default_factory=bytearray)
    heads: dict[str, tuple[int, str]] = msgspec.field(default_factory=dict)
    last: Key | None = None
    own: dict[str, Places] = msgspec.field(default_factory=dict)
    parts: dict[str, Places] = msgspec.field(default_factory=dict)
    kind_of: dict[str, int] = msgspec.field(default_factory=dict)  # of a tag, or tag and part
    said: Places = msgspec.field(default_factory=bytearray)  # happenings in the order of the field
    when: bytearray = msgspec.field(default_factory=bytearray)  # of each, as long as WHEN
    concerned: dict[str, Places] = msgspec.field(default_factory=dict)
    mends: list[Mend] = msgspec.field(default_factory=list)

    @property
    def count(self) -> int:
        return len(self.hashes) // HASH

    def hash_at(self, place: int) -> str:
        return self.hashes[place * HASH : (place + 1) * HASH].hex()

    def kind(self, place: int) -> str:
        return self.kinds[self.kind_number(place)]

    def kind_number(self, place: int) -> int:
        return int.from_bytes(self.kind_at[place * 2 : place * 2 + 2], sys.byteorder)

    def depth(self, place: int) -> int:
        return int.from_bytes(self.depth_at[place * 4 : place * 4 + 4], sys.byteorder)

    def place(self, hash_: str) -> int | None:
        """Return where the entry of a link hash stands, if it is here."""
        wanted = bytes.fromhex(hash_)
        found = self.hashes.rfind(wanted)  # what is asked for is mostly young
        while found > 0 and found % HASH:
            found = self.hashes.rfind(wanted, 0, found + HASH - 1)
        return None if found < 0 else found // HASH


class Known(NamedTuple):
    """An entry with its place in the order of sight."""

    key: Key
    entry: Entry


def extended(index: Index, entries: Iterable[Entry]) -> Index:
    """Carry ``index`` on, in place, by every entry that it lacks. Raises NoIndex."""
    new = {entry.hash: entry for entry in entries}
    places = _Places(index, new)
    before = len(index.said) // 4
    for key, entry in sorted(Known(places.key(entry), entry) for entry in new.values()):
        if index.last is not None and key <= index.last:
            raise NoIndex("an entry came in that stands between others")
        _add(index, key, entry, places)
    _sort(index, before)
    return index


class _Places:
    """Where entries stand while new ones come in: those of the index, and the new."""

    def __init__(self, index: Index, new: dict[str, Entry]) -> None:
        self._index, self._new = index, new
        self._depth: dict[str, int] = {}
        self.at: dict[str, int] = {}

    def place(self, hash_: str) -> int:
        place = self.at.get(hash_)
        if place is None:
            found = self._index.place(hash_)
            if found is None:
                raise NoIndex("an entry names one that is not here, or that stands behind it")
            place = self.at[hash_] = found
        return place

    def key(self, entry: Entry) -> Key:
        link = entry.link
        return (self._deep(entry), link.site, link.writer, link.seq, entry.hash)

    def _deep(self, entry: Entry) -> int:
        waiting = [entry]
        while waiting:
            at = waiting[-1]
            if at.content is None:
                raise NoIndex("something is withheld")
            before = [h for h in (at.link.prev, *(at.content.seen or {}).values()) if h]
            unknown = [self._new[h] for h in before if h in self._new and h not in self._depth]
            if unknown:
                waiting += unknown
                continue
            self._depth[at.hash] = 1 + max(map(self._depth_of, before), default=0)
            waiting.pop()
        return self._depth[entry.hash]

    def _depth_of(self, hash_: str) -> int:
        depth = self._depth.get(hash_)
        if depth is None:
            depth = self._depth[hash_] = self._index.depth(self.place(hash_))
        return depth


def _add(index: Index, key: Key, entry: Entry, places: _Places) -> None:
    """Add one entry that stands behind all that are there."""
    content, link, place = entry.content, entry.link, index.count
    assert content is not None
    kind = STORED.get(content.kind)
    if kind is None or content.version > kind.version:
        raise NoIndex("an entry cannot be read by this version")
    if content.kind == SWAPPED:
        raise NoIndex("tags were swapped")
    number, head = index.heads.get(link.writer, (0, None))
    if (link.seq, link.prev) != (number + 1, head) or link.site != (index.site or link.site):
        raise NoIndex("a chain is forked, or lacks a link")
    if content.replaces:
        targets = [places.place(target.entry) for target in content.replaces]
        index.mends.append(Mend(place, content.kind == WITHDRAWN, targets))
        if content.kind != WITHDRAWN and any(index.kind(t) != content.kind for t in targets):
            raise NoIndex("an entry mends one of another kind")
    if content.kind not in index.kinds:
        index.kinds.append(content.kind)
    number_of_kind = index.kinds.index(content.kind)
    if kind.sort is Sort.THING:
        whole, slash, _ = content.about.partition("/")
        if index.kind_of.setdefault(content.about, number_of_kind) != number_of_kind:
            raise NoIndex("a tag is used for two kinds")
        _note(index.parts if slash else index.own, whole, place)
    elif content.kind != WITHDRAWN:
        for tag in dict.fromkeys(concerned(entry)):
            _note(index.concerned, tag, place)
        if not content.replaces:
            index.said += _packed(place)
            index.when += f"{content.on} {content.at or ''}".ljust(WHEN).encode()
    index.site = link.site
    index.hashes += bytes.fromhex(entry.hash)
    index.kind_at += _packed(number_of_kind, 2)
    index.depth_at += _packed(key[0])
    index.heads[link.writer] = (link.seq, entry.hash)
    index.last = key
    places.at[entry.hash] = place


def _note(by_tag: dict[str, Places], tag: str, place: int) -> None:
    by_tag.setdefault(tag, bytearray()).extend(_packed(place))


def _sort(index: Index, before: int) -> None:
    """Put happenings by day and hour, else as they stand; those up to ``before`` are so already."""
    count = len(index.said) // 4
    new = range(max(before - 1, 0), count)
    told = [index.when[n * WHEN : (n + 1) * WHEN] for n in new]
    if all(one <= other for one, other in pairwise(told)):
        return
    when = [bytes(index.when[n * WHEN : (n + 1) * WHEN]) for n in range(count)]
    order = sorted(range(count), key=when.__getitem__)
    said = places_of(index.said)
    index.said = bytearray(b"".join(_packed(said[n]) for n in order))
    index.when = bytearray(b"".join(when[n] for n in order))


def changed(index: Index) -> tuple[frozenset[int], dict[int, int], dict[int, list[int]]]:
    """
    Return which places are withdrawn, what each mend mends in the end, and who goes with whom.

    The same algebra as in ``record.fold.mends``, in places: every mend here is sound.
    """
    withdrawn: set[int] = set()
    for mend in reversed(index.mends):
        if mend.withdraws and mend.place not in withdrawn:
            withdrawn.update(mend.targets)
    roots: dict[int, int] = {}
    together: dict[int, list[int]] = {}
    for mend in index.mends:
        if not mend.withdraws:
            roots[mend.place] = roots.get(mend.targets[0], mend.targets[0])
        _join(together, (mend.place, *mend.targets))
    return frozenset(withdrawn), roots, together


def _join(together: dict[int, list[int]], places: Sequence[int]) -> None:
    """Put entries that mend one another into one group, the smaller into the larger."""
    groups = {id(group): group for place in places if (group := together.get(place))}
    largest = max(groups.values(), key=len, default=[])
    for group in [g for g in groups.values() if g is not largest]:
        for place in group:
            together[place] = largest
        largest += group
    for place in dict.fromkeys(places):
        if together.get(place) is not largest:
            together[place] = largest
            largest.append(place)
