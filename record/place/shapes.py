"""Things → shapes in the frame they were measured in, with how sure their place is."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, replace

from record.calc.combine import root_sum_square
from record.fold import AsBuilt, Thing
from record.place.accuracy import accuracy
from record.place.along_shapes import along_shapes
from record.place.by_length import by_length
from record.place.circles import in_circles
from record.place.face_shapes import opening_shapes, seam_shapes
from record.place.frames import HullFrame, hull_frame
from record.place.placed_shapes import dip_pipe_shapes, placed_shapes
from record.place.run_shapes import legs_words, on_plan, run_shapes
from record.place.runs import stations
from record.place.solids import ANY_M, Block, Capsule, Shape, called, called_run
from record.place.through_shapes import entry_shapes, leaf_shapes, penetration_shapes
from record.words import tell, term

HIDDEN_KINDS = ("valve", "drain", "store", "fit-out", "equipment", "fitting")
ALONG_A_RUN = ("insulation", "marker", "cable")
IN_A_FACE = ("penetration", "door", "concealed entry")
WITH_A_PLACE = (
    "run",
    *HIDDEN_KINDS,
    "dip pipe",
    *ALONG_A_RUN,
    *IN_A_FACE,
    "seam",
    "way out",
    "hull",
    "opening",
)


def hull_frames(built: AsBuilt) -> dict[str, HullFrame]:
    """Return the frame of every hull whose measures are all recorded."""
    found = {hull.tag: hull_frame(hull) for hull in built.of_kind("hull")}
    return {tag: frame for tag, frame in found.items() if frame is not None}


def shapes(built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a shape for everything that can lie behind a face."""
    for run in built.of_kind("run"):
        yield from run_shapes(run, hulls)
    for kind in HIDDEN_KINDS:
        for thing in built.of_kind(kind):
            yield from placed_shapes(thing, built, hulls)
    for pipe in built.of_kind("dip pipe"):
        yield from dip_pipe_shapes(pipe)
    for kind in ALONG_A_RUN:
        for thing in built.of_kind(kind):
            yield from along_shapes(thing, built, hulls)
    for seam in built.of_kind("seam"):
        yield from seam_shapes(seam, hulls)
    for thing in built.of_kind("penetration"):
        yield from penetration_shapes(thing, hulls)
    for thing in built.of_kind("concealed entry"):
        yield from entry_shapes(thing, hulls)
    for thing in built.of_kind("door"):
        yield from _door(thing, built, hulls)
    for way_out in built.of_kind("way out"):
        yield from _way_out(way_out, hulls)
    for hull in built.of_kind("hull"):
        if hull.tag in hulls:
            yield _hull(hull, hulls[hull.tag])


def openings(built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a shape for every opening through a face: no solid, but nothing to fix to."""
    for opening in built.of_kind("opening"):
        yield from opening_shapes(opening, hulls)


def _door(door: Thing, built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """A leaf by its own edges; else it fills the opening, or stands in the shaft, it shuts."""
    own = list(leaf_shapes(door, hulls))
    yield from own
    shut = built.thing(door.text("in"))
    if own or shut is None:
        return
    found = (_way_out if shut.kind.word == "way out" else opening_shapes)(shut, hulls)
    for shape in found:
        entries = {e.hash: e for e in (*door.entries(), *shape.entries)}
        words = tell("place.leaf_in", door=called(door), tag=shut.tag)
        yield replace(shape, thing=door, words=words, entries=tuple(entries.values()))


def _hull(hull: Thing, frame: HullFrame) -> Shape:
    p = frame.plate_m
    high = (frame.length_m + p, frame.width_m + p, frame.height_m + p)
    words = hull.text("name") or term("hull")
    form = Block((-p, -p, -p), high)
    return Shape(hull, words, form, hull.tag, 0.0, 0.0, "measured", frame.assumed, hull.entries())


def _way_out(way_out: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """A shaft, its section along and across the hull it leads from; upright on the grid if none."""
    x, y = way_out.si("x"), way_out.si("y")
    along, across = way_out.si("section_along"), way_out.si("section_across")
    if x is None or y is None or along is None or across is None:
        return
    sure, frame = accuracy(way_out), hulls.get(way_out.text("hull") or "")
    low, high = way_out.si("fill_from"), way_out.si("fill_to")
    bottom, top = (-ANY_M if low is None else float(low)), (ANY_M if high is None else float(high))
    horizontal, vertical = sure.horizontal_m, sure.vertical_m
    form: Capsule | Block
    if frame is None:
        radius = float(root_sum_square(float(along), float(across))) / 2
        at = (float(x), float(y), bottom)
        form = Capsule(at, at, radius, top - bottom)
    else:
        a, l, h = frame.to_hull((float(x), float(y), bottom))  # noqa: E741
        half_a, half_l = float(along) / 2, float(across) / 2
        form = Block((a - half_a, l - half_l, h), (a + half_a, l + half_l, h + top - bottom))
        # It was placed on the grid, so inside the hull's frame the hull's own doubt comes in.
        horizontal = root_sum_square(horizontal, frame.horizontal_m, frame.turned_m)
        vertical = root_sum_square(vertical, frame.vertical_m)
    yield Shape(
        way_out,
        tell("place.shaft"),
        form,
        frame.tag if frame else "",
        horizontal,
        vertical,
        sure.basis,
        sure.assumed,
        way_out.entries(),
        missing=tuple(n for n, v in (("fill from", low), ("fill to", high)) if v is None),
    )


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Something of which no place, or no whole place, is recorded: it may be anywhere."""

    thing: Thing
    words: str


def unplaced(
    built: AsBuilt, hulls: Mapping[str, HullFrame], placed: Set[str] | None = None
) -> Iterator[Unplaced]:
    """
    Yield what has no place on record, and stretches of runs whose ends have none.

    ``placed``: tags of all shapes and openings, where they are known already.
    """
    if placed is None:
        every = itertools.chain(shapes(built, hulls), openings(built, hulls))
        placed = {shape.thing.tag for shape in every}
    rings = {tag: words for tag, words in in_circles(built).items() if tag not in placed}
    for kind in WITH_A_PLACE:
        for thing in built.of_kind(kind):
            if thing.tag in rings:
                yield Unplaced(thing, f"{called(thing)}, {rings[thing.tag]}")
            elif kind == "run":
                yield from run_gaps(thing, hulls)
            elif thing.tag not in placed:
                why = by_length(thing, 0.0, built, hulls)
                said = f"{called(thing)}, {why}" if isinstance(why, str) else called(thing)
                yield Unplaced(thing, said)
            elif thing.text("at_station") and not _own_place(thing, hulls):
                key = thing.text("at_station")
                yield Unplaced(thing, tell("place.no_place", thing=called(thing), key=key))


def _own_place(thing: Thing, hulls: Mapping[str, HullFrame]) -> bool:
    on_grid = thing.si("x") is not None and thing.si("y") is not None
    by_run = thing.si("along_run") is not None
    return on_grid or by_run or thing.text("hull") in hulls


def run_gaps(run: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Unplaced]:
    """Yield the stretches of a run that lie nobody knows where."""
    placed = stations(run, hulls)
    if len(placed) < 2:
        yield Unplaced(run, tell("place.its_way", run=called_run(run)))
    for one, other in itertools.pairwise(placed):
        if not (on_plan(one) and on_plan(other)):
            yield Unplaced(run, f"{called_run(run)}, {legs_words(one, other)}")


__all__ = [
    "Block",
    "Capsule",
    "Shape",
    "Unplaced",
    "hull_frames",
    "openings",
    "run_gaps",
    "shapes",
    "unplaced",
]
