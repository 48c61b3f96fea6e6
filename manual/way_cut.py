"""The record → a way out in section and in plan: room, hatch, shaft, fill, lid and cover."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from manual.cut_layers import further_words
from manual.cut_levels import ground_m, top_m
from manual.drawings import shapes
from manual.drawings.cut import Area, Arrow, Break, Call, Cut, Fill, LevelMark, Mark, Width
from manual.drawings.shapes import Window, box
from manual.drawings.svg import Point
from manual.floor import may_be_filled
from manual.languages import say
from record.answers.saying import length, value
from record.checks.way_out_opens_inward import inward
from record.facts.kind import OWNER
from record.facts.values import Absent
from record.figures.of_sand import of_sand
from record.fold import Thing
from record.place import HullFrame
from record.readers import View

ROOM_M = 2.2  # of the room before the hatch that is shown
BESIDE_M = 0.5  # of the ground beyond the shaft
HATCH_M = 0.05  # how thick a hatch is drawn, either way from the steel
ALONG = ("near", "far", "ceiling", "floor")  # faces whose way out is cut along the hull
TOOLS = re.compile(r"\b(bar|shovel|spade|rake|jack|pick|saw|wrench|hammer|goggles|masks?)\b", re.I)


@dataclass(frozen=True, slots=True)
class _Way:
    """A way out in the frame of the hull it leads from; None is "not recorded"."""

    thing: Thing
    hull: Thing
    frame: HullFrame
    face: str | None
    middle_m: Point | None  # of the shaft, along and across
    size_m: tuple[float | None, float | None]  # along and across

    @property
    def lengthwise(self) -> bool:
        """Whether it is cut along the hull; else across it."""
        return self.face is None or self.face in ALONG

    def si(self, name: str) -> float | None:
        held = self.thing.si(name)
        return None if held is None else float(held)

    def words(self, name: str) -> str:
        return value(self.thing.kind, name, self.thing.value(name))

    @property
    def inside_m(self) -> float:
        """How far the hull reaches in the direction of the cut."""
        return self.frame.length_m if self.lengthwise else self.frame.width_m

    def shaft(self, axis: int) -> tuple[float, float] | None:
        """From where to where the shaft reaches along the hull (0) or across it (1)."""
        size = self.size_m[axis]
        if self.middle_m is None or size is None:
            return None
        return self.middle_m[axis] - size / 2, self.middle_m[axis] + size / 2

    @property
    def reach(self) -> tuple[float, float] | None:
        return self.shaft(0 if self.lengthwise else 1)

    @property
    def wall_m(self) -> float | None:
        """Where the inside of the plate of its face lies in the cut; None for no upright face."""
        if self.face in ("near", "left"):
            return 0.0
        return self.inside_m if self.face in ("far", "right") else None

    @property
    def top_m(self) -> float | None:
        """The level of the shaft's top: so far below the ground as was written."""
        ground, below = ground_m(self.hull), self.si("top_below_grade")
        return None if ground is None or below is None else ground - below


def way_section(view: View, tag: str) -> Cut | None:
    """Return the way out cut upright, or None where its hull has no place on record."""
    way = _way(view, tag)
    if way is None:
        return None
    window = _window(way)
    areas = (*_ground(way, window), *_hull(way, window), *_shaft(way), *_heap(view, way))
    return Cut(
        name=say("way.section_of", tag=tag, name=way.thing.text("name") or ""),
        seen=say("way.looking_left") if way.lengthwise else say("cut.seen_from_near"),
        areas=(*areas, *_hatch(way)),
        calls=(*_hatch_calls(view, way), *_shaft_calls(view, way), *_heap_calls(view, way)),
        levels=tuple(_levels(way)),
        widths=tuple(_across(way)),
        arrows=tuple(_swing(way)),
        breaks=tuple(_breaks(way, window)),
        notes=tuple(_notes(view, way)),
    )


