"""The pull that opens a door against the pressure at which the overpressure valve opens."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import field, lacks, nothing, perhaps
from record.figures.of_units import machines
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Thing
from record.readers import View
from record.words import tell


def of_doors(view: View) -> Iterator[Worked]:
    pressure = tuple(opening_pressure(view))
    for door in view.built.of_kind("door"):
        if door.text("type") == "door":
            sizes = (_size(view, door, "width"), _size(view, door, "height"))
            closer = perhaps(door, "closer_force", "closer")
            yield work("door-force", door.tag, (*sizes, _handle(door), *pressure, closer))
    for leaf in machines(view, "door"):
        sizes = (field(leaf, "across", "width"), field(leaf, "height", "height"))
        yield work("door-force", leaf.tag, (*sizes, _handle(leaf), *pressure))


def _handle(door: Thing) -> Part:
    return field(door, "handle_from_latch_edge", "handle")


def _size(view: View, door: Thing, name: str) -> Fed | Missing:
    """Return a size of the leaf, else of the opening it shuts."""
    shut = view.built.thing(door.text("in"))
    if door.held(name) or shut is None or not shut.held(name):
        return field(door, name, name)
    return field(shut, name, name, how=tell("figures.that_shuts", tag=shut.tag))


def opening_pressure(view: View) -> Iterator[Fed | Missing]:
    """Yield the highest pressure at which an overpressure valve opens; each must be recorded."""
    valves = [one for one in view.built.of_kind("valve") if one.text("type") == "overpressure"]
    missing = [lacks(one, "opens_at") for one in valves if one.si("opens_at") is None]
    yield from missing
    if not valves:
        words = tell("figures.overpressure_valve_and_pressure")
        yield nothing(words, tell("figures.opens_at_under_valve"))
    elif not missing:
        most = max(valves, key=lambda one: one.si("opens_at") or 0)
        yield field(most, "opens_at", "pressure", how=tell("figures.at_which_opens", tag=most.tag))
