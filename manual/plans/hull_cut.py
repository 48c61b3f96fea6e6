"""The record → the cut across a hull: ground, cover, steel, lining, stores, pipes, water."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings.cut import Area, Call, Cut, Fill, Rise, Width
from manual.drawings.shapes import box, circle
from manual.drawings.svg import Point
from manual.languages import say, term
from manual.plans.cut_layers import further_words
from manual.plans.cut_levels import Covered, covers_of, ground_m, hull_levels, top_m
from manual.plans.cut_pipes import BESIDE_M, pipes_at, unplaced_at
from record.answers.saying import length, value
from record.fold import Thing
from record.place import FaceFrame, HullFrame, face_frame
from record.place.frames import face_origin, face_size
from record.readers import View

FACES = ("left", "right", "near", "far", "floor", "ceiling")
IN_VIEW = ("left", "right", "floor", "ceiling")
BAND_M = 0.16  # of a reserved wall, as drawn
UNDER_M = 0.35  # of the ground under a hull that is shown


def hull_cut(view: View, tag: str) -> Cut | None:
    """Return the cut across a hull, or None while a measure of the hull is not recorded."""
    hull, frame = view.built.thing(tag), view.hulls.get(tag)
    if hull is None or frame is None:
        return None
    pipes = list(pipes_at(view, frame))
    covers = covers_of(view, frame)
    return Cut(
        name=say("cut.across", tag=tag, name=hull.text("name") or ""),
        seen=say("cut.seen_from_near"),
        areas=(
            *_earth(hull, frame),
            *_shell(frame),
            *_linings(view, frame),
            *_reserved_areas(view, frame),
            *(Area(Fill.STORE, ring) for _, ring in _stores(view, frame)),
            *(Area(Fill.VOID, ring) for _, ring in _sumps(view, frame)),
            *(Area(Fill.PIPE, pipe.ring_m, pipe.known) for pipe in pipes),
        ),
        calls=(
            *_cover_calls(covers, hull, frame),
            *(Call(pipe.spot_m, _named(pipe.run), pipe.words) for pipe in pipes),
            *(
                Call(_middle(ring), _named(each), _store_words(each))
                for each, ring in (*_stores(view, frame), *_sumps(view, frame))
            ),
            *_reserved_calls(view, frame),
        ),
        levels=tuple(hull_levels(view, hull, frame)),
        rises=tuple(_rises(covers, frame)),
        widths=(Width(0.0, frame.width_m, _wide(hull, frame)),),
        notes=tuple(_notes(view, hull, frame, covers)),
    )


def _named(thing: Thing) -> str:
    carries = thing.text("carries") if thing.kind.field("carries") else None
    return " ".join(filter(None, (thing.tag, thing.text("name") or term(carries or ""))))


def _wide(hull: Thing, frame: HullFrame) -> str:
    field = "inside_diameter" if frame.round else "inside_width"
    return say(f"cut.wide.{field}", width=value(hull.kind, field, hull.value(field)))


def _earth(hull: Thing, frame: HullFrame) -> Iterator[Area]:
    """Yield the ground as far as its top is recorded; else nothing says where it ends."""
    p, ground = frame.plate_m, ground_m(hull)
    top = top_m(frame) + 0.3 if ground is None else ground
    low = frame.origin[2] - p - UNDER_M
    ring = box(-p - BESIDE_M, low, frame.width_m + p + BESIDE_M, top)
    yield Area(Fill.EARTH, ring, whole=False)


def _shell(frame: HullFrame) -> Iterator[Area]:
    p, (z, wide, high) = frame.plate_m, (frame.origin[2], frame.width_m, frame.height_m)
    if frame.round:
        middle = (wide / 2, z + wide / 2)
        yield Area(Fill.STEEL, circle(*middle, wide / 2 + p, sides=72))
        yield Area(Fill.ROOM, circle(*middle, wide / 2, sides=72))
        if frame.floor_known:
            yield Area(Fill.VOID, _under_floor(frame))
        return
    yield Area(Fill.STEEL, box(-p, z - p, wide + p, z + high + p))
    yield Area(Fill.ROOM, box(0.0, z, wide, z + high))
    if frame.walking_floor_m - z > 0.005:
        yield Area(Fill.VOID, box(0.0, z, wide, frame.walking_floor_m))


def _under_floor(frame: HullFrame) -> tuple[Point, ...]:
    """The part of a round hull below its walking floor."""
    whole = circle(frame.radius_m, frame.origin[2] + frame.radius_m, frame.radius_m, sides=72)
    return tuple((u, min(level, frame.walking_floor_m)) for u, level in whole)


def _linings(view: View, frame: HullFrame) -> Iterator[Area]:
    """Yield the lining of walls and ceiling of a box, as deep as most of its panels."""
    if frame.round:
        return
    z, wide, high = frame.origin[2], frame.width_m, frame.height_m
    deep = {face: _usual_lining(view, frame, face) for face in ("left", "right", "ceiling")}
    floor = frame.walking_floor_m
    top = z + high - (deep["ceiling"] or 0.0)
    if deep["left"]:
        yield Area(Fill.LINING, box(0.0, floor, deep["left"], top))
    if deep["right"]:
        yield Area(Fill.LINING, box(wide - deep["right"], floor, wide, top))
    if deep["ceiling"]:
        yield Area(Fill.LINING, box(0.0, top, wide, z + high))


def _usual_lining(view: View, hull: HullFrame, face: str) -> float | None:
    """The depth that most panels of a face have from room face to plate; of two, the deeper."""
    count: dict[float, int] = {}
    for panel in view.built.of_kind("panel"):
        if panel.text("hull") == hull.tag and panel.text("face") == face:
            frame = face_frame(panel, hull)
            if frame is not None and frame.lining_m is not None:
                deep = round(frame.lining_m, 4)
                count[deep] = count.get(deep, 0) + 1
    return max(count, key=lambda deep: (count[deep], deep)) if count else None


def _boxes(view: View, frame: HullFrame, kind: str) -> Iterator[tuple[Thing, tuple[Point, ...]]]:
    for thing in view.built.of_kind(kind):
        if thing.text("hull") != frame.tag:
            continue
        left, across = thing.si("from_left"), thing.si("across")
        bottom, height = thing.si("bottom"), thing.si("height")
        if left is None or across is None or bottom is None or height is None:
            continue
        u, level = float(left), float(bottom)
        yield thing, box(u, level, u + float(across), level + float(height))


def _stores(view: View, frame: HullFrame) -> Iterator[tuple[Thing, tuple[Point, ...]]]:
    return _boxes(view, frame, "store")


def _sumps(view: View, frame: HullFrame) -> Iterator[tuple[Thing, tuple[Point, ...]]]:
    return ((t, r) for t, r in _boxes(view, frame, "equipment") if t.text("type") == "sump")


def _middle(ring: tuple[Point, ...]) -> Point:
    us, levels = [u for u, _ in ring], [level for _, level in ring]
    return ((min(us) + max(us)) / 2, (min(levels) + max(levels)) / 2)


def _store_words(thing: Thing) -> tuple[str, ...]:
    near, along = thing.si("from_near"), thing.si("along")
    if near is None:
        return (say("cut.along_not_recorded"),)
    if along is None:
        return (say("cut.from_near", length=length(float(near))),)
    end = float(near) + float(along)
    return (say("cut.from_to_near", start=length(float(near)), end=length(end)),)


def _cover_calls(covers: tuple[Covered, ...], hull: Thing, frame: HullFrame) -> Iterator[Call]:
    """Yield the least of the newest covers, with its day and how sure it is."""
    if not covers:
        spot = (frame.width_m / 2, top_m(frame))
        yield Call(spot, say("cut.cover_not_recorded"))
        return
    least = min(covers, key=lambda one: (one.cover_m, one.point))
    across = frame.width_m / 2 if least.across_m is None else least.across_m
    spot = (_within(across, frame), top_m(frame) + least.cover_m)
    seen = least.seen
    quantity = seen.quantity("cover")
    known = quantity is not None and quantity.tol is not None
    yield Call(
        spot,
        say("cut.least_measured", point=least.point),
        (
            value(seen.kind, "cover", seen.value("cover")),
            "" if known else say("cut.tolerance_not_recorded"),
            say("cut.measured_on", on=seen.on, how=seen.words("how")),
            say("cut.surface", surface=seen.words("surface")),
        ),
    )


def _within(across: float, frame: HullFrame) -> float:
    return min(max(across, 0.0), frame.width_m)


def _rises(covers: tuple[Covered, ...], frame: HullFrame) -> Iterator[Rise]:
    """Yield a measure for each cover over a flat top; on a round one it has no one foot."""
    for one in covers:
        if one.across_m is not None and not frame.round:
            top = top_m(frame)
            yield Rise(_within(one.across_m, frame), top, top + one.cover_m)


def reserved_faces(view: View, frame: HullFrame) -> tuple[str, ...]:
    """Return the faces, each whole, that are not to be opened without asking the owner.

    More than the whole face is never told: less would point at what is withheld.
    """
    zones = {
        zone.text("face")
        for zone in view.built.of_kind("reserved zone")
        if zone.text("hull") == frame.tag
    }
    return tuple(
        face for face in FACES if face in zones or view.reserved(whole_face(frame, face), 1.0)
    )


def whole_face(frame: HullFrame, face: str) -> FaceFrame:
    width, height = face_size(frame, face)
    corner = face_origin(frame, face, 0.0, 0.0, 0.0, width)
    assert corner is not None, "every edge was given"
    return FaceFrame(frame, face, corner, width, height, None)


def _reserved_areas(view: View, frame: HullFrame) -> Iterator[Area]:
    for face in reserved_faces(view, frame):
        if face in IN_VIEW:
            yield Area(Fill.RESERVED, _face_ring(frame, face))


def _face_ring(frame: HullFrame, face: str) -> tuple[Point, ...]:
    z, wide, high = frame.origin[2], frame.width_m, frame.height_m
    floor = max(frame.walking_floor_m, z + BAND_M)
    match face:
        case "left":
            return box(0.0, floor, BAND_M, z + high - BAND_M)
        case "right":
            return box(wide - BAND_M, floor, wide, z + high - BAND_M)
        case "floor":
            return box(0.0, z, wide, floor)
    return box(0.0, z + high - BAND_M, wide, z + high)


def _reserved_calls(view: View, frame: HullFrame) -> Iterator[Call]:
    for face in reserved_faces(view, frame):
        if face in IN_VIEW:
            spot = _middle(_face_ring(frame, face))
            if face in ("floor", "ceiling"):
                spot = (frame.width_m - 0.2, spot[1])
            yield Call(spot, say("cut.reserved_face", face=term(face)), (say("cut.keep_out"),))


def _notes(view: View, hull: Thing, frame: HullFrame, covers: tuple[Covered, ...]) -> Iterator[str]:
    yield say("cut.one_picture")
    if covers:
        each = (
            say("cut.cover_at", point=c.point, cover=length(c.cover_m), on=c.seen.on)
            for c in covers
        )
        yield say("cut.covers", covers="; ".join(each))
    if ground_m(hull) is None:
        yield say("cut.ground_not_recorded")
    if not frame.floor_known:
        yield say("cut.floor_not_recorded")
    ends = [face for face in reserved_faces(view, frame) if face not in IN_VIEW]
    if ends:
        yield say("cut.reserved_ends", faces=", ".join(map(term, ends)))
    unplaced = [run.tag for run in unplaced_at(view, frame)]
    if unplaced:
        yield say("cut.runs_unplaced", runs=", ".join(unplaced))
    placed = {thing.tag for thing, _ in (*_stores(view, frame), *_sumps(view, frame))}
    adrift = [
        s.tag
        for s in view.built.of_kind("store")
        if s.text("hull") == frame.tag and s.tag not in placed
    ]
    if adrift:
        yield say("cut.stores_unplaced", stores=", ".join(adrift))
    yield from closing(view, frame)


def closing(view: View, frame: HullFrame) -> Iterator[str]:
    """Yield what a cut cannot prove, and what this copy does not show."""
    yield say("cut.not_drawn")
    middle = frame.to_site(frame.length_m / 2, frame.width_m / 2, 0.0)
    if view.reserved_below((middle[0], middle[1]), 0.0):
        yield say("cut.reserved_below")
    yield from further_words(view)
