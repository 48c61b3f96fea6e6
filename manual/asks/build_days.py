"""The build record: each entry in a line of words, and the days of the build in order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from manual.bound.book import Book
from manual.bound.editions import QUIET
from manual.languages import say, term
from record.answers.told import no_order
from record.entry import Entry
from record.facts import STORED, Sort
from record.facts.fields import OneOf
from record.facts.values import from_json, in_words
from record.fold import natural

LONG = 160
UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class Told:
    """One entry in a line of words."""

    entry: Entry
    unordered: bool = False  # no hour, on a day with another happening of the same thing

    @property
    def number(self) -> str:
        return self.entry.number

    @property
    def kind(self) -> str:
        content = self.entry.content
        return term(STORED[content.kind].word if content and content.kind in STORED else UNREAD)

    @property
    def about(self) -> str:
        return self.entry.content.about if self.entry.content else ""

    @property
    def at(self) -> str:
        content = self.entry.content
        if content is None:
            return ""
        if content.at:
            return content.at
        return say("asked.no_order") if self.unordered else say("asked.no_time")

    @property
    def mends(self) -> str:
        content = self.entry.content
        if content is None or not content.replaces:
            return ""
        return ", ".join(target.number for target in content.replaces)

    @property
    def because(self) -> str:
        return (self.entry.content.because if self.entry.content else None) or ""

    @property
    def people(self) -> str:
        content = self.entry.content
        if content is None:
            return ""
        said = (
            (say("asked.did"), content.did),
            (say("asked.saw"), content.saw),
            (say("asked.said"), content.by),
        )
        return ", ".join(f"{word}: {who}" for word, who in said if who)

    @property
    def words(self) -> str:
        """All that was said, the hashes of files and what a camera wrote left out."""
        content = self.entry.content
        if content is None:
            return say("asked.withheld")
        hidden = ("sha256", "file", "camera_time", "camera_direction", "camera_place")
        said = [
            f"{term(name.replace('_', ' '))}: {_value(content.kind, name, form)}"
            for name, form in content.body.items()
            if name not in hidden
        ]
        return "; ".join(said)

    @property
    def in_short(self) -> str:
        """As much of it as a list of changes has room for; the build day by day has all."""
        text = self.words
        return text if len(text) <= LONG else text[: LONG - 1].rsplit(" ", 1)[0] + " …"


def _value(kind: str, name: str, form: Any) -> str:
    """Return a value of an entry's body: as it was written, a choice in the language spoken."""
    field = STORED[kind].field(name) if kind in STORED else None
    if isinstance(form, str) and field and isinstance(field.holds, OneOf):
        return term(form)
    return in_words(from_json(form))


def tells(entry: Entry) -> bool:
    return entry.content is not None and entry.content.kind not in QUIET


@dataclass(frozen=True, slots=True)
class BuildDay:
    """
    One day of work: what happened, was said and was mended, and the things first or newly
    stated, by their tags: how they stand is told in their own chapters.
    """

    day: str
    told: tuple[Told, ...]
    stated: tuple[str, ...]


def build_days(book: Book) -> list[BuildDay]:
    by_day: dict[str, list[Entry]] = {}
    for entry in book.view.built.entries:
        if entry.content is not None and tells(entry):
            by_day.setdefault(entry.content.on, []).append(entry)
    return [_day(day, entries) for day, entries in sorted(by_day.items())]


def _day(day: str, entries: list[Entry]) -> BuildDay:
    happened = [e for e in entries if e.content and (_happened(e) or e.content.replaces)]
    ordered = sorted(happened, key=lambda e: ((e.content.at or "~") if e.content else "", e.order))
    stated = {
        e.content.about.partition("/")[0]: None
        for e in entries
        if e.content and not _happened(e) and not e.content.replaces
    }
    unordered = no_order(ordered)
    told = tuple(Told(entry, entry.hash in unordered) for entry in ordered)
    return BuildDay(day, told, tuple(sorted(stated, key=natural)))


def _happened(entry: Entry) -> bool:
    kind = STORED.get(entry.content.kind) if entry.content else None
    return kind is None or kind.sort is Sort.HAPPENING
