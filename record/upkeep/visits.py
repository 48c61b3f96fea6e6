"""Tasks whose windows overlap, gathered into the fewest visits.

Each time a task falls due it may be done from some weeks before up to that day. The fewest days
on which every window is met are found by the earliest end first: no choice needs fewer (the
greedy rule for meeting intervals; Gavril 1972). Within what all tasks of a visit allow, the day is
then moved to even the gaps over the year, and to a weekday.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from record.readers import View
from record.upkeep.due import Due, occurrences
from record.upkeep.seasons import winter

DAY = timedelta(days=1)
#: How long before its day a task may be done, by its interval: common practice, no source.
LEADS_DAYS = ((12, 60), (6, 30), (3, 14), (2, 10), (0, 5))
DAYS_A_MONTH = 30
SATURDAY = 5
EVENING_OUT = 8  # times the gaps are evened; more moves nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """One time a task is due: the first and the last day on which it may be done."""

    one: Due
    opens: date
    due: date
    wintry: bool = False  # outside work that falls into deep winter, and cannot be done before it

    def has(self, day: date) -> bool:
        return self.opens <= day <= self.due


@dataclass(frozen=True, slots=True)
class Visit:
    """A day, and the windows that are met on it."""

    on: date
    windows: tuple[Window, ...]

    @property
    def opens(self) -> date:
        return max(window.opens for window in self.windows)

    @property
    def closes(self) -> date:
        return min(window.due for window in self.windows)

    @property
    def wintry(self) -> bool:
        return any(window.wintry for window in self.windows)


def visits(view: View, dues: Sequence[Due], *, today: date, until: date) -> tuple[Visit, ...]:
    """
    Return the fewest visits that meet everything due from ``today`` to ``until``, in order.

    What is overdue is met at the first, today. Work outside is kept out of deep winter where its
    window reaches back before it; where it does not, the visit says so.
    """
    cold = winter(view)
    windows = [
        _out_of_winter(window, cold, today)
        for one in dues
        for window in _windows(one, today, until)
    ]
    return _evened(fewest(windows))


def fewest(windows: Sequence[Window]) -> tuple[Visit, ...]:
    """Return the fewest visits such that each window has one, each window in one of them."""
    left = sorted(windows, key=lambda window: (window.due, window.opens, window.one.about))
    found: list[Visit] = []
    while left:
        day = left[0].due
        met = tuple(window for window in left if window.opens <= day)
        found.append(Visit(day, met))
        left = [window for window in left if window.opens > day]
    return tuple(found)


def _windows(one: Due, today: date, until: date) -> list[Window]:
    """Return the window of each time a task is due, no day of it before today."""
    days = occurrences(one, until, first=max(one.due, today))
    found = []
    for number, day in enumerate(days):
        opens = day - timedelta(days=_lead_days(one))
        if number:
            opens = max(opens, days[number - 1] + DAY)  # one time is not the next
        found.append(Window(one=one, opens=max(opens, today), due=day))
    return found


def _lead_days(one: Due) -> int:
    if one.ruling.whose == "season":
        return one.task.weeks_before * 7
    every = one.ruling.interval or one.task.interval
    months = every.months or every.days // DAYS_A_MONTH
    return next(days for least, days in LEADS_DAYS if months >= least)


def _out_of_winter(
    window: Window, cold: tuple[tuple[int, int], tuple[int, int]] | None, today: date
) -> Window:
    """Return the window of work outside without its days of deep winter, where some are left."""
    if not window.one.task.outside or cold is None or not _in_winter(window.due, cold):
        return window
    eve = window.due
    while _in_winter(eve, cold):
        eve -= DAY
    if eve < max(window.opens, today):
        return replace(window, wintry=True)
    return replace(window, due=eve)


def _in_winter(day: date, cold: tuple[tuple[int, int], tuple[int, int]]) -> bool:
    first, last = cold
    at = (day.month, day.day)
    return first <= at <= last if first <= last else at >= first or at <= last


def _evened(found: tuple[Visit, ...]) -> tuple[Visit, ...]:
    """Return the visits with their gaps evened, each within its windows, on weekdays if it can."""
    days = [visit.on for visit in found]
    for _ in range(EVENING_OUT):
        for place in range(1, len(days) - 1):
            middle = days[place - 1] + (days[place + 1] - days[place - 1]) // 2
            days[place] = min(max(middle, found[place].opens), found[place].closes)
    moved = [
        replace(visit, on=_weekday(visit, day)) for visit, day in zip(found, days, strict=True)
    ]
    return tuple(sorted(moved, key=lambda visit: visit.on))


def _weekday(visit: Visit, day: date) -> date:
    """Return the weekday nearest to ``day`` that the visit allows; else that day."""
    near = sorted(
        (day + timedelta(days=step) for step in range(-3, 4)), key=lambda one: abs(one - day)
    )
    fitting = (one for one in near if visit.opens <= one <= visit.closes)
    return next((one for one in fitting if one.weekday() < SATURDAY), day)
