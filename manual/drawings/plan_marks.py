"""The lines and marks of a site plan, and the frame that puts them on paper."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from manual.drawings import scale, shapes, svg
from manual.drawings.ink import Ink, written
from manual.drawings.plan import Place, SitePlan
from manual.drawings.svg import Pen, Point

HULL_ANGLE, HULL_PITCH = 45.0, 3.0
HULL_PEN = Pen(0.15, svg.GREY)
FOOT_M = 0.3048  # by definition (NIST Handbook 44, Appendix C)
TIE = Pen(0.2, svg.BLACK, "1 0.8")
ROUTES = (
    Pen(0.7),
    Pen(0.7, svg.BLACK, "3 1.2"),
    Pen(0.7, svg.BLACK, "5 1 0.8 1"),
    Pen(0.7, svg.BLACK, "0.9 0.9"),
    Pen(0.35),
    Pen(0.35, svg.BLACK, "5 1.5"),
)


@dataclass(frozen=True, slots=True)
class Ground:
    """From the site grid to millimetres on paper, north up."""

    west_m: float
    south_m: float
    scale: int
    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float

    def at(self, place: Place) -> Point:
        x, y = place
        return (
            self.left_mm + (x - self.west_m) * 1000 / self.scale,
            self.bottom_mm - (y - self.south_m) * 1000 / self.scale,
        )


def places(plan: SitePlan) -> list[Place]:
    """Every place on the plan."""
    return [
        *(p for outline in plan.outlines for p in outline.points_m),
        *((spot.x_m, spot.y_m) for spot in (*plan.landmarks, *plan.spots)),
        *(p for route in plan.routes for p in route.points_m),
        *(p for tie in plan.ties for p in (tie.from_m, tie.to_m)),
    ]


def ground(plan: SitePlan, *, left_mm: float, top_mm: float, room: Point, rim_mm: float) -> Ground:
    """The largest round scale at which everything fits, with a rim for labels around it."""
    held = places(plan) or [(0.0, 0.0)]
    west, south, east, north = shapes.box_of(held)
    wide, high = max(east - west, 1.0), max(north - south, 1.0)
    n = max(
        scale.round_scale(wide, room[0] - 2 * rim_mm),
        scale.round_scale(high, room[1] - 2 * rim_mm),
    )
    height = high * 1000 / n + 2 * rim_mm
    spare = (room[0] - wide * 1000 / n) / 2
    return Ground(
        west - spare * n / 1000,
        south - rim_mm * n / 1000,
        n,
        left_mm,
        top_mm + height,
        room[0],
        height,
    )


def segments(plan: SitePlan, held: Ground) -> list[tuple[Point, Point]]:
    """Every straight line that is drawn, so that labels may keep off them."""
    paths = [
        *((*outline.points_m, *outline.points_m[:1]) for outline in plan.outlines),
        *(route.points_m for route in plan.routes),
        *((tie.from_m, tie.to_m) for tie in plan.ties),
    ]
    return [(held.at(a), held.at(b)) for path in paths for a, b in itertools.pairwise(path)]


def plan_marks(plan: SitePlan, held: Ground) -> tuple[str, ...]:
    """Outlines beneath, then ties, runs and spots."""
    return (
        *(m for outline in plan.outlines for m in _outline([held.at(p) for p in outline.points_m])),
        *(svg.line([held.at(tie.from_m), held.at(tie.to_m)], TIE) for tie in plan.ties),
        *(
            mark
            for index, route in enumerate(plan.routes)
            for mark in _route([held.at(p) for p in route.points_m], ROUTES[index % len(ROUTES)])
        ),
        *(triangle(*held.at((spot.x_m, spot.y_m))) for spot in plan.landmarks),
        *(svg.dot(*held.at((spot.x_m, spot.y_m)), 0.9, fill=svg.PAPER) for spot in plan.spots),
    )


def triangle(x: float, y: float) -> str:
    """The mark of a landmark, its middle on the spot."""
    ring = [(x, y - 1.6), (x + 1.4, y + 0.8), (x - 1.4, y + 0.8)]
    return svg.outline(ring, svg.PLAIN, fill=svg.BLACK)


def north_arrow(plan: SitePlan, x: float, y: float) -> Ink:
    """An arrow about 9 mm long whose middle is at a place, with an N beside it."""
    turn = math.radians(plan.north_deg)

    def turned(right: float, up: float) -> Point:
        return (
            x + right * math.cos(turn) + up * math.sin(turn),
            y + right * math.sin(turn) - up * math.cos(turn),
        )

    head = [turned(0, 4.5), turned(1.5, 0.5), turned(0, 1.3), turned(-1.5, 0.5)]
    marks = (
        svg.line([turned(0, -4.5), turned(0, 1.5)], svg.EDGE),
        svg.outline(head, svg.PLAIN, fill=svg.BLACK),
    )
    return Ink(marks, (written("N", x - 6.0, y - 1.75, anchor="end", bold=True),))


def scale_bar(held: Ground, x: float, y: float, *, most_mm: float) -> Ink:
    """A bar of up to four equal parts, each a round number of metres."""
    step = scale.step(most_mm * held.scale / 1000, 4)
    part = step * 1000 / held.scale
    count = min(4, int(most_mm / part + 1e-9))
    marks, labels = [], []
    for k in range(count):
        ring = shapes.box(x + k * part, y, x + (k + 1) * part, y + 1.6)
        marks.append(svg.outline(ring, svg.PLAIN, fill=svg.BLACK if k % 2 == 0 else svg.PAPER))
    for k in (0, count):
        words = "0" if k == 0 else f"{k * step:g} m ({k * step / FOOT_M:.1f} ft)"
        labels.append(written(words, x + k * part, y + 2.0, anchor="start" if k == 0 else "middle"))
    return Ink(tuple(marks), tuple(labels))


def _outline(points: list[Point]) -> Iterator[str]:
    if points:
        yield svg.stroke(
            shapes.hatch(tuple(points), angle_deg=HULL_ANGLE, pitch=HULL_PITCH), HULL_PEN
        )
        yield svg.outline(points, svg.EDGE)


def _route(points: list[Point], pen: Pen) -> Iterator[str]:
    yield svg.line(points, pen)
    for point in points:
        yield svg.dot(*point, 0.6)
