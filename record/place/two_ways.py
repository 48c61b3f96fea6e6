"""The ways one thing was placed: on the grid, in a hull, by its ties, by its length along a run.

Places go by the first of them that holds; here they are held against each other. Each is told
with its own tolerance, so that the better one never lends its own to the worse.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from record.calc.combine import root_sum_square
from record.entry import Entry
from record.fold import AsBuilt, Thing
from record.place.accuracy import accuracy
from record.place.by_length import by_length
from record.place.frames import HullFrame
from record.place.solids import Capsule, Shape, called
from record.place.tied import TiedPoint
from record.words import tell

ON_GRID, IN_HULL, BY_RUN = ("x", "y"), ("from_near", "from_left"), ("along_run",)
Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way a thing was placed: a rectangle of the site grid, or of ``hull``; metres."""

    how: str  # grid, hull, ties or run
    words: str
    hull: str
    along: Span
    across: Span
    tolerance_m: float
    assumed: bool
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Apart:
    """Two ways that do not meet: how far apart they are, and how much of that may be doubt."""

    one: Way
    other: Way
    apart_m: float

    @property
    def doubt_m(self) -> float:
        return self.one.tolerance_m + self.other.tolerance_m

    @property
    def assumed(self) -> bool:
        return self.one.assumed or self.other.assumed


def apart(ways: tuple[Way, ...], hulls: Mapping[str, HullFrame]) -> Iterator[Apart]:
    """Yield each two ways with the distance on plan between what they say, none where they meet."""
    for one, other in itertools.combinations(ways, 2):
        frame = hulls.get(one.hull or other.hull)
        first, second = (_into(way, frame) for way in (one, other))
        gaps = (_gap(*spans) for spans in zip(first, second, strict=True))
        yield Apart(one, other, math.hypot(*gaps))


def _gap(one: Span, other: Span) -> float:
    return max(0.0, one[0] - other[1], other[0] - one[1])


def _into(way: Way, frame: HullFrame | None) -> tuple[Span, Span]:
    """Return the spans in a hull's frame, or as they are on the grid."""
    if frame is None or way.hull == frame.tag:
        return way.along, way.across
    corners = [frame.to_hull((x, y, 0.0)) for x in way.along for y in way.across]
    along, across = [c[0] for c in corners], [c[1] for c in corners]
    return (min(along), max(along)), (min(across), max(across))


def ways_of(
    thing: Thing, built: AsBuilt, hulls: Mapping[str, HullFrame], tied: TiedPoint | None
) -> tuple[Way, ...]:
    """Return every way in which a thing, or a station, was placed by whole measures."""
    found = (
        _on_grid(thing),
        _in_hull(thing, hulls),
        _by_ties(tied),
        _by_run(thing, built, hulls),
    )
    return tuple(way for way in found if way is not None)


def _only(thing: Thing, names: tuple[str, ...]) -> Thing:
    """Return a thing without the measures of its other places."""
    others = {*ON_GRID, *IN_HULL, *BY_RUN} - {*names}
    return replace(thing, fields={k: v for k, v in thing.fields.items() if k not in others})


def _on_grid(thing: Thing) -> Way | None:
    x, y = thing.si("x"), thing.si("y")
    if x is None or y is None or any(held.worked for held in thing.held("x")):
        return None
    sure = accuracy(_only(thing, ON_GRID))
    return Way(
        how="grid",
        words=tell("place.written_at_x_y", x=f"{x:.3f}", y=f"{y:.3f}"),
        hull="",
        along=(float(x), float(x)),
        across=(float(y), float(y)),
        tolerance_m=sure.horizontal_m,
        assumed=sure.assumed,
        entries=_entries(thing, ON_GRID),
    )


def _in_hull(thing: Thing, hulls: Mapping[str, HullFrame]) -> Way | None:
    frame = hulls.get(thing.text("hull") or "")
    near, left = thing.si("from_near"), thing.si("from_left")
    if frame is None or near is None or left is None:
        return None
    sure = accuracy(_only(thing, IN_HULL))
    return Way(
        how="hull",
        words=tell("place.in_m_from_near", tag=frame.tag, near=f"{near:.3f}", left=f"{left:.3f}"),
        hull=frame.tag,
        along=_reach(thing, float(near), "along", frame.length_m),
        across=_reach(thing, float(left), "across", frame.width_m),
        # Against what was measured from outside, the hull's own doubt counts too.
        tolerance_m=root_sum_square(sure.horizontal_m, frame.horizontal_m, frame.turned_m),
        assumed=sure.assumed or frame.assumed,
        entries=_entries(thing, ("hull", *IN_HULL)),
    )


def _reach(thing: Thing, edge: float, size: str, end: float) -> Span:
    """Return from its edge as far as a thing reaches; of no known size, to the hull's end."""
    if thing.kind.field(size) is None:
        return edge, edge
    measured = thing.si(size)
    return edge, max(edge, end) if measured is None else edge + float(measured)


def _by_ties(tied: TiedPoint | None) -> Way | None:
    if tied is None or tied.fix is None or tied.tolerance_m is None:
        return None
    x, y = tied.fix.x_m, tied.fix.y_m
    return Way(
        how="ties",
        words=tell("place.its_ties_meet_at", x=f"{x:.3f}", y=f"{y:.3f}"),
        hull="",
        along=(x, x),
        across=(y, y),
        tolerance_m=tied.tolerance_m,
        assumed=tied.assumed,
        entries=tuple(entry for tie in tied.ties for entry in tie.entries),
    )


def _by_run(thing: Thing, built: AsBuilt, hulls: Mapping[str, HullFrame]) -> Way | None:
    found = by_length(_only(thing, BY_RUN), 0.0, built, hulls)
    if not isinstance(found, Shape) or not isinstance(found.form, Capsule):
        return None
    start, end = found.form.start, found.form.end
    along, across = ((min(pair), max(pair)) for pair in zip(start[:2], end[:2], strict=True))
    frame = hulls.get(found.hull)
    own = (frame.horizontal_m, frame.turned_m) if frame else ()
    return Way(
        how="run",
        words=found.words.removeprefix(f"{called(thing)}, "),
        hull=found.hull,
        along=along,
        across=across,
        tolerance_m=root_sum_square(found.horizontal_m, *own),
        assumed=found.assumed,
        entries=found.entries,
    )


def _entries(thing: Thing, names: tuple[str, ...]) -> tuple[Entry, ...]:
    return tuple(held.entry for name in names for held in thing.held(name))
