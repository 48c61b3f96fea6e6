"""Labels beside their spots: the first place that is free, best one that covers no line."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from manual.drawings import svg
from manual.drawings.ink import Box, Ink, moved, written
from manual.drawings.shapes import Window, cut_line
from manual.drawings.svg import Point

_CLEAR_MM = 0.6
_TURNS_DEG = (-35, 35, -145, 145, -90, 90, 0, 180)
_AWAY_MM = (1.6, 4.5, 8.0, 12.0)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A label and the spots it may name, best first; `on` is to sit on the spot itself."""

    words: str
    spots: tuple[Point, ...]
    bold: bool = True
    on: bool = False


def place_near(
    wanted: Sequence[Wanted],
    *,
    window: Window,
    taken: Sequence[Box],
    lines: Sequence[tuple[Point, Point]],
) -> tuple[Ink, tuple[Wanted, ...]]:
    """The labels that found a place, and those that did not."""
    boxes: list[Box] = []
    marks: list[str] = []
    left: list[Wanted] = []
    for each in wanted:
        found = _found(each, window, (*taken, *boxes), lines)
        if found is None:
            left.append(each)
            continue
        box, spot = found
        boxes.append(box)
        marks += _leader(box, spot)
    return Ink(tuple(marks), tuple(boxes)), tuple(left)


def _found(
    each: Wanted, window: Window, taken: Sequence[Box], lines: Sequence[tuple[Point, Point]]
) -> tuple[Box, Point] | None:
    free = [
        (box, spot)
        for box, spot in _candidates(each)
        if _within(box, window) and not any(box.overlaps(t, gap_mm=_CLEAR_MM) for t in taken)
    ]
    if not free:
        return None
    return min(free, key=lambda found: _covered(found[0], lines))


def _candidates(each: Wanted) -> Iterator[tuple[Box, Point]]:
    for away in (0.0,) if each.on else _AWAY_MM:
        for spot in each.spots:
            for turn in (0,) if each.on else _TURNS_DEG:
                yield _beside(each, spot, away, math.radians(turn)), spot


def _beside(each: Wanted, spot: Point, away: float, turn: float) -> Box:
    """A box whose nearest side or corner is so far from the spot, in that direction."""
    box = written(each.words, spot[0], spot[1], anchor="middle", bold=each.bold, backed=True)
    box = moved(box, y_mm=-box.height_mm / 2)
    if each.on:
        return box
    c, s = math.cos(turn), math.sin(turn)
    side = box.width_mm / 2 * (0 if abs(c) < 0.1 else math.copysign(1, c))
    rise = box.height_mm / 2 * (0 if abs(s) < 0.1 else math.copysign(1, s))
    return moved(box, x_mm=side + away * c, y_mm=rise + away * s)


def _within(box: Box, window: Window) -> bool:
    left, top, right, bottom = window
    return (
        box.x_mm >= left and box.right_mm <= right and box.y_mm >= top and box.bottom_mm <= bottom
    )


def _covered(box: Box, lines: Sequence[tuple[Point, Point]]) -> int:
    room = (box.x_mm - 0.5, box.y_mm - 0.5, box.right_mm + 0.5, box.bottom_mm + 0.5)
    return sum(1 for line in lines if cut_line(line, room))


def _leader(box: Box, spot: Point) -> list[str]:
    near = (
        min(max(spot[0], box.x_mm), box.right_mm),
        min(max(spot[1], box.y_mm), box.bottom_mm),
    )
    return [svg.line([near, spot], svg.FINE)] if math.dist(near, spot) > 2.5 else []
