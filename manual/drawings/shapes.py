"""Flat shapes as rings of points, cut to a window, and hatched with plain lines.

The hatch is drawn as lines, not as an SVG pattern: it prints alike everywhere, and needs no
name that could clash on a page with two drawings.
"""

import itertools
import math
from collections.abc import Sequence

from manual.drawings.svg import Point, track

Window = tuple[float, float, float, float]  # left, top, right, bottom
Ring = tuple[Point, ...]


def box(left: float, top: float, right: float, bottom: float) -> Ring:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def box_of(ring: Sequence[Point]) -> Window:
    """The upright box about some points."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs), min(ys), max(xs), max(ys))


def encloses(ring: Ring, spot: Point) -> bool:
    """Whether a spot is inside a shape."""
    return sum(1 for x in _crossings(ring, spot[1]) if x < spot[0]) % 2 == 1


def circle(x: float, y: float, radius: float, *, sides: int = 48) -> Ring:
    turn = 2 * math.pi / sides
    return tuple(
        (x + radius * math.cos(turn * k), y + radius * math.sin(turn * k)) for k in range(sides)
    )


def band(points: Sequence[Point], half_width: float) -> Ring:
    """The outline of a line swept with a half-width, round at both ends.

    Bends are mitred, at sharp ones no further than three half-widths.
    """
    path = _apart(points)
    if len(path) < 2:
        return circle(*path[0], half_width) if path else ()
    there = _side(path, half_width)
    back = _side(path[::-1], half_width)
    return (
        *there,
        *_cap(path[-2], path[-1], half_width),
        *back,
        *_cap(path[1], path[0], half_width),
    )


def cut(ring: Ring, window: Window) -> Ring:
    """The part of a shape inside a window (Sutherland and Hodgman, 1974)."""
    left, top, right, bottom = window
    for axis, limit, sign in ((0, left, 1), (0, right, -1), (1, top, 1), (1, bottom, -1)):
        ring = _cut_by(ring, axis, limit, sign)
    return ring


def hatch(ring: Ring, *, angle_deg: float, pitch: float) -> str:
    """Path data of parallel lines inside a shape, in step with every other hatch so drawn."""
    turn = math.radians(angle_deg)
    c, s = math.cos(turn), math.sin(turn)
    turned = [(x * c + y * s, -x * s + y * c) for x, y in ring]
    if not turned:
        return ""
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    strokes = []
    for k in range(math.ceil(low / pitch), math.floor(high / pitch) + 1):
        y = k * pitch
        across = _crossings(turned, y)
        for a, b in zip(across[::2], across[1::2], strict=False):
            if b - a > 0.05:
                strokes.append(
                    track([(a * c - y * s, a * s + y * c), (b * c - y * s, b * s + y * c)])
                )
    return "".join(strokes)


def _crossings(ring: Sequence[Point], y: float) -> list[float]:
    ends = zip(ring, [*ring[1:], ring[0]], strict=True)
    return sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for (x0, y0), (x1, y1) in ends
        if (y0 <= y) != (y1 <= y)
    )


def _cut_by(ring: Ring, axis: int, limit: float, sign: int) -> Ring:
    kept: list[Point] = []
    for k, here in enumerate(ring):
        before = ring[k - 1]
        inside, was_inside = ((p[axis] - limit) * sign >= 0 for p in (here, before))
        if inside != was_inside:
            share = (limit - before[axis]) / (here[axis] - before[axis])
            x, y = (before[i] + share * (here[i] - before[i]) for i in (0, 1))
            kept.append((limit, y) if axis == 0 else (x, limit))
        if inside:
            kept.append(here)
    return tuple(kept)


def _apart(points: Sequence[Point]) -> list[Point]:
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > 1e-6:
            kept.append(point)
    return kept


def _normal(a: Point, b: Point) -> Point:
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    return ((b[1] - a[1]) / length, -(b[0] - a[0]) / length)


def _side(path: Sequence[Point], half_width: float) -> list[Point]:
    normals = [_normal(a, b) for a, b in itertools.pairwise(path)]
    met = [normals[0], *map(_mitre, normals, normals[1:]), normals[-1]]
    return [
        (x + nx * half_width, y + ny * half_width)
        for (x, y), (nx, ny) in zip(path, met, strict=True)
    ]


def _mitre(a: Point, b: Point) -> Point:
    x, y = a[0] + b[0], a[1] + b[1]
    squared = x * x + y * y
    stretch = min(2 / squared, 3 / math.sqrt(squared)) if squared > 1e-12 else 0.0
    return (x * stretch, y * stretch)


def _cap(before: Point, end: Point, half_width: float, *, steps: int = 8) -> list[Point]:
    nx, ny = _normal(before, end)
    start = math.atan2(ny, nx)
    return [
        (
            end[0] + half_width * math.cos(start + math.pi * k / steps),
            end[1] + half_width * math.sin(start + math.pi * k / steps),
        )
        for k in range(1, steps)
    ]


def cut_line(points: Sequence[Point], window: Window) -> tuple[Point, ...]:
    """The points at which a line enters, bends inside and leaves a window (Liang and Barsky)."""
    found: list[Point] = []
    for a, b in itertools.pairwise(points):
        share = _share_inside(a, b, window)
        if share is not None:
            found += [_between(a, b, share[0]), _between(a, b, share[1])]
    return tuple(_apart(found))


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _share_inside(a: Point, b: Point, window: Window) -> tuple[float, float] | None:
    start, end = 0.0, 1.0
    for axis in (0, 1):
        step = b[axis] - a[axis]
        low, high = window[axis] - a[axis], window[axis + 2] - a[axis]
        if abs(step) < 1e-12:
            if low > 0 or high < 0:
                return None
            continue
        near, far = sorted((low / step, high / step))
        start, end = max(start, near), min(end, far)
    return (start, end) if start <= end else None
