"""What of each shape lies behind a panel that follows the curve of a round hull.

The panel is unrolled: u along the hull, v the length along the inside of the shell, d toward the
shell and through it. A line is bent by that, so outlines here are never smaller than true and may
be somewhat larger: a bar is covered with balls ``STEP_M`` apart, a box is held in the ring piece
that its corners reach. Nothing is called certain.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.place.frames import TURNS, FaceFrame, HullFrame, Vector
from record.place.outlines import Outline, Rectangle, Span, round_all, span_of
from record.place.solids import Arc, Block, Capsule, Shape

STEP_M = 0.02
Piece = tuple[Span, Span, Span]  # along the hull, angle, off the axis


@dataclass(frozen=True, slots=True)
class _Seen:
    rectangle: Rectangle
    depth: Span


def unrolled(
    shape: Shape,
    frame: FaceFrame,
    reach_m: float,
    hulls: Mapping[str, HullFrame],
    doubt: tuple[float, float],
) -> Outline | None:
    """Return what of a shape may lie within ``reach_m`` of a curved panel; ``doubt`` across, up."""
    across, up = doubt
    # Toward a slanting part of the shell a place may be off across and up at once.
    most = math.hypot(across, up) + (shape.strays.most_m if shape.strays else 0.0)
    pairs: list[tuple[_Seen, _Seen]] = []
    for plain, grown in _pieces(shape, frame, reach_m, hulls, (across, up, most)):
        for turn in (-math.tau, 0.0, math.tau):
            reaching = _seen(_turned(grown, turn), frame)
            if _meets(reaching, frame, reach_m):
                pairs.append((_seen(_turned(plain, turn), frame), reaching))
    if not pairs:
        return None
    # As on a flat panel, what goes on beyond the space is cut a tolerance beyond its edges.
    recorded = _cut(round_all([p.rectangle for p, _ in pairs]), frame, most)
    reaches = _cut(round_all([g.rectangle for _, g in pairs]), frame, 2 * most + STEP_M)
    return Outline(
        recorded=recorded,
        may_reach=reaches,
        certain=None,
        axis=None,
        depth=_deep([p.depth for p, _ in pairs], reach_m + most),
        depth_may_reach=_deep([g.depth for _, g in pairs], reach_m + 2 * most),
        tolerance_m=(across, most, most),
    )


def _pieces(
    shape: Shape,
    frame: FaceFrame,
    reach_m: float,
    hulls: Mapping[str, HullFrame],
    doubt: Vector,
) -> Iterator[tuple[Piece, Piece]]:
    """Yield pieces of a shape that together hold it, as recorded and grown by its tolerance."""
    across, up, most = doubt
    form = shape.form
    if isinstance(form, Arc) and shape.hull == frame.hull.tag:
        yield _of_arc(form, frame, 0.0, 0.0), _of_arc(form, frame, across, most)
        return
    if isinstance(form, Capsule) and form.rises_m == 0:
        start, end = (_in(p, shape.hull, frame, hulls) for p in (form.start, form.end))
        for middle, half in _balls(start, end, frame, reach_m + form.radius_m + most + STEP_M):
            size = form.radius_m + half
            yield _of_ball(middle, size, frame), _of_ball(middle, size + most, frame)
        return
    corners = [_in(corner, shape.hull, frame, hulls) for corner in _corners(form)]
    low = tuple(min(corner[i] for corner in corners) for i in range(3))
    high = tuple(max(corner[i] for corner in corners) for i in range(3))
    stray = most - math.hypot(across, up)
    by = (across + stray, across + stray, up + stray)
    yield (
        _of_box((low[0], low[1], low[2]), (high[0], high[1], high[2]), frame),
        _of_box(
            (low[0] - by[0], low[1] - by[1], low[2] - by[2]),
            (high[0] + by[0], high[1] + by[1], high[2] + by[2]),
            frame,
        ),
    )


def held(form: Capsule | Block) -> tuple[Vector, Vector]:
    """Return the box that holds a solid, in the solid's own frame, by two opposite corners."""
    if isinstance(form, Block):
        return form.low, form.high
    ends, r = (form.start, form.end), form.radius_m
    low = (min(p[0] for p in ends) - r, min(p[1] for p in ends) - r, min(p[2] for p in ends) - r)
    high = (
        max(p[0] for p in ends) + r,
        max(p[1] for p in ends) + r,
        max(p[2] for p in ends) + r + form.rises_m,
    )
    return low, high


def _corners(form: Capsule | Block) -> list[Vector]:
    (x0, y0, z0), (x1, y1, z1) = held(form)
    return list(itertools.product((x0, x1), (y0, y1), (z0, z1)))


def _in(point: Vector, hull: str, frame: FaceFrame, hulls: Mapping[str, HullFrame]) -> Vector:
    if hull == frame.hull.tag:
        return point
    return frame.hull.to_hull(hulls[hull].to_site(*point) if hull else point)


def _balls(
    start: Vector, end: Vector, frame: FaceFrame, beyond_m: float
) -> Iterator[tuple[Vector, float]]:
    """Yield middles along the part of a line near the panel, and half their distance."""
    right = frame.axes()[0][0]
    edges = sorted((frame.origin[0], frame.origin[0] + right * frame.width_m))
    low = (edges[0] - beyond_m, -beyond_m, -beyond_m)
    wide = frame.hull.width_m + beyond_m
    cut = clip((start, end), low, (edges[1] + beyond_m, wide, wide))
    if cut is None:
        return
    one, other = cut
    count = max(1, math.ceil(math.dist(one, other) / STEP_M))
    half = math.dist(one, other) / count / 2
    for k in range(count):
        t = (k + 0.5) / count
        yield tuple(a + t * (b - a) for a, b in zip(one, other, strict=True)), half  # type: ignore[misc]


