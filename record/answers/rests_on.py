"""What rests on an instrument, a mark, a person or a lot, and what would hold without it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from record.answers.behind_panel import further
from record.answers.refused import not_found
from record.entry import Entry
from record.facts.values import in_words
from record.fold import Happening, Stated, Thing, natural
from record.place import level_runs, tied_points
from record.place.tied import TiedPoint, without
from record.readers import View

NOTHING = "nothing else is recorded"


@dataclass(frozen=True, slots=True, kw_only=True)
class Resting:
    """One thing or happening that rests on what was asked about."""

    tag: str
    what: str
    on: str
    still: str  # what would hold without it
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RestsOn:
    """Everything that rests on ``asked``; ``known_as`` says in which ways the record knows it."""

    asked: str
    known_as: tuple[str, ...]
    found: tuple[Resting, ...]
    reader: str
    as_of: str | None
    further_entries: str


def rests_on(view: View, what: str) -> RestsOn:
    """
    Return everything that depends on a landmark, benchmark, hull, instrument, lot, batch or person.

    Raises NotFound where the record, as the reader sees it, knows nothing of that name.
    """
    thing = view.built.thing(what)
    ways = (
        ("place tied to it", _ties(view, what)),
        ("level run on it", _runs(view, what)),
        ("hull", _in_hull(view, what)),
        ("named in how it was measured", _how(view, what)),
        ("instrument", _named(view, what, "instrument")),
        ("lot or batch", _lots(view, what)),
        ("person", _person(view, what)),
    )
    found = {way: tuple(resting) for way, resting in ways}
    if thing is None and not any(found.values()):
        raise not_found(what, f"nothing in this record is called {what}", _names(view))
    known = ([thing.kind.word] if thing else []) + [way for way, each in found.items() if each]
    return RestsOn(
        asked=what,
        known_as=tuple(dict.fromkeys(known)),
        found=tuple(each for way in found.values() for each in way),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _numbers(entries: Iterable[Entry]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(entry.number for entry in entries))


def _ties(view: View, what: str) -> Iterator[Resting]:
    for point in tied_points(view.built):
        used = [tie for tie in point.ties if tie.landmark.tag == what]
        if used:
            yield Resting(
                tag=point.tag or point.words,
                what=f"place, {used[-1].length_m:.3f} m taped from it",
                on=used[-1].tie.on,
                still=_left(without(point, what)),
                entries=_numbers(entry for tie in used for entry in tie.tie.entries()),
            )


def _left(point: TiedPoint) -> str:
    """Return what the other ties are still good for."""
    marks = [tie.landmark.tag for tie in point.ties]
    if not marks:
        return "no other tie"
    said = f"{', '.join(marks[:-1])} and {marks[-1]}" if len(marks) > 1 else marks[0]
    if len(marks) < 3:
        said += " only"
    if point.says:
        return f"{said}: {'; '.join(point.says)}"
    if point.fix is not None and point.fix.agreement == "agree":
        return f"{said}, which agree"
    return f"{said}, with no check"


def _runs(view: View, what: str) -> Iterator[Resting]:
    for run in level_runs(view.built):
        base, end = run.benchmark, run.closed_on
        marks = [mark.thing.tag for mark in (base, end) if mark]
        if what not in marks:
            continue
        if base is not None and base.thing.tag == what:
            still = f"{end.thing.tag}, which the run came back to" if end else NOTHING
            if end is not None and end.thing.tag == what:
                still = NOTHING
        else:
            still = f"{base.thing.tag if base else ''}, with nothing to close on"
        for point in run.points:
            if point.staff.tag not in marks:
                held_on = point.staff.on or f"of {point.row.words('point')}"
                yield Resting(
                    tag=point.staff.tag or point.row.words("point"),
                    what=f"level {held_on} {point.level_m:.3f} m, run {run.name}",
                    on=point.row.on,
                    still=still,
                    entries=_numbers(point.row.entries()),
                )


def _in_hull(view: View, what: str) -> Iterator[Resting]:
    hull = view.built.thing(what)
    if hull is None or hull.kind.word != "hull":
        return
    for thing in _things(view):
        if thing.text("hull") == what:
            entries = [held.entry for name in ("hull", "from_near") for held in thing.held(name)]
            yield Resting(
                tag=thing.tag,
                what="place, measured in its frame",
                on=max(held.on for held in thing.held("hull")),
                still="its place inside the hull, wherever that lies",
                entries=_numbers(entries),
            )


def _things(view: View) -> Iterator[Thing]:
    for thing in view.built.things.values():
        yield thing
        yield from thing.parts


def _names_it(words: str, what: str) -> bool:
    """Return whether words name it whole: "level 1" is not in "level 12"."""
    return bool(re.search(rf"(?<![\w-]){re.escape(what)}(?![\w-])", words, re.IGNORECASE))


def _how(view: View, what: str) -> Iterator[Resting]:
    for thing in _things(view):
        for held in thing.held("how"):
            if isinstance(held.value, str) and _names_it(held.value, what):
                measured = [
                    f"{name} {in_words(thing.value(name))}"
                    for name in ("x", "y", "floor_level", "level", "ground")
                    if any(one.entry.hash == held.entry.hash for one in thing.held(name))
                ]
                yield Resting(
                    tag=thing.tag,
                    what=", ".join([*measured, f"how: {held.value}"]).replace("_", " "),
                    on=held.on,
                    still=NOTHING,
                    entries=(held.entry.number,),
                )


def _named(view: View, what: str, field: str) -> Iterator[Resting]:
    for one in view.built.happened():
        value = one.text(field)
        if value is not None and _names_it(value, what):
            yield _happened(view, one, what, field)


def _lots(view: View, what: str) -> Iterator[Resting]:
    for thing in _things(view):
        for name in _lot_fields(thing, what):
            yield Resting(
                tag=thing.tag,
                what=f"{name.replace('_', ' ')} {thing.words(name)}",
                on=max(held.on for held in thing.held(name)),
                still=NOTHING,
                entries=_numbers(held.entry for held in thing.held(name)),
            )
    batch = view.built.thing(what)
    if batch is not None and batch.kind.word == "batch":
        for tag in batch.tags("used_on"):
            yield Resting(
                tag=tag,
                what=f"was given {batch.words('product')} of it",
                on=max(held.on for held in batch.held("used_on")),
                still=NOTHING,
                entries=_numbers(held.entry for held in batch.held("used_on")),
            )
    for one in view.built.happened():
        for name in _lot_fields(one, what):
            yield _happened(view, one, what, name)


def _lot_fields(stated: Stated, what: str) -> Iterator[str]:
    for name in stated.fields:
        words = set(name.split("_"))
        if words & {"lot", "lots", "batch", "batches"}:
            said = [in_words(held.value) for held in stated.held(name)]
            if any(_names_it(value, what) for value in said):
                yield name


SUBJECTS = ("test", "what", "layer", "hold", "task", "point")


def _happened(view: View, one: Happening, what: str, field: str) -> Resting:
    """Return a happening, and others like it on the same thing that do not rest on it too."""
    subject = next((one.words(name) for name in SUBJECTS if one.held(name)), "")
    others = [
        other.entry.number
        for other in view.built.about(one.about, one.kind.word)
        if other.about == one.about
        and next((other.words(name) for name in SUBJECTS if other.held(name)), "") == subject
        and not _names_it(other.words(field), what)
    ]
    coat = f" {one.words('coat')}" if one.held("coat") else ""
    result = f", {one.words('result')}" if one.held("result") else ""
    return Resting(
        tag=one.about,
        what=f"{one.kind.word}: {subject}{coat}{result}",
        on=one.on,
        still=f"others like it: {', '.join(others)}" if others else NOTHING,
        entries=_numbers(one.entries()),
    )


ROLES = (("did", "did"), ("saw", "saw"), ("by", "answers for"))


def _person(view: View, who: str) -> Iterator[Resting]:
    """Yield, by thing, what one person did, saw, answers for or wrote, and who else is named."""
    told: dict[str, list[tuple[Entry, set[str]]]] = {}
    for entry in view.built.entries:
        content = entry.content
        if content is None or content.kind == "sheet-posted":
            continue
        roles = {word for name, word in ROLES if getattr(content, name) == who}
        roles |= {"wrote"} if entry.link.writer == who else set()
        if roles:
            told.setdefault(content.about, []).append((entry, roles))
    for about in sorted(told, key=natural):
        entries = [entry for entry, _ in told[about]]
        said = sorted(set().union(*(roles for _, roles in told[about])))
        alone = [entry for entry in entries if not _others(entry, who)]
        yield Resting(
            tag=about,
            what=f"{', '.join(said)}: {len(entries)} of its entries",
            on=max(entry.content.on for entry in entries if entry.content),
            still=_witnessed(entries, alone, who),
            entries=_numbers(entries),
        )


def _others(entry: Entry, who: str) -> set[str]:
    content = entry.content
    named = {content.did, content.saw, content.by, entry.link.writer} if content else set()
    return {name for name in named if name and name != who}


def _witnessed(entries: list[Entry], alone: list[Entry], who: str) -> str:
    names = sorted(set().union(*(_others(entry, who) for entry in entries)))
    if not names:
        return "nobody else is named"
    said = f"named beside: {', '.join(names)}"
    return f"{said}; alone in {', '.join(_numbers(alone))}" if alone else said


def _names(view: View) -> set[str]:
    """Return what could be asked about: tags, instruments, people."""
    names = set(view.built.things)
    for one in view.built.happened():
        names.update(filter(None, (one.text("instrument"), one.text("lot"))))
    for entry in view.built.entries:
        if entry.content is not None:
            names |= _others(entry, "")
    return names
