"""The record → a way out cut upright: room, hatch, shaft, fill, lid and cover."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings import shapes
from manual.drawings.both import level as level_words
from manual.drawings.cut import Area, Arrow, Break, Call, Cut, Fill, LevelMark, Mark, Width
from manual.drawings.shapes import Window, box
from manual.drawings.svg import Point
from manual.languages import say
from manual.plans.cut_levels import ground_m, top_m, within_m
from manual.plans.way_heap import heap, heap_calls
from manual.plans.way_notes import way_notes
from manual.plans.way_shape import HATCH_M, ROOM_M, SECTION, Way, size_words, titled, way_of
from record.answers.saying import length, value
from record.checks.way_out_opens_inward import inward
from record.readers import View

BESIDE_M = 0.5  # of the ground beyond the shaft


def way_section(view: View, tag: str) -> Cut | None:
    """Return the way out cut upright, or None where its hull has no place on record."""
    way = way_of(view, tag)
    if way is None:
        return None
    window = _window(way)
    areas = (*_ground(way, window), *_hull(way, window), *_shaft(way), *heap(view, way))
    return Cut(
        name=say("way.section_of", tag=tag, name=way.thing.text("name") or ""),
        seen=say("way.looking_left") if way.lengthwise else say("cut.seen_from_near"),
        areas=(*areas, *_hatch(way)),
        calls=(*_hatch_calls(view, way), *_shaft_calls(view, way), *heap_calls(view, way)),
        levels=tuple(_levels(way)),
        widths=tuple(_across(way)),
        arrows=tuple(_swing(way)),
        breaks=tuple(_breaks(way, window)),
        notes=tuple(way_notes(view, way)),
    )


def _window(way: Way) -> Window:
    """What is shown: the end of the room at the hatch, the shaft and the ground beyond it."""
    p, ends = way.frame.plate_m, [way.wall_m] if way.wall_m is not None else []
    ends += list(way.reach or ())
    ends = ends or [way.inside_m / 2]
    left, right = min(ends) - BESIDE_M, max(ends) + BESIDE_M
    if way.face in ("far", "right", None):
        left = min(left, way.inside_m - ROOM_M)
    if way.face in ("near", "left"):
        right = max(right, ROOM_M)
    if way.wall_m is None:
        left, right = min(left, min(ends) - ROOM_M / 2), max(right, max(ends) + ROOM_M / 2)
    ground = ground_m(way.hull)
    top = top_m(way.frame) + 0.4 if ground is None else ground
    return left, way.frame.origin[2] - p - 0.3, right, top


def _ground(way: Way, window: Window) -> Iterator[Area]:
    yield Area(Fill.EARTH, box(*window), whole=False)


def _hull(way: Way, window: Window) -> Iterator[Area]:
    """Yield the end of the hull, cut off where the picture ends."""
    p, z, high = way.frame.plate_m, way.frame.origin[2], way.frame.height_m
    shell = shapes.cut(box(-p, z - p, way.inside_m + p, z + high + p), window)
    room = shapes.cut(box(0.0, z, way.inside_m, z + high), window)
    floor = shapes.cut(box(0.0, z, way.inside_m, way.frame.walking_floor_m), window)
    yield Area(Fill.STEEL, shell)
    yield Area(Fill.ROOM, room)
    if way.frame.walking_floor_m - z > 0.005:
        yield Area(Fill.VOID, floor)


def _breaks(way: Way, window: Window) -> Iterator[Break]:
    p, z = way.frame.plate_m, way.frame.origin[2]
    ends = (z - p, z + way.frame.height_m + p)
    if window[0] > -p:
        yield Break(window[0], *ends)
    if window[2] < way.inside_m + p:
        yield Break(window[2], *ends)


def _bottom(way: Way) -> float | None:
    """Where the shaft begins: at its fill, else at the sill of its hatch, else at the roof."""
    for name in ("fill_from", "hatch_sill"):
        if (level := way.si(name)) is not None:
            return level
    return top_m(way.frame) if way.face == "ceiling" else None


def _shaft(way: Way) -> Iterator[Area]:
    """Yield the shaft, broken where an end of it is not recorded, and what stands in it."""
    reach, bottom, top = way.reach, _bottom(way), way.top_m
    if reach is None:
        return
    if bottom is None and top is None and way.si("fill_to") is None:
        return
    fill_to = way.si("fill_to")
    low = bottom if bottom is not None else way.frame.origin[2]
    high = next((each for each in (top, fill_to) if each is not None), low + 1.0)
    if way.filling is Fill.SHAFT or (fill_to is not None and fill_to < high - 0.005):
        ends = bottom is not None and top is not None
        yield Area(Fill.SHAFT, box(reach[0], low, reach[1], high), ends)
    if way.filling is not Fill.SHAFT:
        to = fill_to if fill_to is not None else high
        known = way.si("fill_from") is not None and fill_to is not None
        yield Area(way.filling, box(reach[0], low, reach[1], to), known)


def _hatch_ring(way: Way) -> tuple[Point, ...] | None:
    sill, height, width = (way.si(f"hatch_{name}") for name in ("sill", "height", "width"))
    if way.wall_m is not None and sill is not None and height is not None:
        out = way.frame.plate_m if way.wall_m else -way.frame.plate_m
        middle = way.wall_m + out / 2
        return box(middle - HATCH_M, sill, middle + HATCH_M, sill + height)
    if way.face in ("ceiling", "floor") and width is not None and way.reach is not None:
        middle = (way.reach[0] + way.reach[1]) / 2
        low, high = way.frame.origin[2], way.frame.origin[2] + way.frame.height_m
        level = high if way.face == "ceiling" else low
        return box(middle - width / 2, level - HATCH_M, middle + width / 2, level + HATCH_M)
    return None


def _hatch(way: Way) -> Iterator[Area]:
    ring = _hatch_ring(way)
    if ring is not None:
        yield Area(Fill.OPENING, ring)


def _swing(way: Way) -> Iterator[Arrow]:
    """Yield the way the hatch comes off, where its words say inward or outward."""
    ring, told = _hatch_ring(way), inward(way.thing.text("opens") or "")
    if ring is None or told is None:
        return
    left, low, right, high = shapes.box_of(ring)
    u, level = (left + right) / 2, (low + high) / 2
    if way.wall_m is None:
        down = (way.face == "ceiling") == told
        yield Arrow((u, level), (u, level - 0.45 if down else level + 0.45))
        return
    toward_left = (way.wall_m > 0) == told
    yield Arrow((u, level), (u - 0.45 if toward_left else u + 0.45, level))


def _hatch_calls(view: View, way: Way) -> Iterator[Call]:
    ring = _hatch_ring(way)
    size = say("way.hatch_size", width=way.words("hatch_width"), height=way.words("hatch_height"))
    words = (size, say("way.opens", opens=way.words("opens")), _looks(way), *_leaves(view, way))
    if ring is None:
        wall = way.inside_m / 2 if way.wall_m is None else way.wall_m
        spot = (wall, way.frame.origin[2] + way.frame.height_m / 2)
        yield Call(spot, say("way.hatch_not_placed"), words)
        return
    left, low, right, high = shapes.box_of(ring)
    yield Call(((left + right) / 2, low + (high - low) * 0.75), say("way.hatch"), words)


def _looks(way: Way) -> str:
    return say("way.looks_like", looks=way.words("looks_like"))


def _leaves(view: View, way: Way) -> Iterator[str]:
    """Yield how each leaf that is said to be in it hangs and is let go."""
    for door in view.built.of_kind("door"):
        if way.thing.tag in door.tags("in"):
            yield say(
                "way.leaf",
                tag=door.tag,
                swing=door.words("swing"),
                release=door.words("release_from_inside"),
            )


def _shaft_calls(view: View, way: Way) -> Iterator[Call]:
    reach, bottom, top = way.reach, _bottom(way), way.top_m
    filled = [one for one in view.built.happened("filled") if one.about == way.thing.tag]
    last = (
        say(
            "way.filled",
            on=one.on,
            material=one.words("material"),
            volume=value(one.kind, "volume", one.value("volume")),
        )
        for one in filled[-1:]
    )
    words = (size_words(way), say("way.fill", fill=way.words("fill")), *last)
    if reach is None:
        spot = (way.inside_m if way.wall_m is None else way.wall_m, top_m(way.frame))
        yield Call(spot, say("way.shaft_not_placed", title=titled(way)), words)
        return
    low = way.frame.origin[2] if bottom is None else bottom
    high = next((each for each in (top, way.si("fill_to")) if each is not None), low + 1.0)
    yield Call((reach[1] - (reach[1] - reach[0]) / 4, (low + high) / 2), titled(way), words)


def _levels(way: Way) -> Iterator[LevelMark]:
    ground = ground_m(way.hull)
    if ground is not None:
        yield LevelMark(
            ground,
            Mark.GROUND,
            (*level_words(ground, within_m(way.hull, "ground_level")), say("way.ground")),
        )
    told = (
        (way.top_m, say("way.top")),
        (way.si("fill_to"), say("way.fill_to")),
        (way.si("fill_from"), say("way.fill_from")),
        (way.si("hatch_sill"), say("way.sill")),
        (way.frame.walking_floor_m if way.frame.floor_known else None, say("cut.walking_floor")),
    )
    alike: dict[float, list[str]] = {}
    for level, words in told:
        if level is not None:
            alike.setdefault(round(level, 3), []).append(words)
    for level, names in alike.items():
        down = [] if ground is None else [say("cut.deep", depth=length(ground - level))]
        yield LevelMark(level, Mark.PLAIN, (*level_words(level), *names, *down))


def _across(way: Way) -> Iterator[Width]:
    if way.reach is not None:
        name = SECTION[0] if way.lengthwise else SECTION[1]
        yield Width(*way.reach, say("way.shaft_wide", width=way.words(name)))