def _of_ball(middle: Vector, size: float, frame: FaceFrame) -> Piece:
    across, up = _about_axis(middle[1], middle[2], frame)
    off, angle = math.hypot(across, up), math.atan2(up, across)
    wide = math.asin(size / off) if off > size else math.pi
    return (
        (middle[0] - size, middle[0] + size),
        _near(frame, angle, -wide, wide),
        (max(0.0, off - size), off + size),
    )


def _of_box(low: Vector, high: Vector, frame: FaceFrame) -> Piece:
    corners = [_about_axis(l, h, frame) for l in (low[1], high[1]) for h in (low[2], high[2])]  # noqa: E741
    far = max(math.hypot(*corner) for corner in corners)
    xs, ys = sorted({c[0] for c in corners}), sorted({c[1] for c in corners})
    out = (max(xs[0], -xs[-1], 0.0), max(ys[0], -ys[-1], 0.0))
    if out == (0.0, 0.0):
        return (low[0], high[0]), _near(frame, 0.0, -math.pi, math.pi), (0.0, far)
    angle = math.atan2((ys[0] + ys[-1]) / 2, (xs[0] + xs[-1]) / 2)
    turns = [math.remainder(math.atan2(y, x) - angle, math.tau) for x, y in corners]
    span = _near(frame, angle, min(turns), max(turns))
    return (low[0], high[0]), span, (math.hypot(*out), far)


def _of_arc(form: Arc, frame: FaceFrame, across: float, by: float) -> Piece:
    inner, outer = form.off_axis_m
    turn = by / inner
    angles = [_same_way(form.face, frame.face, angle) for angle in form.angles]
    low, high = sorted(angles)
    return (
        (form.low[0] - across, form.high[0] + across),
        (low - turn, high + turn),
        (inner - by, outer + by),
    )


def _same_way(of: str, face: str, angle: float) -> float:
    """Return an angle of one face as it is counted on another."""
    (left, up), (to_left, to_up) = TURNS[of], TURNS[face]
    if left != to_left:
        angle = math.pi - angle
    return angle if up == to_up else -angle


def _about_axis(l: float, h: float, frame: FaceFrame) -> tuple[float, float]:  # noqa: E741
    left, up = TURNS[frame.face]
    return left * (l - frame.hull.radius_m), up * (h - frame.hull.radius_m)


def _near(frame: FaceFrame, angle: float, low: float, high: float) -> Span:
    """Return a span of angles round one, on the turn nearest the middle of the panel."""
    middle = (frame.arc or 0.0) + frame.height_m / (2 * frame.hull.radius_m)
    at = middle + math.remainder(angle - middle, math.tau)
    return at + low, at + high


def _turned(piece: Piece, by: float) -> Piece:
    along, (low, high), off = piece
    return along, (low + by, high + by), off


def _seen(piece: Piece, frame: FaceFrame) -> _Seen:
    along, angles, off = piece
    radius, lining = frame.hull.radius_m, frame.lining_m or 0.0
    us = sorted((a - frame.origin[0]) * frame.axes()[0][0] for a in along)
    vs = [radius * (angle - (frame.arc or 0.0)) for angle in angles]
    return _Seen((us[0], vs[0], us[1], vs[1]), (off[0] - radius + lining, off[1] - radius + lining))


def _meets(seen: _Seen, frame: FaceFrame, reach_m: float) -> bool:
    u0, v0, u1, v1 = seen.rectangle
    return (
        u0 <= frame.width_m
        and u1 >= 0
        and v0 <= frame.height_m
        and v1 >= 0
        and seen.depth[0] <= reach_m
        and seen.depth[1] >= -frame.front_m
    )


def _cut(of: Rectangle, frame: FaceFrame, by: float) -> Rectangle:
    """Cut a rectangle a little beyond the panel, unless it lies wholly beyond."""
    u0, v0, u1, v1 = of
    wide, high = frame.width_m + by, frame.height_m + by
    return (
        min(max(u0, -by), u1),
        min(max(v0, -by), v1),
        max(min(u1, wide), u0),
        max(min(v1, high), v0),
    )


def _deep(spans: Sequence[Span], most: float) -> Span:
    low, high = span_of(spans)
    return max(0.0, low), max(0.0, min(high, most))


def clip(ends: tuple[Vector, Vector], low: Vector, high: Vector) -> tuple[Vector, Vector] | None:
    """Return the part of a line within a box (Liang and Barsky), or None."""
    start, end = ends
    enter, leave = 0.0, 1.0
    for i in range(3):
        step = end[i] - start[i]
        if step == 0:
            if not low[i] <= start[i] <= high[i]:
                return None
            continue
        near, far = sorted(((low[i] - start[i]) / step, (high[i] - start[i]) / step))
        enter, leave = max(enter, near), min(leave, far)
        if enter > leave:
            return None
    at = [tuple(start[i] + t * (end[i] - start[i]) for i in range(3)) for t in (enter, leave)]
    return (at[0][0], at[0][1], at[0][2]), (at[1][0], at[1][1], at[1][2])
