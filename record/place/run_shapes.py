"""Runs → bars between their stations, and what sits at a station."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

from record.calc.combine import root_sum_square
from record.fold import AsBuilt, Thing
from record.place.frames import HullFrame, Vector
from record.place.runs import PlacedStation, outside_radius_m, stations
from record.place.solids import ANY_M, Capsule, Shape, called, called_run
from record.place.strays import Stray, strays
from record.words import tell, term


def run_shapes(run: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """
    Yield a bar between each two stations that follow; between them a run is interpolated.

    A station with a place and no neighbour that has one is a ball.
    """
    placed = stations(run, hulls)
    met: set[str] = set()
    for (one, other), stray in zip(itertools.pairwise(placed), strays(run, placed), strict=True):
        if on_plan(one) and on_plan(other):
            met.update((one.key, other.key))
            yield _stretch(run, (one, other), stray, hulls)
    for station in placed:
        if on_plan(station) and station.key not in met:
            yield _ball(run, f"{called_run(run)}, {station.key}", *outside_radius_m(run), station)


def on_plan(station: PlacedStation) -> bool:
    return station.x is not None and station.y is not None


def legs_words(one: PlacedStation, other: PlacedStation) -> str:
    """Return which stretch of a run it is, by the keys of its ends."""
    return tell("place.from_to", start=one.key, end=other.key)


def _stretch(
    run: Thing,
    ends: tuple[PlacedStation, PlacedStation],
    stray: Stray | None,
    hulls: Mapping[str, HullFrame],
) -> Shape:
    one, other = ends
    common = one.hull if one.hull == other.hull else ""
    radius, assumed = outside_radius_m(run)
    missing = one.centre_m is None or other.centre_m is None
    start, end = ((s.x or 0.0, s.y or 0.0, s.centre_m or 0.0) for s in (one, other))
    if missing:
        start, end = (start[0], start[1], -ANY_M), (end[0], end[1], -ANY_M)
    doubts = [doubt(station, common, hulls) for station in (one, other)]
    return Shape(
        run,
        f"{called_run(run)}, {legs_words(one, other)}",
        Capsule(
            _into(start, common, hulls),
            _into(end, common, hulls),
            radius,
            2 * ANY_M if missing else 0.0,
        ),
        common,
        max(across for across, _ in doubts),
        max(up for _, up in doubts),
        _between(one, other, stray),
        assumed or one.accuracy.assumed or other.accuracy.assumed,
        tuple({e.hash: e for s in (one, other) for e in s.thing.entries()}.values()),
        interpolated=True,
        missing=("level",) if missing else (),
        strays=stray,
    )


def _between(one: PlacedStation, other: PlacedStation, stray: Stray | None) -> str:
    """Return what a stretch rests on: its two stations, and how far it may lie off the line."""
    basis, also = one.accuracy.basis, other.accuracy.basis
    if basis == also:
        between = tell("place.interpolated", basis=term(basis))
    else:
        between = tell("place.interpolated_2", basis=term(basis), other=term(also))
    worked = dict.fromkeys(filter(None, (one.accuracy.worked, other.accuracy.worked)))
    said = "; ".join((between, *worked))
    return f"{said}; {stray.words}" if stray and stray.words else said


def _ball(thing: Thing, words: str, radius: float, assumed: bool, station: PlacedStation) -> Shape:
    """A thing known only by one station it is at."""
    missing = station.centre_m is None
    at = (station.x or 0.0, station.y or 0.0, -ANY_M if missing else station.centre_m or 0.0)
    entries = {e.hash: e for e in (*station.thing.entries(), *thing.entries())}
    return Shape(
        thing,
        words,
        Capsule(at, at, radius, 2 * ANY_M if missing else 0.0),
        "",
        station.accuracy.horizontal_m,
        station.accuracy.vertical_m,
        station.accuracy.worked or station.accuracy.basis,
        assumed or station.accuracy.assumed,
        tuple(entries.values()),
        missing=("level",) if missing else (),
    )


def at_station(
    thing: Thing, half_m: float, built: AsBuilt, hulls: Mapping[str, HullFrame]
) -> Iterator[Shape]:
    """Yield a valve or a drain that says no place of its own but the station it is at."""
    key = (thing.text("at_station") or "").split(" ")[0]
    run = built.thing(thing.text("on_run") or thing.text("serves")) if key else None
    for station in stations(run, hulls) if run else ():
        if station.key == key and on_plan(station):
            yield _ball(
                thing, tell("place.at_station", thing=called(thing), key=key), half_m, True, station
            )


def doubt(
    station: PlacedStation, common: str, hulls: Mapping[str, HullFrame]
) -> tuple[float, float]:
    """Return a station's tolerance in frame ``common``: outside its hull, the hull's doubt too."""
    across, up = station.accuracy.horizontal_m, station.accuracy.vertical_m
    if station.hull == common or station.hull not in hulls:
        return across, up
    hull = hulls[station.hull]
    return (
        root_sum_square(across, hull.horizontal_m, hull.turned_m),
        root_sum_square(up, hull.vertical_m),
    )


def _into(point: Vector, hull: str, hulls: Mapping[str, HullFrame]) -> Vector:
    return hulls[hull].to_hull(point) if hull else point
