"""What a flow loses along the supply and exhaust runs as they were built."""

from __future__ import annotations

from collections.abc import Iterator

from record.calc.air_walls import WALLS
from record.facts.pipes import AIR
from record.figures.along import runs
from record.figures.feeding import field, lacks, nothing, numbers
from record.figures.of_units import flows
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Held, Thing
from record.readers import View
from record.words import tell

NAMES = tuple(one.name for one in WALLS)
STATED = "as stated"  # the wall whose roughness is given
#: Fittings that lose next to nothing in a straight pipe; all others must have a coefficient.
STRAIGHT = ("coupling", "union", "flange", "cap", "access")


def of_air_drops(view: View) -> Iterator[Worked]:
    altitude = site_altitude(view)
    for along in runs(view):
        run = along.run
        if run.text("carries") not in AIR:
            continue
        fittings = fittings_of(view, run)
        built = tuple(pipe(run, fittings))
        for unit, flow in flows(view):
            what = tell("figures.at_flow", unit=unit) if unit else ""
            notes = _notes(view, run, fittings)
            yield work("air-drop", run.tag, (flow, *built, altitude), what=what, notes=notes)


def site_altitude(view: View) -> Fed | Missing:
    site = view.built.site_thing()
    if site is None:
        return nothing(tell("figures.site"), '"## site …"')
    return field(site, "altitude", "altitude")


def fittings_of(view: View, run: Thing) -> list[Thing]:
    return [one for one in view.built.of_kind("fitting") if run.tag in one.tags("on_run")]


def pipe(run: Thing, fittings: list[Thing]) -> Iterator[Fed | Missing]:
    """Yield the run as one length of one size: pipe, wall, and the sum of its fittings."""
    found, rests, missing = numbers(run, ("pipe_length", "inside_diameter"))
    wall = _wall(run)
    losses, held, lacking = _losses(fittings)
    if not missing and not lacking and isinstance(wall, Fed):
        row = {
            "straight": found["pipe_length"],
            "inside": found["inside_diameter"],
            "wall": wall.value,
            "k": losses,
        }
        yield Fed(key="length", value=row, rests=(*rests, *wall.rests, *held), how=wall.how)
        if wall.value == STATED:
            yield field(run, "roughness", "roughness")
    else:
        yield from (*missing, *lacking)
        if isinstance(wall, Missing):
            yield wall


def _losses(fittings: list[Thing]) -> tuple[float, list[Held], list[Missing]]:
    total = 0.0
    held: list[Held] = []
    missing: list[Missing] = []
    for one in fittings:
        value = one.si("loss_coefficient")
        if value is not None:
            total += float(value)
            held += one.held("loss_coefficient")
        elif one.text("type") not in STRAIGHT:
            missing.append(lacks(one, "loss_coefficient"))
    return total, held, missing


def _wall(run: Thing) -> Fed | Missing:
    """Return the wall by its recorded roughness, else by its exact name, or as plastic."""
    if run.si("roughness") is not None:
        return Fed(key="wall", value=STATED, rests=run.held("roughness"))
    said = run.text("material")
    if said is None:
        return lacks(run, "material")
    held, plain = run.held("material"), said.casefold()
    named = next((name for name in NAMES if name == plain.partition(",")[0] or name == plain), None)
    if named is not None:
        return Fed(key="wall", value=named, rests=held)
    if "plastic" in plain.split():
        how = tell("figures.reckoned_plastic_jointed", said=said)
        return Fed(key="wall", value="plastic, jointed", rests=held, how=how)
    return Missing(
        words=tell("figures.wall_run_how_rough", tag=run.tag, said=said),
        record=tell("figures.roughness_under_run", tag=run.tag),
    )


def _notes(view: View, run: Thing, fittings: list[Thing]) -> Iterator[str]:
    if not fittings:
        yield tell("figures.fittings_not_recorded_straight")
    valves = [v.tag for v in view.built.of_kind("valve") if run.tag in v.tags("on_run")]
    if valves:
        yield tell("figures.not_in_what_takes", valves=", ".join(valves))
