"""What follows a run: layers of insulation, wires and tapes that mark it, cables in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from record.fold import AsBuilt, Thing
from record.place.frames import HullFrame
from record.place.placed_shapes import placed_shapes
from record.place.run_shapes import run_shapes
from record.place.runs import INSULATION_M, bare_radius_m
from record.place.solids import ANY_M, Capsule, Shape, called
from record.words import tell

RUN_OF = {"insulation": "on_run", "marker": "follows", "cable": "in_run"}
ALONG_ITS_RUN = "along its run"  # what a place rests on, beside the bases of ``accuracy``
MARKS_M = 0.05  # half of what a tape or a plate takes up; common practice, no source


def along_shapes(thing: Thing, built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """
    Yield where something lies that follows a run: its own place if it says one, else the run's.

    Between two stations that it names, where the run has both; else along all of the run.
    """
    if thing.text("hull") in hulls or _has_place(thing):
        yield from placed_shapes(thing, built, hulls)
        return
    run = built.thing(thing.text(RUN_OF[thing.kind.word]))
    for shape in run_shapes(_between(run, thing), hulls) if run and run.kind.word == "run" else ():
        entries = {e.hash: e for e in (*thing.entries(), *shape.entries)}
        length = shape.words.rpartition(", ")[2]
        yield replace(
            _formed(shape, thing, built),
            thing=thing,
            words=tell("place.with", thing=called(thing), tag=shape.thing.tag, length=length),
            basis=ALONG_ITS_RUN,
            entries=tuple(entries.values()),
        )


def _has_place(thing: Thing) -> bool:
    on_grid = thing.si("x") is not None and thing.si("y") is not None
    return on_grid or thing.si("along_run") is not None


def _between(run: Thing, thing: Thing) -> Thing:
    """Return the run between the stations a thing names; two that differ or are unknown: all."""
    keys = [part.key for part in run.parts]
    named = [(thing.text(name) or "").split(" ")[0] for name in ("from_station", "to_station")]
    if not all(key in keys for key in named):
        return run
    low, high = sorted(map(keys.index, named))
    return replace(run, parts=run.parts[low : high + 1])


def _formed(shape: Shape, thing: Thing, built: AsBuilt) -> Shape:
    form = shape.form
    if not isinstance(form, Capsule) or thing.kind.word == "cable":
        return shape  # it lies somewhere in its conduit
    if thing.kind.word == "insulation":
        radius, assumed = _insulated_m(shape.thing, thing, built)
        return replace(shape, form=replace(form, radius_m=radius), assumed=shape.assumed or assumed)
    above = thing.si("above_pipe")
    if above is None or shape.missing:
        # How high over the pipe is not recorded: it may lie anywhere from beneath it upward.
        rising = replace(form, rises_m=2 * ANY_M)
        return replace(shape, form=rising, missing=("level",))
    up = bare_radius_m(shape.thing)[0] + float(above)
    start, end = ((x, y, z + up) for x, y, z in (form.start, form.end))
    radius = max(MARKS_M, float(thing.si("size") or 0) / 2)
    return replace(shape, form=Capsule(start, end, radius))


def _insulated_m(run: Thing, layer: Thing, built: AsBuilt) -> tuple[float, bool]:
    """Return the radius over a layer: the pipe, and every layer up to this one."""
    radius, assumed = bare_radius_m(run)
    order = layer.count("order")
    for other in built.of_kind("insulation"):
        if other.text("on_run") != run.tag:
            continue
        place = other.count("order")
        if order is not None and place is not None and place > order:
            continue
        thick = other.si("thickness")
        radius += INSULATION_M if thick is None else float(thick)
        assumed = assumed or thick is None
    return radius, assumed
