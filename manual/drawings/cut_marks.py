"""The hatches, level lines and arrows of a cut, and the frame that puts them on paper."""

from __future__ import annotations

import math
from dataclasses import dataclass

from manual.drawings import shapes, svg
from manual.drawings.cut import Area, Break, Cut, Fill, LevelMark, Mark, Rise
from manual.drawings.shapes import Ring, Window
from manual.drawings.svg import Pen, Point

HATCH = Pen(0.15, svg.GREY)
#: Fill → (angles, pitch) of its lines; none is plain paper, and steel is black.
HATCHES: dict[Fill, tuple[tuple[float, ...], float]] = {
    Fill.LINING: ((90.0,), 0.9),
    Fill.OUTSIDE: ((0.0,), 0.8),
    Fill.EARTH: ((30.0,), 3.2),
    Fill.VOID: ((-30.0,), 4.0),
    Fill.STORE: ((45.0,), 1.8),
    Fill.PIPE: ((-45.0,), 1.2),
    Fill.RESERVED: ((45.0, -45.0), 2.4),
    Fill.UNKNOWN: ((0.0, 90.0), 2.6),
}
EDGES = {
    Fill.ROOM: svg.EDGE,
    Fill.STEEL: svg.EDGE,
    Fill.STORE: svg.EDGE,
    Fill.PIPE: svg.EDGE,
    Fill.OPENING: svg.EDGE,
    Fill.FILLING: svg.EDGE,
    Fill.SHAFT: svg.HEAVY,
    Fill.HEAP: svg.DASHED,
}
LINES = {
    Mark.PLAIN: svg.GRID,
    Mark.GROUND: svg.HEAVY,
    Mark.WATER: svg.DASH_DOT,
    Mark.LIMIT: svg.DASHED,
}


@dataclass(frozen=True, slots=True)
class Frame:
    """From metres to millimetres on paper, levels upward."""

    left_m: float
    top_m: float
    scale: int
    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float

    def x(self, u_m: float) -> float:
        return self.left_mm + (u_m - self.left_m) * 1000 / self.scale

    def y(self, level_m: float) -> float:
        return self.top_mm + (self.top_m - level_m) * 1000 / self.scale

    def at(self, spot: Point) -> Point:
        return self.x(spot[0]), self.y(spot[1])

    @property
    def window(self) -> Window:
        return (
            self.left_mm,
            self.top_mm,
            self.left_mm + self.width_mm,
            self.top_mm + self.height_mm,
        )


def extent(cut: Cut) -> Window:
    """The least and most of ``u`` and of the levels that are drawn: left, bottom, right, top."""
    spots = [
        *(p for area in cut.areas for p in area.ring_m),
        *(call.at_m for call in cut.calls),
        *((rise.u_m, level) for rise in cut.rises for level in (rise.from_m, rise.to_m)),
        *(p for arrow in cut.arrows for p in (arrow.start_m, arrow.end_m)),
    ]
    spots = spots or [(0.0, 0.0)]
    us, levels = [u for u, _ in spots], [level for _, level in spots]
    levels += [level.level_m for level in cut.levels]
    low, high = min(levels), max(levels)
    return min(us), low, max(max(us), min(us) + 0.5), max(high, low + 0.5)


def area_marks(area: Area, frame: Frame) -> list[str]:
    ring = shapes.cut(tuple(frame.at(p) for p in area.ring_m), frame.window)
    return filled(area.fill, ring, whole=area.whole)


def filled(fill: Fill, ring: Ring, *, whole: bool = True) -> list[str]:
    """A shape on paper with the hatch of its fill; what is filled hides what is beneath."""
    if not ring:
        return []
    ground = svg.BLACK if fill is Fill.STEEL else "none" if fill is Fill.RESERVED else svg.PAPER
    edge = EDGES.get(fill, svg.PLAIN) if whole else svg.DASHED
    drawn = [] if fill is Fill.EARTH and not whole else [svg.outline(ring, edge, fill=ground)]
    if fill in HATCHES:
        angles, pitch = HATCHES[fill]
        drawn += [
            svg.stroke(shapes.hatch(ring, angle_deg=each, pitch=pitch), HATCH) for each in angles
        ]
    if fill in (Fill.FILLING, Fill.HEAP):
        drawn += _grains(ring, apart=1.8 if fill is Fill.FILLING else 3.0)
    if fill is Fill.OPENING:
        (x0, y0, x1, y1) = shapes.box_of(ring)
        drawn += [
            svg.line([(x0, y0), (x1, y1)], svg.FINE),
            svg.line([(x0, y1), (x1, y0)], svg.FINE),
        ]
    return [mark for mark in drawn if 'd=""' not in mark]


