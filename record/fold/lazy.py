"""Things and happenings that are folded when they are asked for, and then kept.

Which there are is known at once; their values are read from the entries at the first asking. A
question about one valve of a long record pays for that valve.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from typing import overload

from record.entry import Entry
from record.facts import Kind
from record.fold.state import Asked, Happening, Thing

NAMING = ("shows", "tags", "used_on", "used_for", "touches", "with")


class Things(Mapping[str, Thing]):
    """Things by tag, in the order they were first spoken of. ``make`` folds one of them."""

    def __init__(self, kinds: Mapping[str, Kind], make: Callable[[str], Thing]) -> None:
        self._kinds, self._make = kinds, make
        self._made: dict[str, Thing] = {}

    def __getitem__(self, tag: str) -> Thing:
        made = self._made.get(tag)
        if made is None:
            if tag not in self._kinds:
                raise KeyError(tag)
            made = self._made[tag] = self._make(tag)
        return made

    def __contains__(self, tag: object) -> bool:
        return tag in self._kinds

    def __iter__(self) -> Iterator[str]:
        return iter(self._kinds)

    def __len__(self) -> int:
        return len(self._kinds)

    def of_kind(self, word: str) -> Iterator[Thing]:
        """Yield the things of one kind; the others are not folded for it."""
        yield from map(self.__getitem__, self.tags_of(word))

    def tags_of(self, word: str) -> list[str]:
        return [tag for tag, kind in self._kinds.items() if kind.word == word]

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Mapping):
            return NotImplemented
        return dict(self) == dict(other)

    __hash__ = None  # type: ignore[assignment]


class Happenings(Sequence[Happening]):
    """Happenings in the order of the field. Each is a group: its entry and those that mend it."""

    def __init__(
        self,
        groups: Sequence[tuple[Kind, Sequence[Entry]]],
        make: Callable[[Sequence[Entry]], Happening],
    ) -> None:
        self._groups, self._make = groups, make
        self._made: dict[int, Happening] = {}
        self._naming: dict[str, list[int]] | None = None

    def _at(self, place: int) -> Happening:
        made = self._made.get(place)
        if made is None:
            made = self._made[place] = self._make(self._groups[place][1])
        return made

    @overload
    def __getitem__(self, place: int) -> Happening: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[Happening]: ...
    def __getitem__(self, place: int | slice) -> Happening | Sequence[Happening]:
        places = range(len(self._groups))[place]
        return self._at(places) if isinstance(places, int) else tuple(map(self._at, places))

    def __len__(self) -> int:
        return len(self._groups)

    def happened(self, words: Sequence[str]) -> Iterator[Happening]:
        """Yield those of these kinds, or all; the others are not folded for it."""
        for place, (kind, _) in enumerate(self._groups):
            if not words or kind.word in words:
                yield self._at(place)

    def about(self, tag: str, words: Sequence[str]) -> Iterator[Happening]:
        """Yield those of these kinds, or all, that concern a tag."""
        for place in self._may_concern({tag}):
            if not words or self._groups[place][0].word in words:
                happening = self._at(place)
                if tag in happening.concerns():
                    yield happening

    def happened_to(self, asked: Sequence[Asked]) -> Iterator[Happening]:
        """Yield those that any of ``asked`` asks for: of its kinds, concerning one of its tags."""
        found: set[int] = set()
        for tags, words in asked:
            places = range(len(self._groups)) if tags is None else self._may_concern(tags)
            for place in places:
                if self._groups[place][0].word in words and (
                    tags is None or self._at(place).concerns() & tags
                ):
                    found.add(place)
        yield from map(self._at, sorted(found))

    def _may_concern(self, tags: Set[str]) -> list[int]:
        if self._naming is None:
            self._naming = self._index()
        return sorted({place for tag in tags for place in self._naming.get(tag, ())})

    def _index(self) -> dict[str, list[int]]:
        """Return where each tag may be concerned: mended fields are judged when it is folded."""
        naming: dict[str, list[int]] = {}
        for place, (_, group) in enumerate(self._groups):
            for tag in {tag for entry in group for tag in concerned(entry)}:
                naming.setdefault(tag, []).append(place)
        return naming

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Sequence):
            return NotImplemented
        return len(self) == len(other) and all(a == b for a, b in zip(self, other, strict=True))

    __hash__ = None  # type: ignore[assignment]


def concerned(entry: Entry) -> Iterator[str]:
    """Yield the tags an entry is about or names in the fields by which a happening concerns."""
    content = entry.content
    if content is None:
        return
    yield content.about
    if "/" in content.about:
        yield content.about.partition("/")[0]
    for name in NAMING:
        value = content.body.get(name)
        if isinstance(value, str):
            yield value
        elif isinstance(value, list):
            yield from (tag for tag in value if isinstance(tag, str))
