"""Things → shapes in the frame they were measured in, with how sure their place is.

Whatever of a place is not recorded is filled out to the whole of its hull, so that a missing
number makes an answer wider and never narrower.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from record.entry import Entry
from record.facts.values import Level
from record.fold import AsBuilt, Thing
from record.place.accuracy import accuracy
from record.place.frames import HullFrame, Vector, face_frame, hull_frame
from record.place.runs import PlacedStation, outside_radius_m, stations

BODY_M = 0.10  # half of what a valve or fitting takes up where its size is not recorded
SEAM_REACH_M = 0.10  # to each side of a weld, where it is not recorded how far its layers reach
HIDDEN_KINDS = ("valve", "drain", "store", "fit-out", "equipment")


@dataclass(frozen=True, slots=True)
class Capsule:
    """A round bar from one point to another, radius in metres."""

    start: Vector
    end: Vector
    radius_m: float


@dataclass(frozen=True, slots=True)
class Block:
    """A box with its edges along the axes of its frame, by two opposite corners."""

    low: Vector
    high: Vector


@dataclass(frozen=True, slots=True)
class Shape:
    """One solid of one thing, in the frame ``hull`` ("" is the site grid)."""

    thing: Thing
    words: str
    form: Capsule | Block
    hull: str
    horizontal_m: float
    vertical_m: float
    basis: str
    assumed: bool
    entries: tuple[Entry, ...]
    interpolated: bool = False
    missing: tuple[str, ...] = ()  # which measures were not recorded, and so were filled out


def hull_frames(built: AsBuilt) -> dict[str, HullFrame]:
    """Return the frame of every hull whose measures are all recorded."""
    found = {hull.tag: hull_frame(hull) for hull in built.of_kind("hull")}
    return {tag: frame for tag, frame in found.items() if frame is not None}


def shapes(built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a shape for everything that can lie behind a face."""
    for run in built.of_kind("run"):
        yield from _run(run, hulls)
    for kind in HIDDEN_KINDS:
        for thing in built.of_kind(kind):
            yield from _in_hull(thing, hulls)
    for seam in built.of_kind("seam"):
        yield from _seam(seam, hulls)
    for way_out in built.of_kind("way out"):
        yield from _way_out(way_out, hulls)
    for hull in built.of_kind("hull"):
        if hull.tag in hulls:
            frame = hulls[hull.tag]
            p = frame.plate_m
            form = Block(
                (-p, -p, -p),
                (frame.length_m + p, frame.width_m + p, frame.height_m + p),
            )
            yield Shape(
                hull,
                hull.text("name") or "hull",
                form,
                hull.tag,
                0.0,
                0.0,
                "measured",
                False,
                hull.entries(),
            )


