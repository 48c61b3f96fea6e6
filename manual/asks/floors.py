"""Floor areas of rooms and hulls, as a chapter asks for them."""

from __future__ import annotations

from manual.asks.asking import Answer
from manual.languages import say
from record.calc.area import floor_area_m2, width_in_round_m
from record.fold import Thing
from record.place import is_round
from record.units import Dimension, in_both

ROUND = ("inside_length", "inside_diameter", "floor_above_bottom")


def round_inside(hull: Answer) -> bool:
    """Return whether a hull is round."""
    return isinstance(hull.thing, Thing) and is_round(hull.thing)


def floor_area(answer: Answer, length: str, width: str) -> str:
    """Return the floor area between two recorded measures, or that it cannot be worked."""
    of = answer.thing
    long, wide = of.si(length), of.si(width)
    if long is None or wide is None or long <= 0 or wide <= 0:
        return say("floor.cannot_be_worked_a")
    return in_both(floor_area_m2(long, wide), Dimension.AREA)


def round_floor_area(hull: Answer) -> str:
    """Return the area of the walking floor of a round hull, or that it cannot be worked."""
    long, across, above = (hull.thing.si(name) for name in ROUND)
    if long is None or across is None or above is None or long <= 0 or not 0 < above < across:
        return say("floor.cannot_be_worked_a")
    return in_both(floor_area_m2(long, width_in_round_m(across, above)), Dimension.AREA)
