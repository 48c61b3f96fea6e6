"""The whole way of the air as built: what it takes, and where a unit's curve meets it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from record.facts.pipes import AIR
from record.figures.along import runs
from record.figures.feeding import field, nothing, numbers
from record.figures.of_air import fittings_of, pipe, site_altitude
from record.figures.of_units import flows, machines
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Thing
from record.readers import View
from record.words import tell

POINT = ("flow", "pressure_at_flow")
VALVE_POINT = ("rated_flow", "pressure_at_rated_flow")
#: Valves that air pushes open; others stand open on a way of air, and take next to nothing.
PUSHED = ("check", "flap", "overpressure")
NO_RUN = nothing("a run that carries supply air", '"## run …" that carries supply air')


def of_densities(view: View) -> Iterator[Worked]:
    """Yield what the air of the place weighs."""
    site = view.built.site_thing()
    if site is not None:
        yield work("air-density", site.tag, (field(site, "altitude", "altitude"),))


def of_ways(view: View) -> Iterator[Worked]:
    """Yield what the whole way takes at the recorded flow of every air unit."""
    for unit, flow in flows(view):
        yield way_at(view, unit or view.built.site, flow)


def way_at(view: View, about: str, flow: Fed | Missing) -> Worked:
    parts = (flow, *way(view), site_altitude(view))
    return work("air-way", about, parts, what=tell("figures.by_runs_built"), notes=notes(view))


def of_fan_points(view: View) -> Iterator[Worked]:
    """Yield the flow at which every unit's curve meets its way, where a curve is recorded."""
    for unit in machines(view, "air unit", "hand crank", "fan"):
        if unit.parts:
            points = tuple(part for row in unit.parts for part in _point(row))
            parts = (*points, *way(view), site_altitude(view))
            yield work("fan-point", unit.tag, parts, notes=notes(view))


def _point(row: Thing) -> Iterator[Fed | Missing]:
    found, rests, missing = numbers(row, ("flow", "pressure"))
    yield from missing or (Fed(key="point", value=found, rests=rests, how=row.key),)


def way(view: View) -> Iterator[Part]:
    """Yield every run of air, and every filter and valve on it, as inputs of the whole way."""
    air = _runs(view)
    if not air:
        yield NO_RUN
    rough: list[Fed] = []
    for run in air:
        for one in pipe(run, fittings_of(view, run)):
            if isinstance(one, Fed) and one.key == "roughness":
                rough.append(one)
            else:
                yield _named(one, run.tag)
    if rough:  # a sum takes one roughness; the roughest errs high
        yield max(rough, key=lambda one: float(one.value))
    for filter_ in machines(view, "filter set"):
        yield from _part(filter_, POINT, like="mat", opens=None)
    tags = {run.tag for run in air}
    for valve in view.built.of_kind("valve"):
        if valve.text("type") in PUSHED and tags & set(valve.tags("on_run")):
            opens = "opens_at" if valve.text("type") == "overpressure" else None
            yield from _part(valve, VALVE_POINT, like="opening", opens=opens)


def _runs(view: View) -> list[Thing]:
    """Return the runs of air one after the other; a branch lies beside others, and is none."""
    every = (one.run for one in runs(view) if one.run.text("carries") in AIR)
    return [run for run in every if not run.tags("branch_of")]


def _named(one: Fed | Missing, tag: str) -> Fed | Missing:
    """Say of which run a length is, where several stand one under the other."""
    if isinstance(one, Missing):
        return one
    return replace(one, how="; ".join(filter(None, (tag, one.how))))


def _part(thing: Thing, names: tuple[str, str], *, like: str, opens: str | None) -> Iterator[Part]:
    wanted = (*names, opens) if opens else names
    found, rests, missing = numbers(thing, wanted)
    if missing:
        yield from missing
        return
    row = {
        "flow": found[names[0]],
        "pressure": found[names[1]],
        "like": like,
        "opens": found[opens] if opens else 0.0,
    }
    yield Fed(key="part", value=row, rests=rests, how=thing.tag)


def notes(view: View) -> Iterator[str]:
    """Yield what may be on the way and is not recorded as being there."""
    if not list(machines(view, "filter set")):
        yield tell("figures.no_filter_set_recorded")
    for run in _runs(view):
        if not fittings_of(view, run):
            yield tell("figures.fittings_not_recorded_takes", tag=run.tag)
    for carries in AIR:
        several = [run.tag for run in _runs(view) if run.text("carries") == carries]
        if len(several) > 1:
            yield tell("figures.taken_one_after_other", several=", ".join(several))
    for thing in view.built.of_kind("equipment"):
        if thing.text("type") == "filter set" and thing.si("final_pressure_drop") is not None:
            said = thing.words("final_pressure_drop")
            yield tell("figures.clean_to_be_changed", tag=thing.tag, said=said)
