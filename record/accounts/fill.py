"""The fill round a hull: how level its sides were kept, and how the hull's shape moved.

Limits are those somebody recorded, with whose they are; there is none of our own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from record.facts.faults import plain
from record.facts.shape import STAGES
from record.fold import Happening
from record.readers import View
from record.units import Dimension, in_both

OPPOSITE = (("left", "right"), ("near", "far"), ("north", "south"), ("east", "west"))
SIDES = (*(side for pair in OPPOSITE for side in pair), "both")
ASKED = STAGES[:4]  # the stages at which a hull is measured while it is filled


@dataclass(frozen=True, slots=True)
class Lift:
    """One lift as it was recorded, and the fill at either side after it, where that is known."""

    happening: Happening
    side: str
    level_m: Decimal | None
    other: Happening | None  # the newest lift at the opposite side before it or of the same name
    difference_m: Decimal | None

    @property
    def words(self) -> str:
        level = (
            "to a level not recorded"
            if self.level_m is None
            else f"to {in_both(self.level_m, Dimension.LENGTH)}"
        )
        if self.side == "both":
            beside = "both sides alike, as written"
        elif self.difference_m is not None and self.other is not None:
            apart = in_both(abs(self.difference_m), Dimension.LENGTH)
            beside = f"{apart} {'above' if self.difference_m > 0 else 'below'} the other side"
            beside = "level with the other side" if not self.difference_m else beside
        else:
            beside = "the other side is not recorded"
        material = self.happening.words("material")
        where = self.happening.words("side")
        return f"lift {self.happening.words('lift')}, {where}: {material}, {level}; {beside}"


@dataclass(frozen=True, slots=True)
class Shape:
    """One inside measure through the stages of the filling, against what it was before."""

    about: str
    what: str
    readings: tuple[Happening, ...]

    @property
    def before(self) -> Happening | None:
        return next((one for one in self.readings if one.text("stage") == "before"), None)

    @property
    def missing(self) -> tuple[str, ...]:
        taken = {one.text("stage") for one in self.readings}
        return tuple(stage for stage in ASKED if stage not in taken)

    def change_m(self, one: Happening) -> Decimal | None:
        """Return how much more a measure is than before the fill; None if it cannot be told."""
        start = self.before.si("measured") if self.before else None
        now = one.si("measured")
        return None if start is None or now is None or one is self.before else now - start

    def words(self, one: Happening) -> str:
        now = one.si("measured")
        said = "not recorded" if now is None else in_both(now, Dimension.LENGTH)
        change, limit = self.change_m(one), one.si("limit")
        if change is None:
            return said
        moved = f"{in_both(abs(change), Dimension.LENGTH)} {'more' if change > 0 else 'less'}"
        moved = f"{said}, {moved} than before" if change else f"{said}, as before"
        if limit is None:
            return f"{moved}; no limit recorded"
        verdict = "within" if abs(change) <= limit else "BEYOND"
        return (
            f"{moved}; {verdict} the {in_both(limit, Dimension.LENGTH)} of "
            f"{one.words('limit_from')}"
        )


def lifts(view: View, hull: str | None = None) -> tuple[Lift, ...]:
    """Return every lift of fill in order, each beside the opposite side as it then stood."""
    found: list[Lift] = []
    for happening in view.built.happened("backfilled"):
        if hull is None or hull in happening.concerns():
            found.append(_lift(happening, found))
    return tuple(found)


def _lift(happening: Happening, before: Sequence[Lift]) -> Lift:
    side = _side(happening.stored("side"))
    level = happening.si("to_level")
    others = {b for a, b in OPPOSITE if a == side} | {a for a, b in OPPOSITE if b == side}
    beside = [
        one
        for one in before
        if one.side in (*others, "both") and one.happening.about == happening.about
    ]
    other = beside[-1] if beside else None
    apart = (
        None if other is None or other.level_m is None or level is None else level - other.level_m
    )
    return Lift(happening, side, level, other.happening if other else None, apart)


def _side(words: str) -> str:
    """Return which side is meant: the first word that names one, else the crew's own words."""
    found = re.search(rf"\b({'|'.join(SIDES)})\b", words.casefold())
    return found[1] if found else words


def shapes(view: View, hull: str | None = None) -> tuple[Shape, ...]:
    """Return every inside measure that was followed through the filling."""
    groups: dict[tuple[str, str], list[Happening]] = {}
    for one in view.built.happened("shape measured"):
        if hull is None or one.about == hull:
            name = plain(one.words("what"))
            groups.setdefault((one.about, name), []).append(one)
    return tuple(
        Shape(about, readings[0].words("what"), tuple(readings))
        for (about, _), readings in groups.items()
    )


def words(put_in: Sequence[Lift], followed: Sequence[Shape]) -> Iterator[str]:
    """Yield the lifts in order, then each measure through the stages, missing ones named."""
    if not put_in and not followed:
        yield "No fill and no shape is recorded."
    for lift in put_in:
        one = lift.happening
        yield f"{one.moment}  {one.about}: {lift.words} [{one.entry.number}]"
    for shape in followed:
        yield f"{shape.about}: {shape.what}"
        for one in shape.readings:
            stage = one.words("stage")
            yield f"  {stage:<9} {one.moment}: {shape.words(one)} [{one.entry.number}]"
        if shape.missing:
            yield f"  not measured: {', '.join(shape.missing)}"


def form(put_in: Sequence[Lift], followed: Sequence[Shape]) -> dict[str, object]:
    """Return the JSON form of both; levels and changes in metres."""
    return {
        "lifts": [
            {
                "about": lift.happening.about,
                "moment": lift.happening.moment,
                "side": lift.side,
                "level_m": None if lift.level_m is None else str(lift.level_m),
                "above_other_side_m": None if lift.difference_m is None else str(lift.difference_m),
                "entry": lift.happening.entry.number,
            }
            for lift in put_in
        ],
        "shapes": [
            {
                "about": shape.about,
                "what": shape.what,
                "missing": list(shape.missing),
                "readings": [_reading(shape, one) for one in shape.readings],
            }
            for shape in followed
        ],
    }


def _reading(shape: Shape, one: Happening) -> dict[str, object]:
    now, change, limit = one.si("measured"), shape.change_m(one), one.si("limit")
    return {
        "stage": one.text("stage"),
        "moment": one.moment,
        "measured_m": None if now is None else str(now),
        "change_m": None if change is None else str(change),
        "limit_m": None if limit is None else str(limit),
        "entry": one.entry.number,
    }
