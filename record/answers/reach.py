"""What else lies, and what else was done, within reach of a thing, a panel or a room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from record.answers.asked_spot import by_tag
from record.answers.past import DONE, worked_here
from record.answers.refused import CannotAnswer
from record.fold import Happening, Thing
from record.place import below, face_frame
from record.readers import View

REACH_M = 1.0
Point = tuple[float, float, float | None]


def near_things(view: View, thing: Thing, reach_m: float) -> Mapping[str, str]:
    """
    Return the tags of what lies within reach of a thing, each with how far off it is in words.

    From the middle of the thing to what is recorded of the other, its tolerance taken off, in plan
    and where both have a level in height; what has no level is taken as near. A hull or a whole run
    is in no one spot and has nothing near; a panel and a room tell of what lies behind them.
    """
    at = _spot(view, thing)
    if at is None:
        return {}
    found: dict[str, tuple[float, bool]] = {}
    for shape in view.nearby.over(at[:2], reach_m):
        tag = shape.thing.tag
        if tag == thing.tag or shape.thing.kind.word == "hull":
            continue
        seen = below(shape, at[:2], 0.0, view.hulls)
        up = _up(at[2], seen.lowest_m, seen.highest_m)
        off = math.hypot(max(0.0, seen.off_m - seen.tolerance_m), up or 0.0)
        if off <= reach_m and off < found.get(tag, (math.inf, False))[0]:
            found[tag] = (off, up is None)
    return {
        tag: f"{off:.2f} m off" + (", its level is not recorded" if unknown else "")
        for tag, (off, unknown) in found.items()
    }


def _up(level: float | None, low: float | None, high: float | None) -> float | None:
    if level is None or low is None or high is None:
        return None
    return max(low - level, 0.0, level - high)


def _spot(view: View, thing: Thing) -> Point | None:
    try:
        spot = by_tag(view, thing.tag)
    except CannotAnswer:
        return None
    return spot.x_m, spot.y_m, _level(view, thing)


def _level(view: View, thing: Thing) -> float | None:
    whole = thing.tag.partition("/")[0]
    spot = by_tag(view, thing.tag)
    for shape in view.nearby.over((spot.x_m, spot.y_m), spot.within_m):
        if shape.thing.tag == whole and not shape.missing:
            seen = below(shape, (spot.x_m, spot.y_m), 0.0, view.hulls)
            if seen.off_m <= seen.tolerance_m + spot.within_m and seen.top_m is not None:
                return (seen.top_m + (seen.bottom_m or seen.top_m)) / 2
    return None


def done_at_the_place(view: View, thing: Thing, reach_m: float) -> Iterator[Happening]:
    """Yield work whose own place on record is on a panel, or within reach of a thing."""
    if thing.kind.word == "panel":
        hull = view.hulls.get(thing.text("hull") or "")
        frame = face_frame(thing, hull) if hull else None
        yield from (
            one for one in view.built.happened(*DONE) if worked_here(view.built, one, thing, frame)
        )
        return
    at = _spot(view, thing)
    for one in view.built.happened(*DONE, "cover measured") if at else ():
        there = _placed(view, one)
        if there is not None and at is not None and _apart(at, there) <= reach_m:
            yield one


def _placed(view: View, one: Happening) -> Point | None:
    """Return where something was done on the site grid, as far as it says so itself."""
    x, y = one.si("x"), one.si("y")
    if x is not None and y is not None:
        return float(x), float(y), None
    hull = view.hulls.get(one.text("hull") or "")
    near, left, level = (one.si(name) for name in ("from_near", "from_left", "level"))
    if hull is None or near is None or left is None:
        return None
    a, b, _ = hull.to_site(float(near), float(left), 0.0)
    return a, b, None if level is None else float(level)


def _apart(one: Point, other: Point) -> float:
    up = 0.0 if one[2] is None or other[2] is None else one[2] - other[2]
    return math.hypot(one[0] - other[0], one[1] - other[1], up)
