"""How far every air intake is from the discharges, and from drives, flues and vents."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from record.figures.along import Along, no_place, place_rests, runs
from record.figures.feeding import lacks, nothing, numbers
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.place import HullFrame, PlacedStation
from record.place.shots import label
from record.readers import View
from record.words import tell

#: Landmarks that give off what must not be drawn in, by the words for what they are.
SOURCE = re.compile(
    r"\b(?:drive|driveway|road|street|lane|parking|garage|carport|flue|chimney|vent|generator|"
    r"exhaust|septic|tank vent|boiler)\b"
)


def of_intakes(view: View) -> Iterator[Worked]:
    every = tuple(runs(view))
    sources = [
        one
        for along in every
        if along.run.text("carries") == "exhaust air"
        for one in _terminal(view, along, "source")
    ]
    sources += [one for mark in view.built.of_kind("landmark") for one in _landmark(mark)]
    for along in every:
        if along.run.text("carries") == "supply air":
            notes = () if sources else (NONE,)
            parts = (*_terminal(view, along, "intake"), *(sources or (NO_SOURCE,)))
            yield work("intake-distance", along.run.tag, parts, notes=notes)


NONE = "landmarks that are a drive, road, flue, chimney or vent are taken as sources"
NO_SOURCE = nothing("a source to keep away from", '"## landmark …" with what it is, x, y and level')


def _landmark(mark: Thing) -> Iterator[Fed | Missing]:
    said = mark.text("what") or ""
    if SOURCE.search(said.casefold()):
        found, rests, missing = numbers(mark, ("x", "y", "level"))
        yield from missing
        if not missing:
            row = {"east": found["x"], "north": found["y"], "level": found["level"]}
            yield Fed(key="source", value=row, rests=rests, how=f"{mark.tag}, {said}")


def _terminal(view: View, along: Along, key: str) -> Iterator[Fed | Missing]:
    """Yield the opening of a run to the open air: its outer station, and its recorded level."""
    missing = [lack for one in along.stations for lack in no_place(one)]
    outer = outer_end(along, view)
    level = along.run.si("terminal_level")
    if level is None:
        missing.append(lacks(along.run, "terminal_level"))
    if outer is None and not missing:
        words = tell("figures.which_end_run_outside", tag=along.run.tag)
        missing.append(nothing(words, tell("figures.measures_hulls_and_two")))
    yield from missing
    if not missing and outer is not None and level is not None:
        row = {"east": outer.x, "north": outer.y, "level": float(level)}
        rests = (*place_rests(outer), *along.run.held("terminal_level"))
        yield Fed(key=key, value=row, rests=rests, how=f"{along.run.tag}, {label(outer)}")


def outer_end(along: Along, view: View) -> PlacedStation | None:
    """Return the end of a run that is farther from every hull; None where it cannot be told."""
    if len(along.stations) < 2 or not view.hulls:
        return None
    ends = (along.stations[0], along.stations[-1])
    far = [
        min(_from_hull_m(frame, one.x, one.y) for frame in view.hulls.values())
        for one in ends
        if one.x is not None and one.y is not None
    ]
    if len(far) < 2 or math.isclose(*far):
        return None
    return ends[0] if far[0] > far[1] else ends[1]


def _from_hull_m(frame: HullFrame, x: float, y: float) -> float:
    """Return how far a point is from a hull on the plan; 0 within it."""
    a, across, _ = frame.to_hull((x, y, frame.origin[2]))
    off = (max(0.0, -a, a - frame.length_m), max(0.0, -across, across - frame.width_m))
    return math.hypot(*off)
