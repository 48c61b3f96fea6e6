"""What was built, by its index: only the entries that are asked about are read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from functools import cached_property
from operator import itemgetter
from typing import overload

from record.entry import Entry
from record.facts import STORED, Kind
from record.fold import AsBuilt, Happening, Thing, fold
from record.fold.fold import fold_ordered
from record.fold.lazy import Happenings, Things
from record.fold.sight import Sight
from record.fold.state import Asked
from record.index.rows import Index, changed, places_of
from record.log import Log

MUCH = 400  # places: beyond it, and this share of all, everything is read and folded in one go
ONE_BY_ONE, AT_ONCE = 20, 2  # a twentieth of what is read thing by thing, half in one go


class Opened:
    """The log and its index, and what was read of it so far."""

    def __init__(self, log: Log, index: Index, tail: Iterable[Entry]) -> None:
        self._log, self._index = log, index
        self._read: dict[str, Entry] = {entry.hash: entry for entry in tail}
        self._withdrawn, self._roots, self._together = changed(index)
        self._mends_of: dict[int, list[int]] = {}
        for mend, root in self._roots.items():
            self._mends_of.setdefault(root, []).append(mend)
        self._sight = Sight(_Here(self), frozenset())
        self._asked = 0

    @property
    def built(self) -> AsBuilt:
        return AsBuilt(
            site=self._index.site,
            as_of=None,
            things=_Whole(self._wholes(), self._thing, self._ahead_of),
            happenings=_Told(self),
            entries=_Entries(self),
        )

    def entry(self, hash_: str) -> Entry | None:
        if hash_ not in self._read:
            if self._index.place(hash_) is None:
                return None
            self.read([hash_])
        return self._read[hash_]

    def read(self, hashes: Iterable[str]) -> None:
        wanted = [hash_ for hash_ in hashes if hash_ not in self._read]
        if wanted:
            self._read.update((entry.hash, entry) for entry in self._log.some(wanted))

    @cached_property
    def whole(self) -> AsBuilt:
        """Return everything folded at once: for whoever asks about much of it, that is less."""
        return fold(self.every())

    def much(self, places: Sequence[int], *, at_once: bool = False) -> bool:
        """Return whether so much was asked about by now that all of it is better folded."""
        if "whole" in self.__dict__:
            return True
        new = sum(1 for p in places if self._index.hash_at(p) not in self._read)
        if at_once:
            return len(self._read) + new > max(MUCH, self._index.count // AT_ONCE)
        self._asked += new
        return self._asked > max(MUCH, self._index.count // ONE_BY_ONE)

    def ahead(self, places: Sequence[int]) -> bool:
        """Read many entries at once, and whom they had seen; not if it is too much of all."""
        if self.much(places, at_once=True):
            return False
        seen = (e.content.seen for e in self.at(places) if e.content and e.content.seen)
        self.read({head for heads in {id(each): each for each in seen}.values()
                   for head in heads.values()})  # fmt: skip
        return True

    def _ahead_of(self, tags: Iterable[str]) -> None:
        self.ahead([place for tag in tags for place in self._said_of(tag)])

    def _said_of(self, tag: str) -> list[int]:
        return places_of(self._index.own[tag] + self._index.parts.get(tag, bytearray()))

    def at(self, places: Iterable[int]) -> list[Entry]:
        """Return the entries at these places, with all that mend them and that they mend, in
        order of sight."""
        every = set(places)
        for place in tuple(every):
            every.update(self._together.get(place, ()))
        hashes = [self._index.hash_at(place) for place in sorted(every)]
        self.read(hashes)
        return [self._read[hash_] for hash_ in hashes]

    def _wholes(self) -> dict[str, Kind]:
        """Return the things there are, in the order they were first spoken of."""
        index, found = self._index, []
        for tag, packed in index.own.items():
            own, parts = places_of(packed), places_of(index.parts.get(tag, bytearray()))
            firsts = [self._first(own), self._first(parts)]
            if firsts[0] is not None:
                kind = STORED[index.kinds[index.kind_of[tag]]]
                found.append((min(n for n in firsts if n is not None), tag, kind))
        return {tag: kind for _, tag, kind in sorted(found, key=itemgetter(0))}

    def _first(self, places: Iterable[int]) -> int | None:
        return next((place for place in places if place not in self._withdrawn), None)

    def _thing(self, tag: str) -> Thing:
        places = self._said_of(tag)
        if self.much(places):
            return self.whole.things[tag]
        return fold_ordered(self.at(places), self._sight).things[tag]

    @cached_property
    def told(self) -> list[tuple[Kind, int]]:
        """Return the happenings that stand, by day and hour, else in the order of sight."""
        kinds = [STORED.get(word) for word in self._index.kinds]
        numbers = memoryview(self._index.kind_at).cast("H").tolist()
        places = places_of(self._index.said)
        standing = (place for place in places if place not in self._withdrawn)
        return [(kind, place) for place in standing if (kind := kinds[numbers[place]])]

    def happening(self, place: int) -> Happening:
        root = self._index.hash_at(place)
        happenings = fold_ordered(self.at([place]), self._sight).happenings
        return next(one for one in happenings if one.entry.hash == root)

    def concerning(self, tags: Set[str]) -> set[int]:
        """Return the places of happenings that concern a tag, or did before they were mended."""
        of = (places_of(self._index.concerned.get(tag, bytearray())) for tag in tags)
        return {self._roots.get(place, place) for places in of for place in places}

    @cached_property
    def _every(self) -> tuple[Entry, ...]:
        """Return every entry in showing order; not those that came in since it was opened."""
        entries = self._log.entries()
        if len(entries) == self._index.count:
            return entries
        here = {self._index.hash_at(place) for place in range(self._index.count)}
        return tuple(entry for entry in entries if entry.hash in here)

    def every(self) -> tuple[Entry, ...]:
        return self._every


class _Whole(Things):
    """Things of an opened record; those of one kind are read in one go."""

    def __init__(
        self,
        kinds: Mapping[str, Kind],
        make: Callable[[str], Thing],
        ahead: Callable[[Iterable[str]], None],
    ) -> None:
        super().__init__(kinds, make)
        self._ahead = ahead

    def of_kind(self, word: str) -> Iterator[Thing]:
        self._ahead(tag for tag in self.tags_of(word) if tag not in self._made)
        return super().of_kind(word)


class _Told(Happenings):
    """Happenings of an opened record, read when asked for, many at a time."""

    def __init__(self, opened: Opened) -> None:
        self._opened = opened
        self._made: dict[int, Happening] = {}

    def __len__(self) -> int:
        return len(self._opened.told)

    def _at(self, place: int) -> Happening:
        return self._made_of(self._opened.told[place][1])

    def _made_of(self, place: int) -> Happening:
        made = self._made.get(place)
        if made is None:
            made = self._made[place] = self._opened.happening(place)
        return made

    def __iter__(self) -> Iterator[Happening]:
        return self.happened(())

    def happened(self, words: Sequence[str]) -> Iterator[Happening]:
        places = [p for kind, p in self._opened.told if not words or kind.word in words]
        if not self._opened.ahead(places):
            yield from self._opened.whole.happened(*words)
            return
        yield from map(self._made_of, places)

    def happened_to(self, asked: Sequence[Asked]) -> Iterator[Happening]:
        may = [
            (tags, words, None if tags is None else self._opened.concerning(tags))
            for tags, words in asked
        ]
        found = {
            place: [tags for tags, words, of in may if kind.word in words
                    and (of is None or place in of)]
            for kind, place in self._opened.told
        }  # fmt: skip
        places = [place for place, tags in found.items() if tags]
        if not self._opened.ahead(places):
            yield from self._opened.whole.happened_to(*asked)
            return
        for place in places:
            one = self._made_of(place)
            if any(tags is None or one.concerns() & tags for tags in found[place]):
                yield one

    def about(self, tag: str, words: Sequence[str]) -> Iterator[Happening]:
        may = self._opened.concerning({tag})
        told = self._opened.told
        places = [p for kind, p in told if p in may and (not words or kind.word in words)]
        if self._opened.much(places):
            yield from self._opened.whole.about(tag, *words)
            return
        self._opened.at(places)
        yield from (one for one in map(self._made_of, places) if tag in one.concerns())


class _Here(Mapping[str, Entry]):
    """The entries at hand by link hash; one is read when it is asked for."""

    def __init__(self, opened: Opened) -> None:
        self._opened = opened

    def __getitem__(self, hash_: str) -> Entry:
        entry = self._opened.entry(hash_) if len(hash_) == 64 else None
        if entry is None:
            raise KeyError(hash_)
        return entry

    def __iter__(self) -> Iterator[str]:
        return (entry.hash for entry in self._opened.every())

    def __len__(self) -> int:
        return len(self._opened.every())


class _Entries(Sequence[Entry]):
    """Every entry in showing order, read when the first is asked for."""

    def __init__(self, opened: Opened) -> None:
        self._opened = opened

    @cached_property
    def _every(self) -> tuple[Entry, ...]:
        return self._opened.every()

    @overload
    def __getitem__(self, place: int) -> Entry: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[Entry]: ...
    def __getitem__(self, place: int | slice) -> Entry | Sequence[Entry]:
        return self._every[place]

    def __len__(self) -> int:
        return len(self._every)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and self._every == tuple(other)

    __hash__ = None  # type: ignore[assignment]