def way_plan(view: View, tag: str) -> Cut | None:
    """Return the same from above, or None where nothing says where it is on the plan."""
    way = _way(view, tag)
    if way is None or way.shaft(0) is None or way.shaft(1) is None:
        return None
    (a0, a1), (l0, l1) = way.shaft(0) or (0, 0), way.shaft(1) or (0, 0)
    p, frame = way.frame.plate_m, way.frame
    low, high = max(-p, min(a0, a1) - ROOM_M), min(frame.length_m + p, max(a0, a1) + ROOM_M)
    shell = (low, -frame.width_m - p, high, p)
    room = (max(low, 0.0), -frame.width_m, min(high, frame.length_m), 0.0)
    filled = _filling(way)
    areas = [Area(Fill.STEEL, box(*shell)), Area(Fill.ROOM, box(*room))]
    areas += [Area(filled, box(a0, -l1, a1, -l0))]
    middle = ((a0 + a1) / 2, -(l0 + l1) / 2)
    calls = [
        Call(middle, _title(way), (_size(way), say("way.fill", fill=way.words("fill")))),
        *_plan_hatch(way, areas),
    ]
    return Cut(
        name=say("way.plan_of", tag=tag, name=way.thing.text("name") or ""),
        seen=say("way.from_above"),
        areas=tuple(areas),
        calls=tuple(calls),
        breaks=tuple(
            Break(u, shell[1], shell[3])
            for u, end in ((low, -p), (high, frame.length_m + p))
            if abs(u - end) > 1e-6
        ),
        notes=tuple(_notes(view, way)),
        plan=True,
    )


def _way(view: View, tag: str) -> _Way | None:
    thing = view.built.thing(tag)
    hull = view.built.thing(thing.text("hull")) if thing else None
    frame = view.hulls.get(hull.tag) if hull else None
    if thing is None or hull is None or frame is None:
        return None
    x, y = thing.si("x"), thing.si("y")
    middle = None
    if x is not None and y is not None:
        middle = frame.to_hull((float(x), float(y), frame.origin[2]))[:2]
    sizes = [None if (s := thing.si(n)) is None else float(s) for n in SECTION]
    return _Way(thing, hull, frame, thing.text("face"), middle, (sizes[0], sizes[1]))


SECTION = ("section_along", "section_across")


def _title(way: _Way) -> str:
    return f"{way.thing.tag} {way.thing.text('name') or way.thing.kind.word}"


def _size(way: _Way) -> str:
    return say("way.size", along=way.words(SECTION[0]), across=way.words(SECTION[1]))


def _window(way: _Way) -> Window:
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


def _ground(way: _Way, window: Window) -> Iterator[Area]:
    yield Area(Fill.EARTH, box(*window), whole=False)


def _hull(way: _Way, window: Window) -> Iterator[Area]:
    """Yield the end of the hull, cut off where the picture ends."""
    p, z, high = way.frame.plate_m, way.frame.origin[2], way.frame.height_m
    shell = shapes.cut(box(-p, z - p, way.inside_m + p, z + high + p), window)
    room = shapes.cut(box(0.0, z, way.inside_m, z + high), window)
    floor = shapes.cut(box(0.0, z, way.inside_m, way.frame.walking_floor_m), window)
    yield Area(Fill.STEEL, shell)
    yield Area(Fill.ROOM, room)
    if way.frame.walking_floor_m - z > 0.005:
        yield Area(Fill.VOID, floor)


def _breaks(way: _Way, window: Window) -> Iterator[Break]:
    p, z = way.frame.plate_m, way.frame.origin[2]
    ends = (z - p, z + way.frame.height_m + p)
    if window[0] > -p:
        yield Break(window[0], *ends)
    if window[2] < way.inside_m + p:
        yield Break(window[2], *ends)


