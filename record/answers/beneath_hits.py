"""What lies below or beside one spot, each thing with its levels, its depth and how sure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from record.answers.beneath_values import Covered, Hit, Surface
from record.answers.covers import cover_state, coverings
from record.answers.digging import HAND_NOT_KNOWN_M, legal_m
from record.answers.find_depths import GROUND_M
from record.answers.hazards import filled, of_thing
from record.answers.layers import build_up
from record.fold import Stated, Thing
from record.place import Below, HullFrame, PlacedStation, Shape, below, plan_box, roof_m, stations
from record.place.plan import nearest, on_site
from record.place.runs import bare_radius_m
from record.place.solids import Capsule
from record.readers import View

SURFACE_NEAR_M = 1.0  # ground farther off in plan says nothing of the ground here
Spot = tuple[float, float]


def hits(view: View, at: Spot, within_m: float, surface: Surface | None) -> Iterator[Hit]:
    """
    Yield what may lie below a spot, and what lies beside it where only hands dig.

    What is inside a hull is left out: its roof is met first.
    """
    by_hand = by_hand_m(view)
    for shape in view.nearby.over(at, within_m + by_hand):
        found = below(shape, at, within_m, view.hulls)
        far = found.off_m > max(by_hand, found.tolerance_m) + within_m
        if not far and not _indoors(view, shape, found):
            yield _hit(view, shape, found, at, surface)


def by_hand_m(view: View) -> float:
    """Return the legal tolerance of the site, or what stands in for it."""
    legal = legal_m(view.built.site_thing())
    return HAND_NOT_KNOWN_M if legal is None else legal


def _indoors(view: View, shape: Shape, found: Below) -> bool:
    """Return whether a shape is wholly within its own hull, so that the roof is met first."""
    frame = view.hulls.get(shape.hull)
    if frame is None or shape.thing.tag == frame.tag or found.highest_m is None:
        return False
    x0, y0, x1, y1 = plan_box(shape, view.hulls)
    corners = [(x, y) for x in (x0, x1) for y in (y0, y1)]
    roofs = [roof_m(frame, corner) for corner in corners]
    low = frame.origin[2] - frame.plate_m
    return (
        all(roof is not None and found.highest_m < roof - frame.plate_m for roof in roofs)
        and found.lowest_m is not None
        and found.lowest_m > low
    )


def _hit(view: View, shape: Shape, found: Below, at: Spot, surface: Surface | None) -> Hit:
    thing = shape.thing
    own, since = _own_ground(view, shape, at, found)
    ground = own if own and (surface is None or surface.on <= own.on) else surface
    top, bottom, invert = _levels(view, shape, found, at)
    frame = view.hulls.get(shape.hull)
    return Hit(
        tag=thing.tag,
        kind=thing.kind.word,
        words=shape.words,
        off_m=found.off_m,
        tolerance_m=found.tolerance_m,
        hand_m=max(by_hand_m(view), found.tolerance_m),
        top_name={"run": "crown", "hull": "roof"}.get(thing.kind.word, "top"),
        top_m=top,
        invert_m=invert,
        bottom_m=bottom,
        tolerance_up_m=found.tolerance_up_m,
        depth_m=None if ground is None or top is None else ground.level_m - top,
        depth_to_invert_m=None if ground is None or invert is None else ground.level_m - invert,
        depth_may_be_m=_may_be(ground, found),
        surface_on=ground.on if ground else "",
        measured_since=tuple(since),
        basis=shape.basis,
        interpolated=shape.interpolated,
        assumed=shape.assumed or (frame is not None and frame.assumed),
        missing=shape.missing,
        cover=cover_state(view.built, shape),
        covered=tuple(
            Covered(covering=one.about, on=one.on, at=one.at, entry=one.entry.number)
            for one in coverings(view.built, shape)
        ),
        hazards=tuple(
            one
            for one in (
                *((filled(thing),) if thing.kind.word == "way out" else ()),
                *of_thing(view.built, thing),
            )
            if one is not None
        ),
        layers=build_up(view.built, thing, 0.0) if thing.kind.word in ("hull", "seam") else (),
        entries=tuple(entry.number for entry in shape.entries),
    )


def _levels(
    view: View, shape: Shape, found: Below, at: Spot
) -> tuple[float | None, float | None, float | None]:
    """
    Return top, bottom and invert.

    A pipe's crown is that of the pipe where it comes nearest, without insulation: over its side
    the plumb line meets it lower.
    """
    thing, form = shape.thing, shape.form
    if found.top_m is None or found.bottom_m is None:
        return None, None, None
    if thing.kind.word == "hull":
        roof = roof_m(view.hulls[thing.tag], at)
        return (found.top_m if roof is None else roof), found.bottom_m, None
    if thing.kind.word != "run" or not isinstance(form, Capsule):
        return found.top_m, found.bottom_m, None
    bare = replace(form, radius_m=bare_radius_m(thing)[0])
    over = _over_axis(form, found.along, view.hulls.get(shape.hull))
    pipe = below(replace(shape, form=bare, strays=None), over, 0.0, view.hulls)
    bore = thing.si("inside_diameter")
    if bore is None or pipe.top_m is None or pipe.bottom_m is None:
        return pipe.top_m, pipe.bottom_m, None
    middle = (pipe.top_m + pipe.bottom_m) / 2
    return pipe.top_m, pipe.bottom_m, middle - float(bore) / 2


def _over_axis(form: Capsule, along: float, frame: HullFrame | None) -> Spot:
    """Return the place in plan of a point of a pipe's axis, ``along`` of its length."""
    (x0, y0, _), (x1, y1, _) = (on_site(end, frame) for end in (form.start, form.end))
    return x0 + along * (x1 - x0), y0 + along * (y1 - y0)


