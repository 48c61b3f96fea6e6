"""The profile of a long section: ground, pipe, frost line, ponds, on a frame of levels."""

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from manual.drawings import scale, shapes, svg
from manual.drawings.ink import Ink, written
from manual.drawings.section import (
    Fall,
    LongSection,
    Sag,
    Station,
    in_order,
    level_at,
    metres,
)
from manual.drawings.svg import Pen, Point
from manual.languages import say

LEFT_MM = 26.0  # of the frame, and of the band beneath
RIGHT_MM = 168.0
INSET_MM = 6.0  # so that the columns of the first and last station fit under them
GROUND = svg.HEAVY
FROST = svg.DASH_DOT
PIPE = svg.EDGE
NOT_MEASURED = Pen(0.4, svg.BLACK, "1.6 1.1")


@dataclass(frozen=True, slots=True)
class Frame:
    """From chainages and levels to millimetres on paper."""

    start_m: float
    datum_m: float
    top_m: float
    length_scale: int  # 1:n
    times: int
    base_mm: float  # where the datum is drawn
    end_m: float

    @property
    def height_mm(self) -> float:
        return (self.top_m - self.datum_m) * 1000 / self.length_scale * self.times

    @property
    def right_mm(self) -> float:
        return self.x(self.end_m) + INSET_MM

    def x(self, chainage_m: float) -> float:
        return LEFT_MM + INSET_MM + (chainage_m - self.start_m) * 1000 / self.length_scale

    def y(self, level_m: float) -> float:
        up = (level_m - self.datum_m) * 1000 / self.length_scale * self.times
        return self.base_mm - up

    def at(self, chainage_m: float, level_m: float) -> Point:
        return (self.x(chainage_m), self.y(level_m))


def frame(section: LongSection, *, room_mm: float) -> Frame:
    """Round scales at which everything fits; the datum is a round level below the pipe."""
    chainages = list(_chainages(section)) or [0.0]
    start, end = min(chainages), max(chainages)
    span = max(end - start, 0.5)
    levels = list(_levels(section)) or [0.0, 1.0]
    low, high = min(levels), max(levels)
    step = scale.step(max(high - low, 0.2), 4)
    datum = math.floor(low / step - 0.25) * step
    top = max(high + 0.05 * (high - datum), datum + 0.5)
    denominator = max(
        scale.round_scale(span, RIGHT_MM - LEFT_MM - 2 * INSET_MM),
        scale.round_scale(top - datum, room_mm),
    )
    times = scale.exaggeration(top - datum, denominator, room_mm)
    return Frame(start, datum, top, denominator, times, 0.0, end)


def profile(section: LongSection, held: Frame) -> Ink:
    """All that is drawn inside the frame, save the flags."""
    stations = in_order(section)
    marks = (
        *_inside(section, held),
        *_grid(held),
        *_ground(stations, section.frost_depth_m, held),
        *(mark for fall in section.falls if fall.wrong_way for mark in _wrong(section, fall, held)),
        *(mark for sag in section.sags for mark in _pond(section, sag, held)),
        *_pipe(stations, held),
        *(mark for station in stations for mark in _spot(station, held)),
    )
    return Ink(marks, ()) + _axis(held)


def runs_of(
    stations: Sequence[Station], level: Callable[[Station], float | None]
) -> list[list[Station]]:
    """Unbroken stretches of stations at which a level is recorded."""
    stretches: list[list[Station]] = [[]]
    for station in stations:
        if level(station) is None:
            stretches.append([])
        else:
            stretches[-1].append(station)
    return [stretch for stretch in stretches if stretch]


def _chainages(section: LongSection) -> Iterator[float]:
    yield from (station.chainage_m for station in section.stations)
    yield from (end for fall in section.falls for end in (fall.from_m, fall.to_m))
    yield from (end for sag in section.sags for end in (sag.from_m, sag.to_m))
    yield from (low.chainage_m for low in section.low_points)
    yield from (fitting.chainage_m for fitting in section.fittings)
    if section.inside_from_m is not None and section.inside_to_m is not None:
        yield from (section.inside_from_m, section.inside_to_m)


def _levels(section: LongSection) -> Iterator[float]:
    for station in section.stations:
        for level in (station.invert_m, station.crown_m, station.ground_m):
            if level is not None:
                yield level
        if station.ground_m is not None and section.frost_depth_m is not None:
            yield station.ground_m - section.frost_depth_m
    yield from (each.level_m for each in section.fittings if each.level_m is not None)
    yield from (sag.pond_level_m for sag in section.sags if sag.pond_level_m is not None)


def _grid(held: Frame) -> Iterator[str]:
    for level in _ticks(held)[1:]:
        yield svg.line([(LEFT_MM, held.y(level)), (held.right_mm, held.y(level))], svg.GRID)
    top = held.base_mm - held.height_mm
    yield svg.line([(LEFT_MM, top), (LEFT_MM, held.base_mm)], svg.PLAIN)
    yield svg.line([(LEFT_MM, held.base_mm), (held.right_mm, held.base_mm)], svg.EDGE)


def _ticks(held: Frame) -> list[float]:
    most = max(1, min(10, int(held.height_mm / 6)))
    step = scale.step(held.top_m - held.datum_m, most)
    first = math.ceil(held.datum_m / step - 1e-9)
    last = math.floor(held.top_m / step + 1e-9)
    # The datum itself is written by the table's head, so a tick too near to it is left out.
    clear = [k * step for k in range(first, last + 1) if held.base_mm - held.y(k * step) > 5.0]
    return [held.datum_m, *clear]