def _filling(way: _Way) -> Fill:
    """What stands in the shaft: fill, nothing, or nobody wrote."""
    fill = way.thing.value("fill")
    if isinstance(fill, Absent):
        return Fill.UNKNOWN if may_be_filled(way.thing) else Fill.SHAFT
    return Fill.FILLING


def _bottom(way: _Way) -> float | None:
    """Where the shaft begins: at its fill, else at the sill of its hatch, else at the roof."""
    for name in ("fill_from", "hatch_sill"):
        if (level := way.si(name)) is not None:
            return level
    return top_m(way.frame) if way.face == "ceiling" else None


def _shaft(way: _Way) -> Iterator[Area]:
    """Yield the shaft, broken where an end of it is not recorded, and what stands in it."""
    reach, bottom, top = way.reach, _bottom(way), way.top_m
    if reach is None:
        return
    if bottom is None and top is None and way.si("fill_to") is None:
        return
    fill_to = way.si("fill_to")
    low = bottom if bottom is not None else way.frame.origin[2]
    high = next((each for each in (top, fill_to) if each is not None), low + 1.0)
    filling = _filling(way)
    if filling is Fill.SHAFT or (fill_to is not None and fill_to < high - 0.005):
        ends = bottom is not None and top is not None
        yield Area(Fill.SHAFT, box(reach[0], low, reach[1], high), ends)
    if filling is not Fill.SHAFT:
        to = fill_to if fill_to is not None else high
        known = way.si("fill_from") is not None and fill_to is not None
        yield Area(filling, box(reach[0], low, reach[1], to), known)


def _hatch_ring(way: _Way) -> tuple[Point, ...] | None:
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


def _hatch(way: _Way) -> Iterator[Area]:
    ring = _hatch_ring(way)
    if ring is not None:
        yield Area(Fill.OPENING, ring)


def _swing(way: _Way) -> Iterator[Arrow]:
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


def _hatch_calls(view: View, way: _Way) -> Iterator[Call]:
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


def _looks(way: _Way) -> str:
    return say("way.looks_like", looks=way.words("looks_like"))


def _leaves(view: View, way: _Way) -> Iterator[str]:
    """Yield how each leaf that is said to be in it hangs and is let go."""
    for door in view.built.of_kind("door"):
        if way.thing.tag in door.tags("in"):
            yield say(
                "way.leaf",
                tag=door.tag,
                swing=door.words("swing"),
                release=door.words("release_from_inside"),
            )


def _shaft_calls(view: View, way: _Way) -> Iterator[Call]:
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
    words = (_size(way), say("way.fill", fill=way.words("fill")), *last)
    if reach is None:
        spot = (way.inside_m if way.wall_m is None else way.wall_m, top_m(way.frame))
        yield Call(spot, say("way.shaft_not_placed", title=_title(way)), words)
        return
    low = way.frame.origin[2] if bottom is None else bottom
    high = next((each for each in (top, way.si("fill_to")) if each is not None), low + 1.0)
    yield Call((reach[1] - (reach[1] - reach[0]) / 4, (low + high) / 2), _title(way), words)


def _figure(view: View, way: _Way) -> tuple[float, float] | None:
    """How far damp sand would run out, and how high it would stand, as the sum works it."""
    for worked in of_sand(view):
        if worked.name == "heap" and worked.about == way.thing.tag and worked.figures:
            damp = (f for f in worked.figures if f.name.startswith("damp") and f.of)
            out, high = (float(figure.value) for figure in damp)
            return out, high
    return None


def _heap_ring(view: View, way: _Way) -> tuple[Point, ...] | None:
    found = _figure(view, way)
    if found is None or way.wall_m is None:
        return None
    out, high = found
    floor = way.frame.walking_floor_m
    toe = way.wall_m - out if way.wall_m else out
    return ((way.wall_m, floor), (way.wall_m, floor + high), (toe, floor))