def _may_be(ground: Surface | None, found: Below) -> tuple[float, float] | None:
    if ground is None or found.highest_m is None or found.lowest_m is None:
        return None
    return (
        max(0.0, ground.level_m - ground.tolerance_m - found.highest_m),
        max(0.0, ground.level_m + ground.tolerance_m - found.lowest_m),
    )


def surface_at(view: View, at: Spot) -> Surface | None:
    """Return the newest ground recorded within a metre of a spot, of two of one day the nearest."""
    found = [one for one in _grounds(view, at) if one.off_m <= SURFACE_NEAR_M]
    if not found:
        return None
    newest = max(one.on for one in found)
    return min((one for one in found if one.on == newest), key=lambda one: (one.off_m, one.of))


def _grounds(view: View, at: Spot) -> Iterator[Surface]:
    near = {s.thing.tag: s.thing for s in view.nearby.over(at, SURFACE_NEAR_M)}
    for run in (thing for thing in near.values() if thing.kind.word == "run"):
        placed = stations(run, view.hulls)
        for stretch in pairwise(placed):
            found = _between(stretch, at)
            if found is not None:
                yield found
        yield from (one for one in (_at(station, at) for station in placed) if one)
    for hull in view.built.of_kind("hull"):
        frame = view.hulls.get(hull.tag)
        if frame is not None and roof_m(frame, at) is not None and hull.held("ground_level"):
            told = _told(hull, "ground_level", f"ground level of hull {hull.tag}", 0.0)
            if told is not None:
                yield told
    yield from _from_covers(view, at)


def _from_covers(view: View, at: Spot) -> Iterator[Surface]:
    """Cover measured over a roof of known level tells the ground of that later day."""
    for one in view.built.happened("cover measured"):
        x, y, cover = one.si("x"), one.si("y"), one.quantity("cover")
        frame = view.hulls.get(one.about)
        if x is None or y is None or cover is None or frame is None:
            continue
        there = (float(x), float(y))
        roof = roof_m(frame, there)
        if roof is not None:
            yield Surface(
                level_m=roof + float(cover.si),
                of=f"cover measured over {one.about} at {one.words('point')}",
                on=one.on,
                off_m=_apart(there, at),
                tolerance_m=_up(cover.tol, frame),
                assumed=cover.tol is None,
                entries=(one.entry.number,),
            )


def _up(tol: object, frame: HullFrame) -> float:
    measured = GROUND_M if tol is None else float(str(tol))
    return float((measured**2 + frame.vertical_m**2) ** 0.5)


def _apart(one: Spot, other: Spot) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def _told(stated: Stated, name: str, of: str, off_m: float) -> Surface | None:
    quantity, held = stated.quantity(name), stated.held(name)
    if quantity is None:
        return None
    last = max(held, key=lambda one: one.on)
    return Surface(
        level_m=float(quantity.si),
        of=of,
        on=last.on,
        off_m=off_m,
        tolerance_m=GROUND_M if quantity.tol is None else float(quantity.tol),
        assumed=quantity.tol is None,
        entries=tuple(one.entry.number for one in held),
    )


def _at(station: PlacedStation, at: Spot) -> Surface | None:
    if station.x is None or station.y is None:
        return None
    off = _apart((station.x, station.y), at)
    return _told(station.thing, "ground", f"ground at {station.thing.tag}", off)


def _between(ends: tuple[PlacedStation, PlacedStation], at: Spot) -> Surface | None:
    """Return the ground over a stretch of pipe abreast of a spot, straight between its stations."""
    one, other = ends
    if None in (one.x, one.y, other.x, other.y):
        return None
    low, high = _at(one, at), _at(other, at)
    if low is None or high is None:
        return None
    line = ((one.x or 0.0, one.y or 0.0, 0.0), (other.x or 0.0, other.y or 0.0, 0.0))
    along, off = nearest(line, at)
    if along in (0.0, 1.0):
        return replace(high if along else low, off_m=off)
    return Surface(
        level_m=low.level_m + along * (high.level_m - low.level_m),
        of=f"ground between {one.thing.tag} and {other.thing.tag}, interpolated",
        on=min(low.on, high.on),
        off_m=off,
        tolerance_m=max(low.tolerance_m, high.tolerance_m),
        assumed=low.assumed or high.assumed,
        entries=tuple(dict.fromkeys((*low.entries, *high.entries))),
    )


@dataclass(frozen=True, slots=True)
class _Stretch:
    run: Thing
    ends: tuple[PlacedStation, PlacedStation]


def _stretch(view: View, shape: Shape) -> _Stretch | None:
    """Return the two stations a shape lies between, as its words name them."""
    one, to, other = shape.words.rpartition(", ")[2].partition(" to ")
    run = shape.thing if shape.thing.kind.word == "run" else None
    if run is None or not to:
        return None
    by_key = {station.key: station for station in stations(run, view.hulls)}
    if one not in by_key or other not in by_key:
        return None
    return _Stretch(run, (by_key[one], by_key[other]))


def _own_ground(
    view: View, shape: Shape, at: Spot, found: Below
) -> tuple[Surface | None, Iterator[str]]:
    """Return the ground over a pipe by its own stations, and cover measured at them since."""
    stretch = _stretch(view, shape)
    if stretch is None:
        return None, iter(())
    own = _between(stretch.ends, at)
    return own, _since(view, stretch, own.on if own else "")


def _since(view: View, stretch: _Stretch, on: str) -> Iterator[str]:
    for one in view.built.about(stretch.run.tag, "cover measured"):
        point = (one.text("point") or "").removeprefix(stretch.run.tag).strip(" /")
        if point.partition(" ")[0] in {end.key for end in stretch.ends} and one.on >= on:
            yield f"{one.words('cover')} measured at {point} {one.on} ({one.entry.number})"