def _run(run: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """A run is one bar between each two stations; between them it is interpolated."""
    radius, assumed = outside_radius_m(run)
    placed = stations(run, hulls)
    carries = run.text("carries")
    words = f"run, {carries}" if carries else "run"
    for one, other in itertools.pairwise(placed):
        yield from _stretch(run, words, radius, assumed, one, other, hulls)


def _stretch(
    run: Thing,
    words: str,
    radius: float,
    assumed: bool,
    one: PlacedStation,
    other: PlacedStation,
    hulls: Mapping[str, HullFrame],
) -> Iterator[Shape]:
    common = one.hull if one.hull == other.hull else ""
    entries = tuple({e.hash: e for s in (one, other) for e in s.thing.entries()}.values())
    tolerance = [
        max(s.accuracy.horizontal_m + _frame_doubt(s.hull, common, hulls)[0] for s in (one, other)),
        max(s.accuracy.vertical_m + _frame_doubt(s.hull, common, hulls)[1] for s in (one, other)),
    ]
    start, end = one.point(), other.point()
    missing: tuple[str, ...] = ()
    if one.x is None or other.x is None:
        # Without a place on the plan at either end there is nothing to draw a line between.
        return
    form: Capsule | Block
    if start is None or end is None:
        missing = ("level",)
        form = _all_levels(one, other, radius, hulls)
        common = ""
    else:
        form = Capsule(_into(start, common, hulls), _into(end, common, hulls), radius)
    yield Shape(
        run,
        f"{words}, {one.key} to {other.key}",
        form,
        common,
        tolerance[0],
        tolerance[1],
        "interpolated between stations measured",
        assumed or one.accuracy.assumed or other.accuracy.assumed,
        entries,
        interpolated=True,
        missing=missing,
    )


def _frame_doubt(hull: str, common: str, hulls: Mapping[str, HullFrame]) -> tuple[float, float]:
    """What a station measured inside a hull carries more when it is compared outside of it."""
    if hull == common or hull not in hulls:
        return 0.0, 0.0
    return hulls[hull].horizontal_m, hulls[hull].vertical_m


def _into(point: Vector, hull: str, hulls: Mapping[str, HullFrame]) -> Vector:
    return hulls[hull].to_hull(point) if hull else point


def _all_levels(
    one: PlacedStation, other: PlacedStation, radius: float, hulls: Mapping[str, HullFrame]
) -> Block:
    """The block a stretch lies in somewhere, while its level is not recorded."""
    floor = min((frame.origin[2] for frame in hulls.values()), default=-1000.0) - 2.0
    top = max((f.origin[2] + f.height_m for f in hulls.values()), default=1000.0) + 5.0
    xs, ys = sorted((one.x or 0.0, other.x or 0.0)), sorted((one.y or 0.0, other.y or 0.0))
    return Block((xs[0] - radius, ys[0] - radius, floor), (xs[1] + radius, ys[1] + radius, top))


def _in_hull(thing: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    frame = hulls.get(thing.text("hull") or "")
    sure = accuracy(thing)
    if frame is None:
        yield from _on_grid(thing)
        return
    level = thing.value("level")
    bottom = float(level.height.si) if isinstance(level, Level) else None
    half = float(thing.si("size") or 0) / 2 or BODY_M
    if bottom is None and (said := thing.si("bottom")) is not None:
        bottom = float(said)
    if bottom is None and (above := thing.si("above_floor")) is not None:
        bottom = frame.walking_floor_m + float(above)
    sizes = [thing.si(name) for name in ("along", "across", "height")]
    starts = [thing.si("from_near"), thing.si("from_left")]
    if thing.kind.word == "equipment" and (None in starts or bottom is None):
        return  # it stands in the room; a place half known says nothing about what is behind
    low: list[float] = []
    high: list[float] = []
    missing: list[str] = []
    ends = (frame.length_m, frame.width_m, frame.height_m)
    edges = (*starts, None if bottom is None else bottom - frame.origin[2])
    for name, edge, size, end in zip(
        ("from near", "from left", "level"), edges, sizes, ends, strict=True
    ):
        if edge is None:
            missing.append(name)
            low.append(0.0)
            high.append(end)
        else:
            at = float(edge)
            low.append(at if size is not None else at - half)
            high.append(at + float(size) if size is not None else at + half)
    yield Shape(
        thing,
        _called(thing),
        Block((low[0], low[1], low[2]), (high[0], high[1], high[2])),
        frame.tag,
        sure.horizontal_m,
        sure.vertical_m,
        sure.basis,
        sure.assumed,
        thing.entries(),
        missing=tuple(missing),
    )


def _called(thing: Thing) -> str:
    kind = thing.text("type") or thing.text("what") or ""
    return f"{thing.kind.word}, {kind}" if kind else thing.kind.word


def _on_grid(thing: Thing) -> Iterator[Shape]:
    """Something placed on the site grid, with or without a level."""
    x, y = thing.si("x"), thing.si("y")
    if x is None or y is None:
        return
    sure = accuracy(thing)
    half = float(thing.si("size") or 0) / 2 or BODY_M
    level = thing.si("level") or thing.si("bottom")
    low, high = (-1e3, 1e3) if level is None else (float(level) - half, float(level) + half)
    yield Shape(
        thing,
        _called(thing),
        Block((float(x) - half, float(y) - half, low), (float(x) + half, float(y) + half, high)),
        "",
        sure.horizontal_m,
        sure.vertical_m,
        sure.basis,
        sure.assumed,
        thing.entries(),
        missing=() if level is not None else ("level",),
    )


def _seam(seam: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """A weld round a rectangle on a face: four strips, as wide as its layers reach."""
    frame = hulls.get(seam.text("hull") or "")
    face = face_frame(seam, frame) if frame else None
    if frame is None or face is None:
        return
    reach = float(seam.si("build-up_reaches") or SEAM_REACH_M)
    right, up, away = face.axes()
    thick = frame.plate_m
    corners = [(0.0, 0.0), (face.width_m, 0.0), (face.width_m, face.height_m), (0.0, face.height_m)]
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    if face.width_m == 0 or face.height_m == 0:
        sides = sides[:1] if face.height_m == 0 else sides[1:2]
    for (u0, v0), (u1, v1) in sides:
        ends = [
            tuple(face.origin[i] + right[i] * u + up[i] * v + away[i] * d for i in range(3))
            for u, v, d in (
                (min(u0, u1) - reach, min(v0, v1) - reach, 0.0),
                (max(u0, u1) + reach, max(v0, v1) + reach, thick),
            )
        ]
        spans = [sorted((ends[0][i], ends[1][i])) for i in range(3)]
        low = (spans[0][0], spans[1][0], spans[2][0])
        high = (spans[0][1], spans[1][1], spans[2][1])
        sure = accuracy(seam)
        yield Shape(
            seam,
            "seam, welded",
            Block(low, high),
            frame.tag,
            sure.horizontal_m,
            sure.vertical_m,
            sure.basis,
            sure.assumed,
            seam.entries(),
        )


def _way_out(way_out: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    x, y = way_out.si("x"), way_out.si("y")
    along, across = way_out.si("section_along"), way_out.si("section_across")
    if x is None or y is None or along is None or across is None:
        return
    sure = accuracy(way_out)
    low, high = way_out.si("fill_from"), way_out.si("fill_to")
    half_x, half_y = float(along) / 2, float(across) / 2
    yield Shape(
        way_out,
        "shaft",
        Block(
            (float(x) - half_x, float(y) - half_y, -1e3 if low is None else float(low)),
            (float(x) + half_x, float(y) + half_y, 1e3 if high is None else float(high)),
        ),
        "",
        sure.horizontal_m,
        sure.vertical_m,
        sure.basis,
        sure.assumed,
        way_out.entries(),
        missing=tuple(n for n, v in (("fill from", low), ("fill to", high)) if v is None),
    )
