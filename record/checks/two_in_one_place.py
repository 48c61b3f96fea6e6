"""No two things are recorded in one and the same place."""

from __future__ import annotations

import itertools
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.calc.apart import Vector, bar_in_box_m, bars_apart_m, boxes_share_m
from record.checks.finding import Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.place import HullFrame, Shape
from record.place.solids import Block, Capsule
from record.units import metres_said

SOLID = ("run", "valve", "drain", "fitting", "fit-out", "equipment", "store")
AXES = (0, 1, 2)
CORNERS = tuple(itertools.product((0, 1), repeat=3))
JUNCTION_M = 0.30  # two runs that meet this near an end of one are taken to join there


@dataclass(frozen=True, slots=True)
class Solid:
    """A shape in its own frame, and the box that holds it on the site grid; metres."""

    shape: Shape
    form: Capsule | Block
    tolerance_m: float
    low: Vector  # of what holds it on the site grid
    high: Vector


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find hidden things that share a place with another beyond what both are in doubt.

    What belongs together may touch: a valve and its run, a part and its whole, runs that join.
    A shape with a measure missing may be anywhere, and another rule asks for the measure.
    """
    hulls = hidden.view.hulls
    tags = {thing.tag for thing in hidden.everything()}
    solids = [
        _solid(shape, hulls)
        for shape in hidden.view.shapes
        if shape.thing.kind.word in SOLID and not shape.missing
    ]
    met: set[frozenset[str]] = set()
    for one, other in _near(solids, tags):
        pair = frozenset((one.shape.thing.tag, other.shape.thing.tag))
        if len(pair) < 2 or pair in met or _together(one.shape.thing, other.shape.thing):
            continue
        shared_m = shared(one, other, hulls)
        if shared_m is not None and shared_m > one.tolerance_m + other.tolerance_m:
            met.add(pair)
            yield _finding(one.shape, other.shape, shared_m)


def _near(solids: Sequence[Solid], tags: set[str]) -> Iterator[tuple[Solid, Solid]]:
    """Yield each hidden solid with each other whose bounds on the site grid meet its own."""
    axis = max((0, 1), key=lambda k: _spread([one.low[k] for one in solids]))
    in_order = sorted(solids, key=lambda one: one.low[axis])
    starts = [one.low[axis] for one in in_order]
    widest_m = max((one.high[axis] - one.low[axis] for one in solids), default=0.0)
    for one in in_order:
        if one.shape.thing.tag in tags:
            first = bisect_left(starts, one.low[axis] - widest_m)
            for other in in_order[first : bisect_right(starts, one.high[axis])]:
                if all(other.high[k] >= one.low[k] and one.high[k] >= other.low[k] for k in AXES):
                    yield one, other


def _spread(values: Sequence[float]) -> float:
    return max(values, default=0.0) - min(values, default=0.0)


def _solid(shape: Shape, hulls: Mapping[str, HullFrame]) -> Solid:
    stray = shape.strays.most_m if shape.strays else 0.0
    tolerance = max(shape.horizontal_m, shape.vertical_m) + stray
    form, frame = shape.form, hulls.get(shape.hull)
    if isinstance(form, Block):
        edges, pad = (form.low, form.high), 0.0
        corners = [(edges[i][0], edges[j][1], edges[k][2]) for i, j, k in CORNERS]
    else:
        corners, pad = [form.start, form.end], form.radius_m
    points = [frame.to_site(*corner) if frame else corner for corner in corners]
    lows = [min(point[k] for point in points) - pad for k in range(3)]
    highs = [max(point[k] for point in points) + pad for k in range(3)]
    return Solid(
        shape, form, tolerance, (lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2])
    )


def _together(one: Thing, other: Thing) -> bool:
    """Return whether one names the other, or both sit on one run or in one thing."""
    named, names = _named(one), _named(other)
    return other.tag in named or one.tag in names or bool(named & names)


def _named(thing: Thing) -> set[str]:
    """Return the tags that a thing names in any field, but for its hull, room and lots."""
    return {
        tag
        for name in thing.fields
        if name not in ("hull", "room", "lot", "item")
        for tag in thing.tags(name)
    }


def shared(one: Solid, other: Solid, hulls: Mapping[str, HullFrame]) -> float | None:
    """Return by how much two solids share a place, metres; None where that is not reckoned."""
    if isinstance(one.form, Block) and isinstance(other.form, Block):
        if one.shape.hull != other.shape.hull:
            return None  # two hulls are turned to each other, and share no room
        boxes = ((one.form.low, one.form.high), (other.form.low, other.form.high))
        return boxes_share_m(*boxes)
    if isinstance(one.form, Block):
        one, other = other, one
    assert isinstance(one.form, Capsule)
    if isinstance(other.form, Block):
        axis = _axis(one, other.shape.hull, hulls)
        if axis is None:
            return None
        return one.form.radius_m - bar_in_box_m(axis, other.form.low, other.form.high)
    mine, its = _axis(one, "", hulls), _axis(other, "", hulls)
    if mine is None or its is None or _join(one, other, mine, its):
        return None
    return one.form.radius_m + other.form.radius_m - bars_apart_m(mine, its)


def _axis(one: Solid, frame: str, hulls: Mapping[str, HullFrame]) -> tuple[Vector, Vector] | None:
    """Return the axis of a bar in a hull's frame, or on the site grid ("")."""
    assert isinstance(one.form, Capsule)
    ends = (one.form.start, one.form.end)
    if one.shape.hull == frame:
        return ends
    mine, its = hulls.get(one.shape.hull), hulls.get(frame)
    if (one.shape.hull and mine is None) or (frame and its is None):
        return None
    on_site = [mine.to_site(*end) if mine else end for end in ends]
    there = [its.to_hull(end) if its else end for end in on_site]
    return there[0], there[1]


def _join(
    one: Solid, other: Solid, mine: tuple[Vector, Vector], its: tuple[Vector, Vector]
) -> bool:
    """Return whether two bars meet where one of them ends: there they are joined, not crossed."""
    if {one.shape.thing.kind.word, other.shape.thing.kind.word} != {"run"}:
        return False
    ends = [((end, end), its) for end in mine] + [((end, end), mine) for end in its]
    return any(bars_apart_m(end, axis) <= JUNCTION_M for end, axis in ends)


def _finding(mine: Shape, its: Shape, shared_m: float) -> Finding:
    depth = metres_said(shared_m, 3)
    return RULE.finding(
        mine.thing.tag,
        f"{mine.words} and {its.thing.tag}, {its.words}, share one place by {depth}, more than "
        "both are in doubt",
        clears=(
            "measure both again; then mend the one that was written wrong, - mends: and - because:",
        ),
        entries=(*mine.entries, *its.entries),
    )


RULE = Rule(
    word="no two things in one place",
    why=(
        "Two things cannot lie in one place: one of them was measured or written wrong, and "
        "whoever drills by the record later meets the other. While both can be seen, a tape tells "
        "which. (Common practice, no source.)"
    ),
    find=find,
)
