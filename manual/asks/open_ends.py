"""What is there for a time only, left to somebody, or kept and running out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from manual.asks.asking import Answer
from record.accounts.left import for_a_time, open_visits, positions, still_on
from record.entry import Entry
from record.fold import Thing
from record.readers import View

DONE = re.compile(r"\b(done|closed|settled|taken off|signed|passed)\b", re.I)
NOT_DONE = re.compile(r"\b(not|never|nothing|half|partly)\b", re.I)


@dataclass(frozen=True, slots=True)
class OpenEnd:
    """Something still there that must come off, or stands otherwise than it should."""

    tag: str
    words: str
    entries: str


@dataclass(frozen=True, slots=True)
class Visit:
    """A day's work after which nobody wrote how what it moved was left."""

    day: str
    writer: str
    tags: str


@dataclass(frozen=True, slots=True)
class Handed:
    """Something that was somebody's to do; ``over`` if it is open and its day has passed."""

    item: Answer
    over: bool


@dataclass(frozen=True, slots=True)
class KeptUntil:
    """One line of a store that runs out on a day; ``over`` where that day has passed."""

    day: str
    over: bool
    item: Answer
    store: Answer


def still_there(view: View) -> Iterator[OpenEnd]:
    """Yield what was put on and not taken off, then what was left so until something."""
    for one in still_on(view):
        yield OpenEnd(one.thing.tag, one.words, _numbers(one.thing.entries()))
    for place in for_a_time(positions(view)):
        entries = (place.left.entry,) if place.left else ()
        yield OpenEnd(place.thing.tag, place.words, _numbers(entries))


def visits_open(view: View) -> Iterator[Visit]:
    """Yield the visits that are not closed, by day."""
    for (day, writer), tags in open_visits(positions(view)).items():
        yield Visit(day, writer, ", ".join(tags))


def handed(view: View, today: str) -> list[Handed]:
    """Return the hand-over items, the open ones first; ``over`` where their day has passed."""
    items = sorted(view.built.of_kind("hand-over item"), key=is_done)
    return [
        Handed(Answer(item), not is_done(item) and (item.text("due") or today) < today)
        for item in items
    ]


def is_done(item: Thing) -> bool:
    """Whether its state says so; a state in any other words is open."""
    said = item.text("state") or ""
    return bool(DONE.search(said)) and not NOT_DONE.search(said)


def kept_until(view: View, today: str) -> list[KeptUntil]:
    """Return what runs out in the stores, the soonest first; nothing of which none is left."""
    rows = [
        KeptUntil(day, day < today, Answer(item), Answer(store))
        for store in view.built.of_kind("store")
        for item in store.parts
        if (day := item.text("expires")) and item.count("count") != 0
    ]
    return sorted(rows, key=lambda row: row.day)


def _numbers(entries: tuple[Entry, ...]) -> str:
    return ", ".join(dict.fromkeys(entry.number for entry in entries))
