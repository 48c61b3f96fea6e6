"""The record → the small plan of an emergency page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from manual.drawings.floor_map import FloorMap, Gap, Mark, Room, way_out
from manual.languages import say
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place import HullFrame
from record.readers import View

BEYOND_M = 0.45  # a point surely outside the plate before an opening
SMALL_M2 = 2.0  # what joins two hulls is drawn, and not named


def floor_plan(
    view: View, touched: Sequence[tuple[int, str, str]], *, filled: str | None = None
) -> FloorMap | None:
    """
    Return the plan with ``touched``: number, words and tag of what a page tells to touch.

    ``filled`` is the word at a hatch into a filled shaft, which is no way out like the others.
    None while no hull has all its measures. What has no recorded place is not on the plan.
    """
    frames = {tag: frame for tag, frame in view.hulls.items() if view.built.thing(tag)}
    if not frames:
        return None
    longest = max(frames.values(), key=lambda f: (f.length_m, f.tag))
    return FloorMap(
        rooms=tuple(_room(view, frame) for _, frame in sorted(frames.items())),
        gaps=tuple(_gaps(view, frames, filled or say("emergency.filled_shaft"))),
        marks=tuple(_marks(view, frames, touched)),
        turn_deg=longest.bearing_deg - 90.0,
    )


def _room(view: View, frame: HullFrame) -> Room:
    rooms = [r for r in view.built.of_kind("room") if r.text("hull") == frame.tag]
    hull = view.built.thing(frame.tag)
    names = [name for r in rooms if (name := r.text("name"))]
    if not names and frame.length_m * frame.width_m < SMALL_M2:
        return Room("", frame.outline())
    name = (
        ", ".join(names)
        or (hull.text("name") if hull else None)
        or say("floor.hull", tag=frame.tag)
    )
    return Room(name, frame.outline())


def _gaps(view: View, frames: dict[str, HullFrame], filled: str) -> Iterator[Gap]:
    for opening in view.built.of_kind("opening"):
        frame = frames.get(opening.text("hull") or "")
        spots = _jambs(opening, frame) if frame else None
        if frame is None or spots is None:
            continue
        start, end, away = spots
        inside = any(_holds(f, away) for tag, f in frames.items() if tag != frame.tag)
        word = filled if into_fill(view, opening) else way_out()
        yield Gap(opening.text("name") or opening.tag, start, end, away, "" if inside else word)


def into_fill(view: View, opening: Thing) -> bool:
    """Return whether a way out that may be filled lies behind an opening, by hull and face."""
    return any(
        way.text("hull") == opening.text("hull") and way.text("face") == opening.text("face")
        for way in view.built.of_kind("way out")
        if may_be_filled(way)
    )


def may_be_filled(way: Thing) -> bool:
    """Return whether a way out is filled, or nobody wrote that it is not."""
    value = way.value("fill")
    return not (isinstance(value, Absent) and value.why in (Why.NONE, Why.NOT_APPLICABLE))


def _jambs(
    opening: Thing, frame: HullFrame
) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]] | None:
    """Return both jambs of an opening and a point beyond it, in site metres."""
    face, width = opening.text("face"), opening.si("width")
    near, left = opening.si("from_near"), opening.si("from_left")
    if width is None or face is None:
        return None
    wide = float(width)
    if face in ("near", "far") and left is not None:
        wall, out = (0.0, -BEYOND_M) if face == "near" else (frame.length_m, BEYOND_M)
        ends = [(wall, float(left)), (wall, float(left) + wide)]
        beyond = (wall + out, float(left) + wide / 2)
    elif face in ("left", "right") and near is not None:
        wall, out = (0.0, -BEYOND_M) if face == "left" else (frame.width_m, BEYOND_M)
        ends = [(float(near), wall), (float(near) + wide, wall)]
        beyond = (float(near) + wide / 2, wall + out)
    else:
        return None
    start, end, away = (frame.to_site(a, across, 0.0)[:2] for a, across in (*ends, beyond))
    return start, end, away


def _holds(frame: HullFrame, spot: tuple[float, float]) -> bool:
    a, across, _ = frame.to_hull((*spot, frame.origin[2]))
    p = frame.plate_m
    return -p <= a <= frame.length_m + p and -p <= across <= frame.width_m + p


def _marks(
    view: View, frames: dict[str, HullFrame], touched: Sequence[tuple[int, str, str]]
) -> Iterator[Mark]:
    for number, words, tag in touched:
        thing = view.built.thing(tag)
        spot = _spot(thing, frames) if thing else None
        if spot is not None:
            yield Mark(number, words, spot)


def _spot(thing: Thing, frames: dict[str, HullFrame]) -> tuple[float, float] | None:
    """Return where a thing is on the site, in metres: in its hull, else on the grid."""
    kind = thing.kind
    frame = frames.get(thing.text("hull") or "") if kind.field("hull") else None
    if frame is not None and kind.field("from_near") and kind.field("from_left"):
        near, left = thing.si("from_near"), thing.si("from_left")
        if near is not None and left is not None:
            return frame.to_site(*_middle(thing, float(near), float(left)), 0.0)[:2]
    if frame is None and kind.word != "way out":
        return None  # what lies far outside would shrink the rooms to nothing
    if kind.field("x") and kind.field("y"):
        x, y = thing.si("x"), thing.si("y")
        if x is not None and y is not None:
            return (float(x), float(y))
    return None


def _middle(thing: Thing, near: float, left: float) -> tuple[float, float]:
    along = thing.si("along") if thing.kind.field("along") else None
    across = thing.si("across") if thing.kind.field("across") else None
    return (near + float(along or 0) / 2, left + float(across or 0) / 2)