def _grains(ring: Ring, *, apart: float) -> list[str]:
    """Dots in rows, in step over the whole paper, as sand is drawn."""
    left, top, right, bottom = shapes.box_of(ring)
    dots = []
    for row in range(math.ceil(top / apart), math.floor(bottom / apart) + 1):
        shift = apart / 2 if row % 2 else 0.0
        first, last = math.ceil((left - shift) / apart), math.floor((right - shift) / apart)
        for k in range(first, last + 1):
            spot = (k * apart + shift, row * apart)
            if shapes.encloses(ring, spot):
                dots.append(f"M{svg.number(spot[0])} {svg.number(spot[1])}h0.3")
    return [svg.stroke("".join(dots), Pen(0.35))] if dots else []


def level_line(level: LevelMark, frame: Frame) -> list[str]:
    left, _, right, _ = frame.window
    x0 = left if level.from_m is None else max(left, frame.x(level.from_m))
    x1 = right if level.to_m is None else min(right, frame.x(level.to_m))
    y = frame.y(level.level_m)
    drawn = [svg.line([(x0, y), (x1, y)], LINES[level.mark])]
    if level.mark is Mark.GROUND:
        count = int((x1 - x0) / 6)
        ticks = "".join(
            svg.track([(x0 + 6 * k + 3, y + 0.3), (x0 + 6 * k + 1.6, y + 1.9)])
            for k in range(count)
        )
        drawn += [svg.stroke(ticks, svg.PLAIN)] if ticks else []
    if level.mark is Mark.WATER:
        tip = [(x1 - 4.4, y - 2.2), (x1 - 1.6, y - 2.2), (x1 - 3, y)]
        drawn.append(svg.outline(tip, svg.PLAIN, fill=svg.PAPER))
    return drawn


def rise_marks(rise: Rise, frame: Frame) -> list[str]:
    (x, low), (_, high) = frame.at((rise.u_m, rise.from_m)), frame.at((rise.u_m, rise.to_m))
    return [svg.line([(x, low), (x, high)], svg.PLAIN), *_tips((x, low), (x, high))]


def break_marks(each: Break, frame: Frame) -> list[str]:
    """A wavy line on white, as what is cut off is drawn."""
    (x, low), (_, high) = frame.at((each.u_m, each.from_m)), frame.at((each.u_m, each.to_m))
    count = max(2, round(abs(low - high) / 3) * 2)
    step = (low - high) / count
    waves = [(x + (0.7 if k % 2 else -0.7), high + k * step) for k in range(count + 1)]
    gone = svg.element("rect", x=x - 0.8, y=high, width=1.6, height=low - high, fill=svg.PAPER)
    return [gone, svg.line(waves, svg.PLAIN)]


def break_sample(x: float, y: float) -> str:
    waves = [(x + 0.75 * k, y + (0.7 if k % 2 else -0.7)) for k in range(13)]
    return svg.line(waves, svg.PLAIN)


def _tips(one: Point, other: Point) -> list[str]:
    return [tip(other, one), tip(one, other)]


def tip(start: Point, end: Point, *, size: float = 1.5) -> str:
    """The head of an arrow at its end."""
    length = math.dist(start, end) or 1.0
    dx, dy = (end[0] - start[0]) / length * size, (end[1] - start[1]) / length * size
    back = (end[0] - dx, end[1] - dy)
    side = (-dy * 0.4, dx * 0.4)
    ring = [end, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])]
    return svg.outline(ring, svg.FINE, fill=svg.BLACK)