def _axis(held: Frame) -> Ink:
    marks, labels = [], []
    for level in _ticks(held):
        y = held.y(level)
        marks.append(svg.line([(LEFT_MM - 1.2, y), (LEFT_MM, y)], svg.PLAIN))
        words = (
            say("section.datum", level=metres(level, places=2))
            if level == held.datum_m
            else metres(level, places=2)
        )
        labels.append(written(words, LEFT_MM - 1.8, y - 1.75, anchor="end"))
    return Ink(tuple(marks), tuple(labels))


def _ground(stations: Sequence[Station], frost_m: float | None, held: Frame) -> Iterator[str]:
    for stretch in runs_of(stations, lambda station: station.ground_m):
        levels = [(s.chainage_m, s.ground_m) for s in stretch if s.ground_m is not None]
        points = [held.at(chainage, level) for chainage, level in levels]
        yield svg.line(_seen(points), GROUND)
        yield svg.stroke(_earth(points), svg.FINE)
        if frost_m is not None:
            yield svg.line(_seen([held.at(c, level - frost_m) for c, level in levels]), FROST)


def _seen(points: Sequence[Point]) -> Sequence[Point]:
    """A level known at one station alone is drawn as a short tick."""
    if len(points) != 1:
        return points
    ((x, y),) = points
    return [(x - 2.5, y), (x + 2.5, y)]


def _earth(points: Sequence[Point]) -> str:
    """Short slanted strokes beneath the ground line, every 6 mm or so along the paper."""
    strokes = []
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        count = int((x1 - x0) / 6.0)
        for k in range(count):
            share = (k + 0.5) / count
            x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
            strokes += [svg.track([(x + d, y), (x + d - 1.2, y + 1.5)]) for d in (0.0, 0.8, 1.6)]
    return "".join(strokes)


def _pipe(stations: Sequence[Station], held: Frame) -> Iterator[str]:
    levels: tuple[Callable[[Station], float | None], ...] = (
        lambda station: station.invert_m,
        lambda station: station.crown_m,
    )
    for level in levels:
        for stretch in runs_of(stations, level):
            if len(stretch) == 1 and (alone := level(stretch[0])) is not None:
                yield svg.line(_seen([held.at(stretch[0].chainage_m, alone)]), PIPE)
            for one, two in itertools.pairwise(stretch):
                low, high = level(one), level(two)
                if low is not None and high is not None:
                    pen = PIPE if one.measured and two.measured else NOT_MEASURED
                    yield svg.line(
                        [held.at(one.chainage_m, low), held.at(two.chainage_m, high)], pen
                    )


def _spot(station: Station, held: Frame) -> Iterator[str]:
    level = station.invert_m if station.invert_m is not None else station.crown_m
    if level is None:
        return
    x, y = held.at(station.chainage_m, level)
    if station.invert_m is not None and station.crown_m is not None:
        yield svg.line([(x, y), (x, held.y(station.crown_m))], svg.FINE)
    yield svg.dot(x, y, 0.75, fill=svg.BLACK if station.measured else svg.PAPER)


def _inside(section: LongSection, held: Frame) -> Iterator[str]:
    if section.inside_from_m is None or section.inside_to_m is None:
        return
    left, right = sorted((held.x(section.inside_from_m), held.x(section.inside_to_m)))
    room = shapes.box(left, held.base_mm - held.height_mm, right, held.base_mm)
    yield svg.stroke(shapes.hatch(room, angle_deg=-45, pitch=2.2), svg.FINE)
    yield svg.outline(room, svg.EDGE)


def along(section: LongSection, from_m: float, to_m: float) -> list[float]:
    """The ends of a length, and the stations between them."""
    low, high = sorted((from_m, to_m))
    between = [s.chainage_m for s in in_order(section) if low < s.chainage_m < high]
    return [low, *between, high]


def _wrong(section: LongSection, fall: Fall, held: Frame) -> Iterator[str]:
    places = along(section, fall.from_m, fall.to_m)
    low = [(c, level_at(section, c, "invert_m")) for c in places]
    high = [(c, level_at(section, c, "crown_m")) for c in places]
    floor = [held.at(c, level) for c, level in low if level is not None]
    roof = [held.at(c, level) for c, level in high if level is not None]
    if len(roof) < len(floor):
        roof = [(x, y - 3.0) for x, y in floor]
    ring = (*floor, *reversed(roof))
    for angle in (45.0, -45.0):
        yield svg.stroke(shapes.hatch(ring, angle_deg=angle, pitch=1.1), svg.PLAIN)


def _pond(section: LongSection, sag: Sag, held: Frame) -> Iterator[str]:
    floor = [
        (c, level)
        for c in along(section, sag.from_m, sag.to_m)
        if (level := level_at(section, c, "invert_m")) is not None
    ]
    if not floor:
        return
    pond = sag.pond_level_m if sag.pond_level_m is not None else -math.inf
    bed = [held.at(c, level) for c, level in floor]
    # A pond thinner than a pen line, or seen where no level was taken, still shows.
    top = [
        (x, min(y - 1.4, held.y(max(level, pond))))
        for (x, y), (_, level) in zip(bed, floor, strict=True)
    ]
    ring = (*bed, *reversed(top))
    yield svg.stroke(shapes.hatch(ring, angle_deg=0, pitch=0.5), svg.PLAIN)
    yield svg.line(top, svg.EDGE)
