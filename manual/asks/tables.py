"""Tables of whatever is recorded, kind by kind, so that no kind of thing is left out of a copy."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from manual.asks.asking import Answer, Told
from manual.languages import say, term
from record.facts import KINDS, Sort
from record.facts.fields import OneOf
from record.facts.looks import LOOKS
from record.facts.sizes import Measure
from record.fold import Happening, Stated, Thing
from record.fold.looks import found, title
from record.readers import View

#: Kinds of thing that a chapter tells of by itself; all others are told in tables.
IN_CHAPTERS = (
    "site",
    "hull",
    "room",
    "opening",
    "landmark",
    "benchmark",
    "run",
    "valve",
    "equipment",
    "panel",
    "store",
    "way out",
    "concealed entry",
    "procedure",
    "hand-over item",
)
#: What belongs to a run is told with it: kind → the field that names the run.
ALONG_A_RUN = {
    "drain": "serves",
    "fitting": "on_run",
    "insulation": "on_run",
    "marker": "follows",
    "cable": "in_run",
}


@dataclass(frozen=True, slots=True)
class ThingRow:
    """One thing in a row: its tag, and every field that was stated, in words."""

    answer: Answer
    kind: str
    tag: str
    words: str
    entries: str


@dataclass(frozen=True, slots=True)
class KindTold:
    """All things of one kind."""

    kind: str
    says: str
    rows: tuple[ThingRow, ...]


@dataclass(frozen=True, slots=True)
class LookRow:
    """One inspection or test, whatever form it was written on."""

    when: str
    of: str
    what: str
    result: str
    found: str
    limit: str
    instrument: str
    entries: str


def rest_told(view: View) -> Iterator[KindTold]:
    """Yield every kind that no chapter tells of by itself and of which something is recorded."""
    for kind in KINDS.values():
        if kind.sort is Sort.THING and not kind.key and kind.word not in IN_CHAPTERS:
            rows = tuple(map(thing_row, view.built.of_kind(kind.word)))
            if rows:
                yield KindTold(term(kind.word), term(kind.says), rows)


def along_told(view: View, run: str) -> tuple[ThingRow, ...]:
    """Return what belongs to a run, kind by kind."""
    return tuple(
        thing_row(thing)
        for word, field in ALONG_A_RUN.items()
        if word != "drain"
        for thing in view.built.of_kind(word)
        if run in thing.tags(field)
    )


def thing_row(thing: Thing) -> ThingRow:
    said = [stated_words(thing)]
    said += [f"{term(part.kind.word)} {part.key}: {stated_words(part)}" for part in thing.parts]
    entries = ", ".join(entry.number for entry in thing.all_entries())
    return ThingRow(Answer(thing), term(thing.kind.word), thing.tag, ". ".join(said), entries)


def stated_words(stated: Thing) -> str:
    """Return every field somebody wrote, with both unit systems where it was measured."""
    return "; ".join(
        f"{term(field.key)}: {_told(stated, field.name, field.holds)}"
        for field in stated.kind.fields
        if stated.held(field.name)
    )


def _told(stated: Stated, name: str, holds: object) -> Told:
    dimension = holds.dimension if isinstance(holds, Measure) else None
    return Told(stated.value(name), dimension, isinstance(holds, OneOf))


@dataclass(frozen=True, slots=True)
class TriedRow:
    """One time a thing was looked at, tested, served or read."""

    when: str
    words: str
    entries: str


def tried(view: View, void: Mapping[str, str], tag: str) -> tuple[TriedRow, ...]:
    """
    Return every look, test, service and reading of a thing, with what was found.

    ``void`` are words to say of a test that was undone since, by the hash of its entry.
    """
    return tuple(
        TriedRow(one.moment, _found(one, void), ", ".join(entry.number for entry in one.entries()))
        for one in view.built.about(tag, *LOOKS, "serviced", "reading taken")
    )


def _found(one: Happening, void: Mapping[str, str]) -> str:
    """Return what was found; a failure, or a test undone since, is said whatever was read."""
    words = found(one) if one.kind.word in LOOKS else one.words("reading")
    if one.text("result") == "failed":
        return say("schedules.failed", words=words)
    since = void.get(one.entry.hash)
    return f"{words}; {since}" if since else words


def look_row(look: Happening, void: Mapping[str, str]) -> LookRow:
    """Return a look or a test in a row; a form's criterion stands where others have a limit."""
    since = void.get(look.entry.hash)
    limit = "limit" if look.kind.field("limit") else "criterion"
    return LookRow(
        when=look.moment,
        of=look.about,
        what=title(look),
        result=look.words("result") + (f"; {since}" if since else ""),
        found=found(look),
        limit=look.words(limit),
        instrument=look.words("instrument"),
        entries=", ".join(entry.number for entry in look.entries()),
    )