def _heap(view: View, way: _Way) -> Iterator[Area]:
    ring = _heap_ring(view, way)
    if ring is not None:
        yield Area(Fill.HEAP, ring)


def _heap_calls(view: View, way: _Way) -> Iterator[Call]:
    """Yield where the fill would lie; and what is to be kept clear, as it was written."""
    ring = _heap_ring(view, way)
    clear = say("way.keep_clear", clear=way.words("keep_clear"))
    if ring is not None:
        out = abs(ring[0][0] - ring[2][0])
        high = ring[1][1] - ring[0][1]
        worked = say("way.heap_size", out=length(out), high=length(high))
        spot = ((ring[0][0] * 2 + ring[2][0]) / 3, ring[0][1] + high / 4)
        yield Call(spot, say("way.heap"), (worked, clear))
    elif _filling(way) is not Fill.SHAFT:
        wall = way.inside_m / 2 if way.wall_m is None else way.wall_m
        inner = wall - 0.3 if wall else wall + 0.3
        yield Call((inner, way.frame.walking_floor_m), say("way.heap_not_worked"), (clear,))


def _levels(way: _Way) -> Iterator[LevelMark]:
    ground = ground_m(way.hull)
    if ground is not None:
        yield LevelMark(ground, Mark.GROUND, (f"{ground:.3f}", say("way.ground")))
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
        yield LevelMark(level, Mark.PLAIN, (f"{level:.3f}", *names, *down))


def _across(way: _Way) -> Iterator[Width]:
    if way.reach is not None:
        name = SECTION[0] if way.lengthwise else SECTION[1]
        yield Width(*way.reach, say("way.shaft_wide", width=way.words(name)))


def _plan_hatch(way: _Way, areas: list[Area]) -> Iterator[Call]:
    """Yield the hatch on the plan, and put it among the areas."""
    left, width = way.si("hatch_from_left"), way.si("hatch_width")
    if way.wall_m is None or not way.lengthwise or left is None or width is None:
        return
    out = way.frame.plate_m if way.wall_m else -way.frame.plate_m
    middle = way.wall_m + out / 2
    ring = box(middle - HATCH_M, -left - width, middle + HATCH_M, -left)
    areas.append(Area(Fill.OPENING, ring))
    words = (
        say("way.from_left", left=way.words("hatch_from_left")),
        say("way.hatch_wide", width=way.words("hatch_width")),
        say("way.opens", opens=way.words("opens")),
    )
    yield Call((middle, -left - width / 4), say("way.hatch"), words)


def _notes(view: View, way: _Way) -> Iterator[str]:
    gaps = [
        say(f"way.lacks.{name}")
        for name, held in (
            ("place", way.middle_m),
            ("size", way.reach),
            ("top", way.si("top_below_grade")),
            ("ground", ground_m(way.hull)),
            ("sill", way.si("hatch_sill")),
        )
        if held is None
    ]
    if gaps:
        yield say("way.gaps", gaps=", ".join(gaps))
    if _filling(way) is not Fill.SHAFT:
        yield say("way.warning")
    drills = [p.tag for p in view.built.of_kind("procedure") if _touches(p, way.thing.tag)]
    yield say("way.drills", drills=", ".join(drills)) if drills else say("way.no_drill")
    if view.reader == OWNER:
        yield _tools(view, way)
    yield say("cut.not_drawn")
    yield from further_words(view)


def _touches(procedure: Thing, tag: str) -> bool:
    return any(tag in step.tags("touches") for step in procedure.parts)


def _tools(view: View, way: _Way) -> str:
    """What of the stores might open it; no entry says that it is kept for that."""
    found = [
        say("way.tool", what=row.words("what"), count=row.words("count"), store=store.tag)
        for store in view.built.of_kind("store")
        for row in store.parts
        if TOOLS.search(row.text("what") or "") and row.count("count") != 0
    ]
    return say("way.tools", tools="; ".join(found)) if found else say("way.no_tools")
