"""Whether a reading is past the limit that was recorded for it, and where readings are heading.

Nothing is said of what lies past a limit but that somebody set it. The side a limit is on is what
its words say ("at least", "at most"), else the side on which day one was not.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

from record.accounts.drift import Reading, Series
from record.accounts.readings import read_reading
from record.units import Dimension, Quantity

LEAST = re.compile(
    r"^\s*(?:at least|no less than|not (?:under|below|less than)|least|≥|>=)\s*", re.I
)
MOST = re.compile(r"^\s*(?:at most|no more than|not (?:over|above|more than)|most|≤|<=)\s*", re.I)
#: Two-sided 95 % points of Student's t by degrees of freedom, NIST/SEMATECH e-Handbook, 1.3.6.7.2.
T_95 = (12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228)
T_95_MORE = 2.228  # with more readings than that: on the safe side
FARTHEST_DAYS = 36525  # a trend is not carried on for more than a hundred years


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit as it was written: the quantity, its dimension, and whether it is the least."""

    words: str
    quantity: Quantity
    of: Dimension
    least: bool

    def passed_by(self, reading: Reading) -> bool:
        """Return whether a reading is past it; what cannot be compared is not."""
        if reading.quantity is None or reading.of is not self.of:
            return False
        if self.least:
            return reading.quantity.si < self.quantity.si
        return reading.quantity.si > self.quantity.si


@dataclass(frozen=True, slots=True)
class Trend:
    """
    A straight line through the readings of a series, least squares, and what it comes to.

    ``a_year`` is its slope in SI a year, ``doubt`` of that at 95 %. ``earliest`` and ``latest``
    bound the day it comes to the limit; None where that side does not come to it within a hundred
    years.
    """

    readings: int
    a_year: float
    doubt: float
    earliest: date | None
    latest: date | None

    @property
    def certain(self) -> bool:
        """Return whether it moves at all, beyond the doubt of the line."""
        return abs(self.a_year) > self.doubt


def limit_of(one: Series) -> Limit | None:
    """Return the limit of a series, or None where none is recorded, or its side cannot be told."""
    words = one.limit
    side = LEAST.match(words) or MOST.match(words)
    said = read_reading(words[side.end() :] if side else words)
    if said is None:
        return None
    quantity, of = said
    if side:
        return Limit(words, quantity, of, least=bool(LEAST.match(words)))
    first = one.first
    if first.quantity is None or first.of is not of or first.quantity.si == quantity.si:
        return None
    return Limit(words, quantity, of, least=first.quantity.si > quantity.si)


def past_limit(one: Series) -> Reading | None:
    """Return the last reading of a series if it is past its limit."""
    limit, last = limit_of(one), (one.first, *one.later)[-1]
    return last if limit and limit.passed_by(last) else None


def trend(one: Series) -> Trend | None:
    """
    Return the line through a series of at least three readings on different days, else None.

    Least squares with the 95 % interval of the slope (NIST/SEMATECH e-Handbook, 4.1.4.1); the
    days it may come to the limit are those of the two bounding slopes, from the line's middle.
    """
    points = [
        (float(day.toordinal()), float(each.quantity.si))
        for each in (one.first, *one.later)
        if each.quantity is not None and each.of is one.first.of
        if (day := _day(each)) is not None
    ]
    if len({day for day, _ in points}) < 3:
        return None
    count = len(points)
    mid_day = sum(day for day, _ in points) / count
    mid = sum(value for _, value in points) / count
    spread = sum((day - mid_day) ** 2 for day, _ in points)
    slope = sum((day - mid_day) * (value - mid) for day, value in points) / spread
    left = sum((value - mid - slope * (day - mid_day)) ** 2 for day, value in points)
    degrees = count - 2
    t = T_95[degrees - 1] if degrees <= len(T_95) else T_95_MORE
    doubt = t * sqrt(left / degrees / spread)
    limit = limit_of(one)
    days = (
        [_comes_to(mid_day, mid, each, limit) for each in (slope - doubt, slope + doubt)]
        if limit
        else [None, None]
    )
    known = sorted(day for day in days if day)
    return Trend(
        readings=count,
        a_year=slope * 365.25,
        doubt=doubt * 365.25,
        earliest=known[0] if known else None,
        latest=known[-1] if len(known) == 2 else None,
    )


def _comes_to(mid_day: float, mid: float, slope: float, limit: Limit) -> date | None:
    """Return the day a line comes to a limit it is moving towards."""
    way = float(limit.quantity.si) - mid
    if slope == 0 or way / slope < 0 or way / slope > FARTHEST_DAYS:
        return None
    if (slope > 0) is limit.least:
        return None  # it moves away from the side the limit is on
    return date.fromordinal(int(mid_day)) + timedelta(days=int(way / slope))


def _day(reading: Reading) -> date | None:
    try:
        return date.fromisoformat(reading.happening.on)
    except ValueError:
        return None
