"""A small plan for an emergency page: rooms, ways out, and numbers where hands must go."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from manual.drawings import svg
from manual.drawings.ink import Box, Drawing, Ink, finished, gather, paragraph, written
from manual.drawings.near import Wanted, place_near
from manual.drawings.shapes import box_of, encloses
from manual.drawings.svg import Point
from manual.languages import say

LETTER_MM = 3.4  # 9.6 pt: no smaller by torchlight
_EDGE_MM = 1.5
_RIM_MM = 7.0  # round the rooms, for arrows and their words
_DOT_MM = 2.5
_ARROW_MM = 6.0


def way_out() -> str:
    return say("floor.out")


@dataclass(frozen=True, slots=True)
class Room:
    """One room's outline in site metres, and what it is called."""

    name: str
    points_m: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Gap:
    """
    A door, hatch or passage in a wall: its two jambs in site metres.

    ``out`` is the word at its arrow, where it leads outside; empty where it leads to a room.
    """

    name: str
    start_m: Point
    end_m: Point
    away_m: Point  # a point just beyond it
    out: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A numbered thing to be touched, in site metres."""

    number: int
    words: str
    at_m: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorMap:
    """Everything of one small plan; it is turned by ``turn_deg`` so that it lies along the page."""

    rooms: tuple[Room, ...]
    gaps: tuple[Gap, ...]
    marks: tuple[Mark, ...]
    turn_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class _Paper:
    turn: float
    left: float
    top: float
    scale: float  # mm a metre

    def at(self, spot: Point) -> Point:
        x, y = _turned(spot, self.turn)
        return (_EDGE_MM + _RIM_MM + (x - self.left) * self.scale, (self.top - y) * self.scale)


def floor_map(
    plan: FloorMap,
    *,
    title: str | None = None,
    width_mm: float = 66.0,
    most_high_mm: float = 62.0,
) -> Drawing:
    """Draw the plan; what finds no room on it is said beneath it."""
    paper, high = _paper(plan, width_mm, most_high_mm)
    spots = _apart([paper.at(mark.at_m) for mark in plan.marks])
    numbers = gather(_number(m, spot) for m, spot in zip(plan.marks, spots, strict=True))
    taken = [Box(x - _DOT_MM, y - _DOT_MM, 2 * _DOT_MM, 2 * _DOT_MM, "") for x, y in spots]
    names, left = place_near(
        list(_wanted(plan, paper)),
        window=(0.0, 0.0, width_mm, high),
        taken=[*taken, *_heads(plan, paper)],
        lines=_walls(plan, paper),
    )
    said = [each.words for each in left]
    foot, bottom = paragraph(
        [say("floor.seen_from_above_do"), *said],
        0.5,
        high + 0.5,
        width_mm=width_mm - 1.0,
        size_mm=3.0,
    )
    ink = gather((Ink(tuple(_marks(plan, paper))), names, numbers, foot))
    return finished(
        ink,
        title=title or say("floor.where_it_is"),
        alt=map_words(plan),
        width_mm=width_mm,
        height_mm=bottom + 0.5,
    )


def map_words(plan: FloorMap) -> str:
    """The same in words, for whoever cannot see the plan."""
    said = [
        say("floor.plan_from_above_rooms", name=", ".join(r.name for r in plan.rooms if r.name))
    ]
    out = [f"{gap.name} ({gap.out})" for gap in plan.gaps if gap.out]
    said += [say("floor.ways_out", out=", ".join(out))] if out else [say("floor.no_way_out_is")]
    said += [f"{mark.number}: {mark.words}." for mark in plan.marks]
    return " ".join(said)


def _turned(spot: Point, turn: float) -> Point:
    c, s = math.cos(turn), math.sin(turn)
    return (c * spot[0] - s * spot[1], s * spot[0] + c * spot[1])


def _paper(plan: FloorMap, width: float, high: float) -> tuple[_Paper, float]:
    turn = math.radians(plan.turn_deg)
    spots = [_turned(p, turn) for room in plan.rooms for p in room.points_m]
    spots += [_turned(mark.at_m, turn) for mark in plan.marks]
    spots = spots or [(0.0, 0.0)]
    left, low, right, top = box_of(spots)
    room = (width - 2 * (_EDGE_MM + _RIM_MM), high - 2 * _RIM_MM)
    scale = min(room[0] / max(right - left, 1.0), room[1] / max(top - low, 1.0))
    spare = (room[0] - (right - left) * scale) / 2
    paper = _Paper(turn, left - spare / scale, top + _RIM_MM / scale, scale)
    return paper, (top - low) * scale + 2 * _RIM_MM


def _apart(spots: list[Point]) -> list[Point]:
    """Numbers side by side where things stand together: each moves right until it is free."""
    placed: list[Point] = []
    for x, y in spots:
        tried = ((x + dx, y + dy) for dy, dx in _STEPS)
        free = (p for p in tried if all(math.dist(p, q) > 2 * _DOT_MM + 0.3 for q in placed))
        placed.append(next(free, (x, y)))
    return placed


_STEPS = sorted(
    ((dy * 1.3, dx * 1.3) for dy in range(-12, 13) for dx in range(-12, 13)),
    key=lambda d: (math.hypot(*d), d),
)


def _number(mark: Mark, spot: Point) -> Ink:
    word = written(str(mark.number), spot[0], 0.0, size_mm=LETTER_MM, anchor="middle", bold=True)
    low = Box(
        word.x_mm,
        spot[1] - word.height_mm / 2,
        word.width_mm,
        word.height_mm,
        word.text,
        LETTER_MM,
        "middle",
        True,
    )
    return Ink((svg.dot(*spot, _DOT_MM, fill=svg.PAPER),), (low,))


def _marks(plan: FloorMap, paper: _Paper) -> Iterator[str]:
    for room in plan.rooms:
        yield svg.outline([paper.at(p) for p in room.points_m], svg.HEAVY, fill=svg.PAPER)
    for gap in plan.gaps:
        yield _hole(paper.at(gap.start_m), paper.at(gap.end_m))
        if gap.out:
            yield from _arrow(gap, paper)


def _hole(start: Point, end: Point) -> str:
    """White over a wall from one jamb to the other."""
    long = math.dist(start, end) or 1.0
    sx, sy = -(end[1] - start[1]) / long * 0.8, (end[0] - start[0]) / long * 0.8
    ring = [
        (start[0] + sx, start[1] + sy),
        (end[0] + sx, end[1] + sy),
        (end[0] - sx, end[1] - sy),
        (start[0] - sx, start[1] - sy),
    ]
    return svg.element("path", d=svg.track(ring, closed=True), fill=svg.PAPER)


def _arrow(gap: Gap, paper: _Paper) -> Iterator[str]:
    """A heavy arrow that leads out through a door."""
    tail, tip, (ux, uy) = _run(gap, paper)
    side = (-uy, ux)
    yield svg.line([tail, tip], svg.Pen(1.1))
    base = (tip[0] - 1.2 * ux, tip[1] - 1.2 * uy)
    head = [
        (base[0] + 2.0 * side[0], base[1] + 2.0 * side[1]),
        (tip[0] + 2.4 * ux, tip[1] + 2.4 * uy),
        (base[0] - 2.0 * side[0], base[1] - 2.0 * side[1]),
    ]
    yield svg.outline(head, svg.EDGE, fill=svg.BLACK)


def _run(gap: Gap, paper: _Paper) -> tuple[Point, Point, Point]:
    """Where an arrow begins and ends, and its direction."""
    (x0, y0), (x1, y1) = paper.at(gap.start_m), paper.at(gap.end_m)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    away = paper.at(gap.away_m)
    long = math.dist(middle, away) or 1.0
    ux, uy = (away[0] - middle[0]) / long, (away[1] - middle[1]) / long
    tail = (middle[0] - 2.0 * ux, middle[1] - 2.0 * uy)
    return tail, (middle[0] + _ARROW_MM * 0.6 * ux, middle[1] + _ARROW_MM * 0.6 * uy), (ux, uy)


def _heads(plan: FloorMap, paper: _Paper) -> Iterator[Box]:
    for gap in plan.gaps:
        if gap.out:
            tail, tip, (ux, uy) = _run(gap, paper)
            far = (tip[0] + 2.4 * ux, tip[1] + 2.4 * uy)
            left, top, right, low = box_of([tail, far])
            yield Box(left - 2.0, top - 2.0, right - left + 4.0, low - top + 4.0, "")


def _wanted(plan: FloorMap, paper: _Paper) -> Iterator[Wanted]:
    for gap in plan.gaps:
        if gap.out:
            tail, tip, _ = _run(gap, paper)
            yield Wanted(gap.out, (tip, tail))
    for room in plan.rooms:
        if not room.name:
            continue
        ring = tuple(paper.at(p) for p in room.points_m)
        left, top, right, low = box_of(ring)
        shares = (0.5, 0.3, 0.7, 0.15, 0.85)
        inside = [
            (left + across * (right - left), top + down * (low - top))
            for down in shares
            for across in shares
        ]
        held = tuple(spot for spot in inside if encloses(ring, spot))
        yield Wanted(room.name, held or (ring[0],), bold=False)


def _walls(plan: FloorMap, paper: _Paper) -> list[tuple[Point, Point]]:
    rings = [[paper.at(p) for p in room.points_m] for room in plan.rooms]
    return [(ring[k - 1], ring[k]) for ring in rings for k in range(len(ring))]
