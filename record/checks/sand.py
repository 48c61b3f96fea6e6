"""The sand of a way out as it would lie on the floor, as the hand-over rules need it."""

from __future__ import annotations

from dataclasses import dataclass

from record.calc.sand_heap import Heap, bulked_m3, fill_m3, wedge
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View

SECTION = ("section_along", "section_across", "fill_from", "fill_to")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sand:
    """
    How the sand of a way out lies once it has all run in, damp: 30 % more than dry.

    ``across`` is the way of the room that the heap fills from wall to wall, ``along`` the way it
    runs out: names of the room's measures. ``heap`` is None where ``missing`` names what was not
    recorded.
    """

    room: Thing | None
    across: str
    along: str
    heap: Heap | None
    missing: tuple[str, ...]


def filled_ways(view: View) -> tuple[Thing, ...]:
    """Return the ways out that are filled, or of which that is not known."""
    return tuple(way for way in view.built.of_kind("way out") if _filled(way))


def _filled(way: Thing) -> bool:
    value = way.value("fill")
    if isinstance(value, Absent):
        return value.why not in (Why.NONE, Why.NOT_APPLICABLE)
    return "sand" in str(value).casefold()


def sand_of(view: View, way: Thing) -> Sand:
    """Return how the sand of a way out would lie on the floor of the room that receives it."""
    room = view.built.thing(way.text("receives_fill"))
    sideways = way.text("face") in ("left", "right")
    across, along = ("length", "width") if sideways else ("width", "length")
    found = [way.si(name) for name in SECTION]
    missing = [_said(name) for name, value in zip(SECTION, found, strict=True) if value is None]
    if room is None:
        missing.append("the room that receives the fill")
    elif room.si(across) is None:
        missing.append(f"{across} of {room.tag}")
    if missing or room is None:
        return Sand(room=room, across=across, along=along, heap=None, missing=tuple(missing))
    measures = [float(value) for value in found if value is not None]
    try:
        volume_m3 = fill_m3(measures[0] * measures[1], measures[2], measures[3])
        heap = wedge(bulked_m3(volume_m3), float(room.si(across) or 0))
    except ValueError as fault:
        return Sand(room=room, across=across, along=along, heap=None, missing=(str(fault),))
    return Sand(room=room, across=across, along=along, heap=heap, missing=())


def _said(name: str) -> str:
    return name.replace("_", " ")
