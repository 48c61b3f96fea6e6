"""How runs and what sits on them hang together: by stations, by place, and by the crew's words."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from record.answers.asked_spot import by_tag
from record.answers.refused import CannotAnswer
from record.fold import Thing, natural
from record.place import stations
from record.place.plan import nearest
from record.place.solids import called
from record.readers import View
from record.words import tell, term

ON_A_RUN = {"valve": "on_run", "drain": "serves", "fitting": "on_run"}


@dataclass(frozen=True, slots=True)
class On:
    """Something that sits on a run; metres along it and off it, None where that is not told."""

    thing: Thing
    run: Thing
    along_m: float | None
    off_m: float | None


def on_run(view: View, run: Thing) -> tuple[On, ...]:
    """Return what sits on a run in order; what has no place on it comes last."""
    found = [
        place_on(view, thing, run)
        for kind, field in ON_A_RUN.items()
        for thing in view.built.of_kind(kind)
        if any(held.value == run.tag for held in thing.held(field))
    ]
    return tuple(
        sorted(
            found,
            key=lambda on: (on.along_m is None, on.along_m or 0.0, natural(on.thing.tag)),
        )
    )


def runs_of(view: View, thing: Thing) -> tuple[Thing, ...]:
    """Return the run something sits on; both, where two statements differ."""
    held = thing.held(ON_A_RUN.get(thing.kind.word, ""))
    tags = dict.fromkeys(one.value for one in held if isinstance(one.value, str))
    return tuple(run for tag in tags if (run := view.built.thing(tag)) is not None)


def place_on(view: View, thing: Thing, run: Thing) -> On:
    """Return where along a run a thing sits: at the station it names, else where it comes nearest.

    A run of which a station has no place has no length from there on.
    """
    placed = stations(run, view.hulls)
    key = (thing.text("at_station") or "").partition(" ")[0]
    for station in placed:
        if key and station.key == key:
            return On(thing, run, station.chainage_m, 0.0)
    length = thing.quantity("along_run") if thing.kind.field("along_run") else None
    start = (thing.text("along_from") or "").partition(" ")[0] if length is not None else ""
    for station in placed:
        if length is not None and station.key == start and station.chainage_m is not None:
            return On(thing, run, station.chainage_m + float(length.si), 0.0)
    try:
        spot = by_tag(view, thing.tag)
    except CannotAnswer:
        return On(thing, run, None, None)
    best: tuple[float, float] | None = None
    for one, other in pairwise(placed):
        if one.x is None or one.y is None or other.x is None or other.y is None:
            continue
        if one.chainage_m is None:
            continue
        line = ((one.x, one.y, 0.0), (other.x, other.y, 0.0))
        along, off = nearest(line, (spot.x_m, spot.y_m))
        if best is None or off < best[0]:
            best = (off, one.chainage_m + along * math.dist(line[0], line[1]))
    return On(thing, run, best[1], best[0]) if best else On(thing, run, None, None)


def names(words: str | None, thing: Thing) -> bool:
    """
    Return whether words name a tag whole; a tag of one letter only after its kind: "hull B".

    "D-1" is not in "D-10", nor "A" in "a pipe".
    """
    if not words:
        return False
    tag = thing.tag if len(thing.tag) > 1 else f"{thing.kind.word} {thing.tag}"
    return bool(re.search(rf"(?<![\w-]){re.escape(tag)}(?![\w-])", words))


JOINED = ("run", "equipment", "drain", "hull", "fitting", "valve")


def named_in(view: View, words: str | None) -> Iterator[Thing]:
    """Yield the things of a network that words name."""
    for kind in JOINED:
        for thing in view.built.of_kind(kind):
            if names(words, thing):
                yield thing


def ends_at(view: View, thing: Thing, end: str) -> Iterator[Thing]:
    """Yield the runs whose ``end``, "from" or "to", names a thing."""
    for run in view.built.of_kind("run"):
        if run.tag != thing.tag and names(run.text(end), thing):
            yield run


def titled(thing: Thing) -> str:
    """Return what a thing is: its kind and type, its name, what it carries."""
    carries = thing.text("carries") if thing.kind.field("carries") else None
    name = thing.text("name") if thing.kind.field("name") else None
    said = (
        called(thing),
        name,
        tell("answers.carries", carries=term(carries)) if carries else None,
    )
    return ", ".join(filter(None, said))
