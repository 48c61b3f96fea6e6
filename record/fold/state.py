"""The shelter as built: what the fold makes of the entries. Frozen values only."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import groupby

import msgspec

from record.entry import Entry
from record.facts import Kind
from record.facts.fields import OneOf
from record.facts.values import NOT_RECORDED, Absent, Level, Value, Why, in_words
from record.units import Quantity
from record.words import tell, term


class Held(msgspec.Struct, frozen=True, gc=False):
    """One value a field holds, the entry it rests on, and since when it is true.

    ``on`` and ``at`` are the field's: a mend holds from the day of what it mends. ``worked``
    says how a value that nobody wrote was worked from readings; then it rests on several entries,
    and is held once for each. ``shared`` is what it has in common with others worked alike: the
    mark they came from and its tolerance in metres, which cancels between them.
    """

    value: Value
    entry: Entry
    on: str
    at: str | None = None
    worked: str = ""
    shared: tuple[str, float] | None = None


def _settled(held: tuple[Held, ...]) -> Value:
    """Return the one value held, or which absence it is. Two that differ are not settled."""
    if not held:
        return NOT_RECORDED
    first = held[0].value
    if all(other.value == first for other in held[1:]):
        return first
    said = "; ".join(
        tell("values.says", number=h.entry.number, value=in_words(h.value)) for h in held
    )
    return Absent(Why.NOT_SETTLED, said)


@dataclass(frozen=True, slots=True)
class Stated:
    """Fields and what they hold; the common part of things and happenings."""

    fields: Mapping[str, tuple[Held, ...]]

    def held(self, name: str) -> tuple[Held, ...]:
        return self.fields.get(name, ())

    def value(self, name: str) -> Value:
        """Return what the field holds; an Absent says which of the absences it is."""
        return _settled(self.held(name))

    def quantity(self, name: str) -> Quantity | None:
        value = self.value(name)
        if isinstance(value, Level):
            return value.height
        return value if isinstance(value, Quantity) else None

    def si(self, name: str) -> Decimal | None:
        """Return the measured value in SI units, or None where there is none."""
        quantity = self.quantity(name)
        return None if quantity is None else quantity.si

    def text(self, name: str) -> str | None:
        value = self.value(name)
        return value if isinstance(value, str) else None

    def tags(self, name: str) -> tuple[str, ...]:
        value = self.value(name)
        if isinstance(value, str):
            return (value,)
        return value if isinstance(value, tuple) else ()

    def count(self, name: str) -> int | None:
        value = self.value(name)
        return value if isinstance(value, int) and not isinstance(value, bool) else None

    def stored(self, name: str) -> str:
        """Return the value's words as they are stored, to compare by: in whatever language."""
        return in_words(self.value(name))

    def words(self, name: str) -> str:
        """Return the value as it is read: the crew's text, a choice in the language spoken."""
        value = self.value(name)
        kind: Kind | None = getattr(self, "kind", None)
        field = kind.field(name) if kind else None
        if isinstance(value, str) and field and isinstance(field.holds, OneOf):
            return term(value)
        return in_words(value)

    def unsettled(self) -> tuple[str, ...]:
        """Return the fields that hold two statements which differ."""
        return tuple(
            name
            for name in self.fields
            if isinstance(value := self.value(name), Absent) and value.why is Why.NOT_SETTLED
        )

    def entries(self) -> tuple[Entry, ...]:
        """Return every entry the fields rest on, once each, in showing order."""
        found = {held.entry.hash: held.entry for each in self.fields.values() for held in each}
        return tuple(sorted(found.values(), key=lambda entry: entry.order))


