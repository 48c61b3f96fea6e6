"""What is common to all sums of a run: its stations, what they lack, and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.facts.pipes import AIR, DRAINAGE
from record.facts.values import Absent, Level, Part, Why
from record.figures.feeding import lacks, nothing
from record.figures.worked import Fed, Missing
from record.fold import Held, Thing
from record.place import PlacedStation, stations
from record.place.shots import label
from record.readers import View
from record.words import tell

PLACE = ("x", "y", "hull", "from_near", "from_left")
GONE = ("taken out", "left in the ground")


@dataclass(frozen=True, slots=True)
class Along:
    """A run and its stations, as they are placed."""

    run: Thing
    stations: tuple[PlacedStation, ...]


def runs(view: View) -> Iterator[Along]:
    """Yield the runs in use that carry air or water."""
    for run in view.built.of_kind("run"):
        if run.text("carries") in (*AIR, *DRAINAGE) and run.text("state") not in GONE:
            yield Along(run, stations(run, view.hulls))


def too_few(along: Along) -> tuple[Missing, ...]:
    if len(along.stations) >= 2:
        return ()
    tag = along.run.tag
    return (
        nothing(
            tell("figures.two_stations_run", tag=tag),
            tell("figures.table_stations_under_run", tag=tag),
        ),
    )


def no_place(one: PlacedStation) -> Iterator[Missing]:
    """Yield what a station lacks to have a place on the plan."""
    if one.x is None or one.y is None:
        names = ("from_near", "from_left") if one.thing.text("hull") else ("x", "y")
        for name in names:
            if one.thing.si(name) is None:
                yield lacks(one.thing, name)


def no_level(run: Thing, one: PlacedStation, of: Part) -> Iterator[Missing]:
    """Yield what a station lacks for the level of that part of the pipe."""
    have = {Part.INVERT: one.invert_m, Part.CENTRE: one.centre_m, Part.CROWN: one.crown_m}[of]
    if have is not None:
        return
    if not isinstance(one.thing.value("level"), Level):
        yield lacks(one.thing, "level")
        return
    for name in _sizes(one, of):
        if run.si(name) is None:
            yield lacks(run, name)


def _sizes(one: PlacedStation, of: Part) -> tuple[str, ...]:
    """Return which sizes of the pipe lead from the level that was taken to another."""
    value = one.thing.value("level")
    if not isinstance(value, Level) or value.part is of:
        return ()
    if Part.INVERT in (value.part, of):
        return ("outside_diameter", "inside_diameter")
    return ("outside_diameter",)


def place_rests(one: PlacedStation) -> tuple[Held, ...]:
    return tuple(held for name in PLACE for held in one.thing.held(name))


def level_rests(run: Thing, one: PlacedStation, of: Part) -> tuple[Held, ...]:
    """Return what the level of a part of the pipe rests on: the shot, and the pipe's size."""
    sizes = (held for name in _sizes(one, of) for held in run.held(name))
    return (*one.thing.held("level"), *sizes)


@dataclass(frozen=True, slots=True)
class Deep:
    """How deep the pipe lies at one station, in metres, and what that rests on."""

    station: PlacedStation
    deep_m: float
    rests: tuple[Held, ...]

    def fed(self, key: str, words: str) -> Fed:
        how = tell("figures.station", words=words, station=label(self.station))
        return Fed(key=key, value=self.deep_m, rests=self.rests, how=how)


def depths(along: Along, of: Part) -> tuple[tuple[Deep, ...], tuple[Missing, ...]]:
    """
    Return how deep that part of the pipe lies below grade at each station, and what is missing.

    A station in a hull with no ground over it recorded is inside, and is left out.
    """
    found: list[Deep] = []
    missing = list(too_few(along))
    for one in along.stations:
        if one.ground_m is None and (one.hull or _no_ground(one)):
            continue
        lacking = list(no_level(along.run, one, of))
        if one.ground_m is None:
            lacking.append(lacks(one.thing, "ground"))
        missing += lacking
        level = one.centre_m if of is Part.CENTRE else one.crown_m
        if not lacking and one.ground_m is not None and level is not None:
            rests = (*one.thing.held("ground"), *level_rests(along.run, one, of))
            # A difference of levels carries the rounding of binary; a nanometre is none.
            found.append(Deep(one, round(one.ground_m - level, 9), rests))
    return tuple(found), tuple(missing)


def _no_ground(one: PlacedStation) -> bool:
    value = one.thing.value("ground")
    return isinstance(value, Absent) and value.why is Why.NOT_APPLICABLE
