"""A thing placed by its distance along a run: interpolated between stations in plan and level.

What is kept is the length, the side and the height, never a place: so it moves with the stations
it lies between. A tape pulled along the pipe has the pipe's slack in it: a place a length s along
may lie nearer than s on the straight line by all the slack so far, and off the line as far as the
pipe may stray there (``strays``). Both are bounds, so they add in full.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from record.calc.combine import root_sum_square
from record.facts.values import Absent, Why
from record.fold import AsBuilt, Thing
from record.place.accuracy import accuracy
from record.place.frames import HullFrame, Vector
from record.place.run_shapes import run_shapes
from record.place.runs import bare_radius_m, stations
from record.place.solids import ANY_M, Capsule, Shape, called
from record.words import tell, term

RUN_OF = ("on_run", "serves", "follows")
TOUCHING_M = 1e-9


@dataclass(frozen=True, slots=True)
class _Leg:
    """A stretch of the run: from where to where along it, in metres, and its slack so far."""

    shape: Shape
    start: Vector
    end: Vector
    from_m: float
    to_m: float
    slack_m: float


def by_length(
    thing: Thing, half_m: float, built: AsBuilt, hulls: Mapping[str, HullFrame]
) -> Shape | str | None:
    """Return where a thing lies along its run, why that cannot be told, or None: not so placed."""
    along = thing.quantity("along_run")
    if along is None:
        return None
    run = next(filter(None, (built.thing(thing.text(name)) for name in RUN_OF)), None)
    if run is None or run.kind.word != "run":
        return tell("place.its_run_not_recorded")
    for name in ("along_from", "beside"):
        if _in_vain(thing, name):
            return tell("place.field_not_recorded", name=term(name.replace("_", " ")))
    legs, keys = _legs(run, hulls), [part.key for part in run.parts]
    if legs is None:
        return tell("place.not_every_station_has", tag=run.tag)
    key = (thing.text("along_from") or keys[0]).split(" ")[0]
    if key not in keys:
        return tell("place.has_no_station", tag=run.tag, key=key)
    at = keys.index(key)
    length = (legs[at].from_m if at < len(legs) else legs[-1].to_m) + float(along.si)
    if length < -TOUCHING_M:
        return tell("place.m_before_first_station", what=f"{-length:.2f}", tag=run.tag)
    over = length - legs[-1].to_m
    if over > legs[-1].slack_m + TOUCHING_M:
        return tell("place.m_beyond_last_station", over=f"{over:.2f}", tag=run.tag)
    metres = f"{abs(float(along.si)):.2f}"
    if thing.text("along_from"):
        words = tell("place.along.station", metres=metres, tag=run.tag, key=key)
    else:
        words = tell("place.along.first", metres=metres, tag=run.tag)
    words = tell("place.back_toward", words=words) if along.si < 0 else words
    return _placed(thing, half_m, run, legs, length, words)


def _in_vain(thing: Thing, name: str) -> bool:
    value = thing.value(name)
    unknown = isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
    return bool(thing.held(name)) and unknown


def _legs(run: Thing, hulls: Mapping[str, HullFrame]) -> list[_Leg] | None:
    """Return the stretches of a run, or None where one of them has no place."""
    found: list[_Leg] = []
    at = slack = 0.0
    bars = [shape for shape in run_shapes(run, hulls) if shape.interpolated]
    if not bars or len(bars) != len(stations(run, hulls)) - 1:
        return None
    for shape in bars:
        form, stray = shape.form, shape.strays
        if not isinstance(form, Capsule):
            return None
        flat = math.dist(form.start, form.end)
        longer = max(0.0, stray.pipe_m - flat) if stray else 0.0
        # A recorded length is of the whole run, so all its slack may lie in any one stretch.
        slack = max(slack, longer) if stray and stray.proved else slack + longer
        found.append(_Leg(shape, form.start, form.end, at, at + flat, slack))
        at += flat
    return found


def _placed(
    thing: Thing, half_m: float, run: Thing, legs: Sequence[_Leg], length: float, words: str
) -> Shape:
    leg = next((each for each in legs if length <= each.to_m), legs[-1])
    own = accuracy(thing)
    along_m = _tolerance_m(thing, "along_run", own.horizontal_m)
    guessed = own.assumed and (said := thing.quantity("along_run")) is not None and said.tol is None
    low, high = length - along_m - leg.slack_m, length + along_m
    met = [leg, *(e for e in legs if e is not leg and e.to_m >= low and e.from_m <= high)]
    beside = float(thing.si("beside") or 0)
    bound = leg.slack_m + max(_off_m(each, low, high) for each in met)
    if len(met) > 1:
        bound += 2 * abs(beside)  # round a bend the side turns too
    aside_m = _tolerance_m(thing, "beside", own.horizontal_m) if thing.held("beside") else 0.0
    across = max(each.shape.horizontal_m for each in met)
    up = max(each.shape.vertical_m for each in met)
    height, rises = _height(thing, run, leg)
    above_m = _tolerance_m(thing, "above_pipe", own.vertical_m) if thing.held("above_pipe") else 0.0
    sloped = max(_slope(each) for each in met) * along_m
    start, end = _ends(thing, leg, length, beside, height)
    entries = {e.hash: e for e in (*thing.entries(), *leg.shape.entries)}
    return Shape(
        thing,
        f"{called(thing)}, {words}",
        Capsule(start, end, half_m, rises),
        leg.shape.hull,
        root_sum_square(across, along_m, aside_m) + bound,
        root_sum_square(up, above_m, sloped) + bound,
        f"{words}, {leg.shape.basis}",
        guessed or leg.shape.assumed or thing.si("size") is None,
        tuple(entries.values()),
        interpolated=True,
        missing=("level",) if rises else (),
    )


def _tolerance_m(thing: Thing, name: str, otherwise: float) -> float:
    said = thing.quantity(name)
    return otherwise if said is None or said.tol is None else float(said.tol)


def _off_m(leg: _Leg, low: float, high: float) -> float:
    stray = leg.shape.strays
    long = leg.to_m - leg.from_m
    if stray is None or long <= 0:
        return stray.most_m if stray else 0.0
    return stray.between_m((low - leg.from_m) / long, (high - leg.from_m) / long)


def _slope(leg: _Leg) -> float:
    flat = math.dist(leg.start[:2], leg.end[:2])
    return abs(leg.end[2] - leg.start[2]) / flat if flat > TOUCHING_M else 1.0


def _height(thing: Thing, run: Thing, leg: _Leg) -> tuple[float, float]:
    """Return how far over the pipe's axis it lies, and how much higher it may be."""
    form = leg.shape.form
    rises = form.rises_m if isinstance(form, Capsule) else 0.0
    if rises:
        return 0.0, rises
    above = thing.si("above_pipe")
    if above is None:
        follows = thing.kind.word == "marker"
        anywhere = follows or _in_vain(thing, "above_pipe")
        return (-ANY_M, 2 * ANY_M) if anywhere else (0.0, 0.0)
    radius, height = bare_radius_m(run)[0], float(above)
    return height + math.copysign(radius, height), 0.0


def _ends(
    thing: Thing, leg: _Leg, length: float, beside: float, height: float
) -> tuple[Vector, Vector]:
    """Return the place, twice; from one side to the other where the side is not recorded."""
    run_m = leg.to_m - leg.from_m
    part = 0.0 if run_m <= 0 else min(1.0, max(0.0, (length - leg.from_m) / run_m))
    x, y, z = (a + part * (b - a) for a, b in zip(leg.start, leg.end, strict=True))
    one, other = leg.end[0] - leg.start[0], leg.end[1] - leg.start[1]
    flat = math.hypot(one, other) or 1.0
    # To the right: a hull's frame counts across to the right, the grid's y to the left of x.
    right = (-other, one) if leg.shape.hull else (other, -one)
    side = thing.text("side")
    both = (-beside, beside) if side is None else ((beside, beside) if side == "right" else None)
    offs = both or (-beside, -beside)
    start, end = (
        (x + off * right[0] / flat, y + off * right[1] / flat, z + height) for off in offs
    )
    return start, end
