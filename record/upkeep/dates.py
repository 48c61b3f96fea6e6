"""Counting by the calendar: months that end early, leap days, and no drift.

Every occurrence is counted from the first day, never from the one before: the last of January
and two months is the last of March, although the month between ends on the 28th.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from record.units import Quantity
from record.words import tell_how_many

SHORTEST_MONTH_DAYS = 28


def add_months(start: date, months: int) -> date:
    """
    Return the day ``months`` months after ``start``, or the last day of a month too short.

    What lies beyond the last year a date can hold is that year's last day.

    >>> add_months(date(2023, 1, 31), 1), add_months(date(2023, 1, 31), 2)
    (datetime.date(2023, 2, 28), datetime.date(2023, 3, 31))
    """
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))


def read_day(text: str) -> date | None:
    """Return the day an ISO date names, or None where it names none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


@dataclass(frozen=True, slots=True)
class Interval:
    """A number of calendar months, or of days; one of them, and more than zero."""

    months: int = 0
    days: int = 0

    def __post_init__(self) -> None:
        if min(self.months, self.days) < 0 or bool(self.months) == bool(self.days):
            raise ValueError("an interval is a number of months or of days, more than zero")

    def after(self, start: date, times: int = 1) -> date:
        """Return the day ``times`` intervals after ``start``, counted from ``start`` itself."""
        if self.months:
            return add_months(start, self.months * times)
        left = (date.max - start).days
        return start + timedelta(days=min(self.days * times, left))

    def before(self, day: date) -> date:
        """Return the day one interval before ``day``."""
        if self.months:
            return add_months(day, -self.months)
        return day - timedelta(days=min(self.days, (day - date.min).days))

    def __str__(self) -> str:
        if self.months:
            return tell_how_many("upkeep.months", self.months)
        return tell_how_many("upkeep.days", self.days)


def interval_of(quantity: Quantity) -> Interval | None:
    """
    Return a written interval; None where it is shorter than a day and so says nothing.

    Half months and half days are cut off, which makes the interval shorter, never longer; a
    part of one month counts as that part of the shortest month.
    """
    whole = int(quantity.si)
    if quantity.unit == "day":
        return Interval(days=whole) if whole >= 1 else None
    if whole >= 1:
        return Interval(months=whole)
    days = int(quantity.si * Decimal(SHORTEST_MONTH_DAYS))
    return Interval(days=days) if days >= 1 else None
