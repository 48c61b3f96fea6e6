"""How deep a hidden thing lies: its level, the ground over it and when that was levelled."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.find_values import Depth
from record.calc.combine import root_sum_square
from record.facts.values import Level
from record.fold import Held, Thing
from record.place import PlacedStation
from record.place.accuracy import accuracy
from record.readers import View
from record.words import tell

GROUND_M = 0.05  # of a surface whose level says no tolerance; no source


def depth_of_station(
    view: View, run: Thing, station: PlacedStation, of: str, level_m: float
) -> Depth:
    """Return how deep ``of`` a station lies: below its ground, with that ground's day."""
    part = station.thing
    ground = part.quantity("ground")
    surface = _latest(part.held("ground")) if ground else None
    surface_m = GROUND_M if ground is None or ground.tol is None else float(ground.tol)
    return Depth(
        of=of,
        level_m=level_m,
        ground_m=station.ground_m,
        depth_m=station.cover_m,
        tolerance_m=root_sum_square(station.accuracy.vertical_m, surface_m),
        surface_on=surface.on if surface else "",
        basis=_worked(part, "level"),
        measured_since=tuple(_since(view, run, station, surface.on if surface else "")),
    )


def _since(view: View, run: Thing, station: PlacedStation, on: str) -> Iterator[str]:
    """Yield covers measured at a station after its ground was levelled."""
    for one in view.built.about(run.tag, "cover measured"):
        point = (one.text("point") or "").removeprefix(run.tag).strip(" /")
        if point.partition(" ")[0] == station.key and one.on >= on:
            yield tell(
                "answers.measured", cover=one.words("cover"), on=one.on, number=one.entry.number
            )


def depth_of_thing(thing: Thing) -> Depth | None:
    """Return the level of a thing on the datum; None where none is recorded."""
    level = thing.value("level")
    name = next((each for each in ("level", "bottom", "top") if thing.quantity(each)), "")
    quantity = thing.quantity(name) if name else None
    if quantity is None:
        return None
    return Depth(
        of=level.part.value if isinstance(level, Level) else name,
        level_m=float(quantity.si),
        ground_m=None,
        depth_m=None,
        tolerance_m=accuracy(thing).vertical_m,
        surface_on="",
        basis=_worked(thing, "level"),
        measured_since=(),
    )


def depth_of_hull(view: View, hull: Thing) -> Depth | None:
    """Return how deep the top of a hull's steel lies, by its ground level; None of what is none."""
    frame = view.hulls.get(hull.tag)
    if frame is None:
        return None
    roof = frame.origin[2] + frame.height_m + frame.plate_m
    ground = hull.quantity("ground_level")
    ground_m = None if ground is None else float(ground.si)
    by = GROUND_M if ground is None or ground.tol is None else float(ground.tol)
    surface = _latest(hull.held("ground_level")) if ground else None
    on = surface.on if surface else ""
    return Depth(
        of="roof",
        level_m=roof,
        ground_m=ground_m,
        depth_m=None if ground_m is None else ground_m - roof,
        tolerance_m=root_sum_square(frame.vertical_m, by),
        surface_on=on,
        basis=_worked(hull, "floor_level"),
        measured_since=tuple(
            f"{one.words('cover')} {one.words('point')}, {one.on} ({one.entry.number})"
            for one in view.built.about(hull.tag, "cover measured")
            if one.on >= on
        ),
    )


def _worked(thing: Thing, name: str) -> str:
    return next((held.worked for held in thing.held(name) if held.worked), "")


def _latest(held: tuple[Held, ...]) -> Held | None:
    return max(held, key=lambda one: one.on, default=None)
