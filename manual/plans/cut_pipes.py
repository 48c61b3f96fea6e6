"""The pipes that meet a hull or lie beside it, as a cut across the hull shows them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from manual.drawings.both import both
from manual.drawings.shapes import band, circle, cut_line
from manual.drawings.svg import Point
from manual.languages import say, term
from record.answers.saying import depth, length
from record.fold import Thing
from record.place import HullFrame, PlacedStation, stations
from record.place.runs import bare_radius_m
from record.readers import View

BESIDE_M = 0.60  # of the ground beside a hull that a cut shows
ON_WALL_M = 0.15  # nearer to a wall than this, a pipe is told as going through it
GONE = ("taken out",)
Spot = tuple[float, float, float]  # along, across, level


@dataclass(frozen=True, slots=True, kw_only=True)
class PipeCut:
    """One run by its shape on the cut, across and up, and what is told of it."""

    run: Thing
    ring_m: tuple[Point, ...]
    spot_m: Point
    known: bool  # its outside diameter is recorded
    words: tuple[str, ...]


def pipes_at(view: View, hull: HullFrame) -> Iterator[PipeCut]:
    """Yield every run of which a stretch with a level lies at a hull, by tag."""
    for run in view.built.of_kind("run"):
        if run.text("state") in GONE:
            continue
        placed = stations(run, view.hulls)
        path = _near(_axes(run, placed), hull)
        if path:
            yield _pipe(run, placed, path, hull)


def unplaced_at(view: View, hull: HullFrame) -> Iterator[Thing]:
    """Yield runs that have no stretch with a place and a level: they may be anywhere."""
    for run in view.built.of_kind("run"):
        placed = stations(run, view.hulls)
        if (
            sum(1 for axis in _axes(run, placed) if axis is not None) < 2
            and run.text("state") not in GONE
        ):
            yield run


def _axes(run: Thing, placed: Sequence[PlacedStation]) -> list[Spot | None]:
    """The axis at each station on the site grid; None where a place or every level is missing.

    Where only the inside bottom or the top was taken, the wall's thickness is neglected.
    """
    radius, _ = bare_radius_m(run)
    return [_axis(station, radius) for station in placed]


def _axis(station: PlacedStation, radius: float) -> Spot | None:
    level = station.centre_m
    if level is None and station.invert_m is not None:
        level = station.invert_m + radius
    if level is None and station.crown_m is not None:
        level = station.crown_m - radius
    if station.x is None or station.y is None or level is None:
        return None
    return station.x, station.y, level


def _near(axes: Sequence[Spot | None], hull: HullFrame) -> list[Spot]:
    """The part of a run that lies at the hull, by its axis in the hull's frame."""
    p = hull.plate_m
    low = (-p - ON_WALL_M, -p - BESIDE_M)
    high = (hull.length_m + p + ON_WALL_M, hull.width_m + p + BESIDE_M)
    found: list[Spot] = []
    for start, end in pairwise(axes):
        if start is None or end is None:
            continue
        a, b = hull.to_hull(start), hull.to_hull(end)
        for spot in cut_line([a[:2], b[:2]], (*low, *high)):
            level = start[2] + _share(a, b, spot) * (end[2] - start[2])
            if not found or found[-1] != (*spot, level):
                found.append((*spot, level))
    return found


def _share(a: Spot, b: Spot, spot: Point) -> float:
    along, across = b[0] - a[0], b[1] - a[1]
    whole = along**2 + across**2
    if whole == 0:
        return 0.0
    return ((spot[0] - a[0]) * along + (spot[1] - a[1]) * across) / whole


def _pipe(
    run: Thing, placed: Sequence[PlacedStation], path: list[Spot], hull: HullFrame
) -> PipeCut:
    radius, assumed = bare_radius_m(run)
    flat = [(across, level) for _, across, level in path]
    wide = max(u for u, _ in flat) - min(u for u, _ in flat)
    near = min(path, key=lambda spot: _off(spot, hull))
    ends = all(a < ON_WALL_M or a > hull.length_m - ON_WALL_M for a, _, _ in path)
    seen = circle(near[1], near[2], radius) if ends or wide < radius else band(flat, radius)
    held = [(a, s) for a, s in zip(_axes(run, placed), placed, strict=True) if a is not None]
    station = min(held, key=lambda each: _off(hull.to_hull(each[0]), hull))[1]
    return PipeCut(
        run=run,
        ring_m=tuple(seen),
        spot_m=(near[1], near[2]),
        known=not assumed and station.centre_m is not None,
        words=(_where(near, hull), *_levels(station)),
    )


def _off(spot: Spot, hull: HullFrame) -> float:
    """How far a spot is, on plan, from the nearest wall."""
    a, across = spot[0], spot[1]
    beyond = max(-a, a - hull.length_m, -across, across - hull.width_m)
    return abs(beyond)


def _where(spot: Spot, hull: HullFrame) -> str:
    a, across, level = spot
    walls = (
        ("left", abs(across), say("cut.from_near", length=length(a))),
        ("right", abs(across - hull.width_m), say("cut.from_near", length=length(a))),
        ("near", abs(a), say("cut.from_left", length=length(across))),
        ("far", abs(a - hull.length_m), say("cut.from_left", length=length(across))),
    )
    face, off, along = min(walls, key=lambda wall: wall[1])
    low, high = hull.origin[2], hull.origin[2] + hull.height_m
    within = 0 <= a <= hull.length_m and 0 <= across <= hull.width_m
    if within and level > high:
        return say("cut.over_it", along=say("cut.from_near", length=length(a)))
    if within and level < low:
        return say("cut.under_it", along=say("cut.from_near", length=length(a)))
    if off <= ON_WALL_M:
        return say("cut.through", face=term(face), along=along)
    if within:
        return say("cut.inside", face=term(face), along=along)
    return say("cut.beside", face=term(face), along=along)


def _levels(station: PlacedStation) -> Iterator[str]:
    """Yield top and invert with their depth below the ground, as taken at the nearest station."""
    at = f"{station.key} {station.name}" if station.name != station.key else station.key
    how = station.accuracy
    within = how.vertical_m
    for part, level in (("top", station.crown_m), ("invert", station.invert_m)):
        if level is None:
            yield say(f"cut.lacks.{part}")
        elif station.ground_m is None:
            yield say(f"cut.level.{part}", level=both(level, within))
        else:
            down = both(station.ground_m - level, within)
            yield say(f"cut.down.{part}", level=both(level, within), down=down)
    assumed = say("cut.assumed") if how.assumed else ""
    yield say("cut.at_station", station=at, within=depth(within), assumed=assumed)