@dataclass(frozen=True, slots=True)
class Thing(Stated):
    """A thing as it stands on the day asked for, with its parts by number, else as first named."""

    tag: str
    kind: Kind
    parts: tuple[Thing, ...] = ()

    @property
    def key(self) -> str:
        """A part's own key: ``2`` of ``AIR-IN/2``."""
        return self.tag.rpartition("/")[2]

    def part(self, key: str) -> Thing | None:
        return next((part for part in self.parts if part.key == key), None)

    def all_entries(self) -> tuple[Entry, ...]:
        found = {e.hash: e for e in self.entries()}
        found.update({e.hash: e for part in self.parts for e in part.entries()})
        return tuple(sorted(found.values(), key=lambda entry: entry.order))


@dataclass(frozen=True, slots=True)
class Happening(Stated):
    """Something that happened, with any mends already in its fields."""

    kind: Kind
    about: str
    on: str
    at: str | None
    entry: Entry

    @property
    def moment(self) -> str:
        """Day and time as recorded; a day alone where the time was not."""
        return f"{self.on} {self.at}" if self.at else self.on

    def concerns(self) -> frozenset[str]:
        """Return every tag it is about, shows or names."""
        tags = {self.about, self.about.partition("/")[0]}
        for name in ("shows", "tags", "used_on", "used_for", "touches", "with"):
            tags.update(self.tags(name))
        return frozenset(tags - {""})


@dataclass(frozen=True, slots=True)
class UnreadEntry:
    """An entry this version does not understand, and why; it is kept, and shown as unread."""

    entry: Entry
    why: str


Asked = tuple[Set[str] | None, Collection[str]]  # tags, and words of kinds


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """Everything that stands, on a day, as known at a moment."""

    site: str
    as_of: str | None
    things: Mapping[str, Thing]
    happenings: Sequence[Happening]
    unread: tuple[UnreadEntry, ...] = ()
    entries: Sequence[Entry] = field(default=(), repr=False)

    def of_kind(self, word: str) -> Iterator[Thing]:
        """Yield the things of one kind, by tag, numbers in number order."""
        of_kind = getattr(self.things, "of_kind", None)
        found: Iterable[Thing] = (
            of_kind(word)
            if of_kind
            else (thing for thing in self.things.values() if thing.kind.word == word)
        )
        yield from sorted(found, key=lambda thing: natural(thing.tag))

    def thing(self, tag: str | None) -> Thing | None:
        return self.things.get(tag) if tag else None

    def happened(self, *words: str) -> Iterator[Happening]:
        happened = getattr(self.happenings, "happened", None)
        if happened:
            yield from happened(words)
        else:
            yield from (h for h in self.happenings if not words or h.kind.word in words)

    def about(self, tag: str, *words: str) -> Iterator[Happening]:
        """Yield what happened to a thing or a part of it, or names it, in order."""
        about = getattr(self.happenings, "about", None)
        if about:
            yield from about(tag, words)
        else:
            yield from (h for h in self.happened(*words) if tag in h.concerns())

    def happened_to(self, *asked: Asked) -> Iterator[Happening]:
        """
        Yield, once each and in order, what any of ``asked`` asks for.

        Each asks for the happenings of its kinds that concern one of its tags; None is any tag.
        """
        happened_to = getattr(self.happenings, "happened_to", None)
        if happened_to:
            yield from happened_to(asked)
        else:
            yield from (h for h in self.happenings if any(_asked_for(h, *one) for one in asked))

    def site_thing(self) -> Thing | None:
        return next(self.of_kind("site"), None)

    def site_name(self) -> str:
        """Return what the site is called, or its word in the record while nobody named it."""
        site = self.site_thing()
        return (site.text("name") if site else None) or self.site


def _asked_for(happening: Happening, tags: Set[str] | None, words: Collection[str]) -> bool:
    return happening.kind.word in words and (tags is None or bool(happening.concerns() & tags))


def natural(tag: str) -> tuple[tuple[int, int | str], ...]:
    """A sorting key of its own for each tag, that puts A-L2 before A-L10."""
    runs = ("".join(run) for _, run in groupby(tag, str.isdecimal))
    return *((0, int(run)) if run.isdecimal() else (1, run) for run in runs), (-1, tag)
