"""A site plan: hulls, landmarks, runs and the ties to them, at a round scale, north up."""

import itertools
import math

from manual.drawings import svg
from manual.drawings.both import both
from manual.drawings.ink import Box, Drawing, Ink, finished, gather, paragraph
from manual.drawings.legend import SAMPLE_MM, Sample, hatch_of, legend, stroke_of
from manual.drawings.near import Wanted, place_near
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import Flag, Flags, flags
from manual.drawings.plan import Place, SitePlan
from manual.drawings.plan_marks import (
    HULL_ANGLE,
    HULL_PEN,
    HULL_PITCH,
    ROUTES,
    TIE,
    Ground,
    ground,
    north_arrow,
    plan_marks,
    scale_bar,
    segments,
    triangle,
)
from manual.drawings.plan_words import grid, interpolated, north, plan_words, spot_words
from manual.drawings.shapes import box_of, encloses
from manual.drawings.svg import Point
from manual.languages import say

_RIM_MM = 12.0
_STRIP_MM = 11.0  # for the scale bar and the north arrow


def site_plan(plan: SitePlan, *, most_high_mm: float = 150.0, measured: bool = True) -> Drawing:
    """
    Draw the site from above. Labels that find no room beside their spot hang under the plan.

    Unless ``measured``, spots are named and their places on the grid are not told.
    """
    room = (ROOM_MM, most_high_mm)
    n = ground(plan, left_mm=EDGE_MM, top_mm=0.0, room=room, rim_mm=_RIM_MM).scale
    head, y = _head(plan, n)
    held = ground(plan, left_mm=EDGE_MM, top_mm=y + _STRIP_MM, room=room, rim_mm=_RIM_MM)
    bar = scale_bar(held, EDGE_MM + 1.0, y + 2.5, most_mm=75.0)
    arrow = north_arrow(plan, WIDTH_MM - EDGE_MM - 5.0, y + _STRIP_MM / 2 + 0.5)
    names, hung = _names(plan, held)
    under = Ink() if not hung.sewn else hung.under(held.bottom_mm + 2.0)
    foot, y = _foot(plan, held.bottom_mm + 2.0 + hung.height_mm, measured)
    ink = gather((Ink(plan_marks(plan, held), ()), names, under, head, bar, arrow, foot))
    return finished(
        ink,
        title=say("plan.site_plan", name=plan.name),
        alt=plan_words(plan),
        width_mm=WIDTH_MM,
        height_mm=y + EDGE_MM,
    )


def _head(plan: SitePlan, n: int) -> tuple[Ink, float]:
    scaled = say("plan.scale_1", n=n, plan=north(plan))
    return headed(say("plan.site_plan", name=plan.name), scaled)


def _names(plan: SitePlan, held: Ground) -> tuple[Ink, Flags]:
    marks = [Box(x - 1.5, y - 1.7, 3.0, 2.9, "") for x, y in _spots(plan, held)]
    top = held.bottom_mm - held.height_mm
    right = held.left_mm + held.width_mm
    ink, left = place_near(
        _wanted(plan, held),
        window=(held.left_mm, top, right, held.bottom_mm),
        taken=marks,
        lines=segments(plan, held),
    )
    poles = [Flag(*each.spots[0], each.words) for each in left if each.spots]
    return ink, flags(poles, left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM)


def _spots(plan: SitePlan, held: Ground) -> list[Point]:
    return [held.at((spot.x_m, spot.y_m)) for spot in (*plan.landmarks, *plan.spots)]


def _wanted(plan: SitePlan, held: Ground) -> list[Wanted]:
    spots = (*plan.landmarks, *plan.spots)
    return [
        *(
            Wanted(o.tag, _within([held.at(p) for p in o.points_m]), on=True)
            for o in plan.outlines
            if o.points_m
        ),
        *(Wanted(spot.tag, (held.at((spot.x_m, spot.y_m)),)) for spot in spots),
        *(
            Wanted(r.tag, _along_all([held.at(p) for p in r.points_m]))
            for r in plan.routes
            if r.points_m
        ),
        *(
            Wanted(f"{t.distance_m:.3f}", _along(held, t.from_m, t.to_m), bold=False, on=True)
            for t in plan.ties
        ),
    ]


def _middle(points: list[Point]) -> Point:
    return (
        math.fsum(x for x, _ in points) / len(points),
        math.fsum(y for _, y in points) / len(points),
    )


def _within(points: list[Point]) -> tuple[Point, ...]:
    """Spots inside an outline: its middle, then toward its sides and corners."""
    left, top, right, bottom = box_of(points)
    shares = (0.5, 0.35, 0.65, 0.2, 0.8)
    spots = [
        (left + across * (right - left), top + down * (bottom - top))
        for across, down in itertools.product(shares, shares)
    ]
    return tuple(spot for spot in spots if encloses(tuple(points), spot)) or (_middle(points),)


def _along_all(points: list[Point]) -> tuple[Point, ...]:
    """Middles of a run's lengths, the longest first."""
    pairs = sorted(itertools.pairwise(points), key=lambda ab: -math.dist(*ab))
    return tuple(_middle([a, b]) for a, b in pairs) or tuple(points)


def _along(held: Ground, start: Place, end: Place) -> tuple[Point, ...]:
    (x0, y0), (x1, y1) = held.at(start), held.at(end)
    shares = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
    return tuple((x0 + s * (x1 - x0), y0 + s * (y1 - y0)) for s in shares)


def _foot(plan: SitePlan, y: float, measured: bool) -> tuple[Ink, float]:
    samples, y = legend(
        _samples(plan), left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM, top_mm=y + 1.0
    )
    spots = [
        spot_words(spot) if measured else f"{spot.tag} {spot.name}"
        for spot in (*plan.landmarks, *plan.spots)
    ]
    ties = [
        say("plan.to_m", from_tag=t.from_tag, to_words=t.to_words, distance=both(t.distance_m))
        for t in plan.ties
    ]
    said = [grid(), *((interpolated(),) if plan.routes else ())] if measured else []
    said += [f"{'; '.join(spots)}."] if spots else []
    said += [say("plan.ties", ties="; ".join(ties))] if ties else []
    words, y = paragraph([*said, *plan.notes], EDGE_MM, y + 1.0, width_mm=ROOM_MM)
    return samples + words, y


def _samples(plan: SitePlan) -> list[tuple[Sample, str]]:
    hull = hatch_of(HULL_ANGLE, pitch=HULL_PITCH, pen=HULL_PEN)
    said: list[tuple[Sample, str]] = [
        (stroke_of(ROUTES[k % len(ROUTES)]), f"{route.tag} {route.name}")
        for k, route in enumerate(plan.routes)
    ]
    if plan.outlines:
        said.append((hull, "; ".join(f"{outline.tag} {outline.name}" for outline in plan.outlines)))
    if plan.landmarks:
        said.append((lambda x, y: (triangle(x + SAMPLE_MM / 2, y),), say("plan.landmark_2")))
    if plan.spots:
        said.append(
            (
                lambda x, y: (svg.dot(x + SAMPLE_MM / 2, y, 0.9, fill=svg.PAPER),),
                say("plan.point_in_the_ground"),
            )
        )
    if plan.ties:
        said.append((stroke_of(TIE), say("plan.tie_metres")))
    return said
