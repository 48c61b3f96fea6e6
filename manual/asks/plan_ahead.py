"""Upkeep looked ahead: the year at a glance, ten years, visits, and how each season is worked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import pairwise

from manual.languages import say, term
from record.figures.of_ground import of_seasons
from record.readers import View
from record.units import Dimension, in_both
from record.upkeep import Due, occurrences
from record.upkeep.dates import add_months
from record.upkeep.seasons import CONDENSING, Season, seasons
from record.upkeep.visits import visits
from record.words import tell

YEARS = 10
#: A task that comes round sooner fills every year alike, and stands in the year at a glance.
LEAST_MONTHS = 6


@dataclass(frozen=True, slots=True)
class Row:
    """One task over some months or years: what it is of, and what stands in each column."""

    title: str
    things: tuple[str, ...]
    late: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ahead:
    """A table of tasks: its columns, and its rows."""

    columns: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """A season over the twelve months: dew point and ground in each, and in which it is wet."""

    heading: str
    months: tuple[tuple[str, str, str, bool], ...]
    entries: tuple[str, ...]


def _month(number: int) -> str:
    return say(f"month.{number}")


def year_ahead(dues: Sequence[Due], today: date) -> Ahead:
    """Return twelve months from the month of ``today``; a cell says how many things are due."""
    starts = [add_months(today.replace(day=1), number) for number in range(13)]
    columns = tuple(_month(start.month) for start in starts[:-1])

    def cells(each: Sequence[Due]) -> Iterator[str]:
        days = [
            day for one in each for day in occurrences(one, starts[-1], first=max(one.due, today))
        ]
        for start, end in pairwise(starts):
            count = sum(max(start, today) <= day < end for day in days)
            yield str(count) if count else ""

    return Ahead(columns, tuple(_rows(dues, today, cells)))


def ten_years(dues: Sequence[Due], today: date) -> Ahead:
    """Return ten years from that of ``today``; a cell says in which months a task is due."""
    years = tuple(range(today.year, today.year + YEARS))
    end = date(years[-1], 12, 31)

    def cells(each: Sequence[Due]) -> Iterator[str]:
        days = [day for one in each for day in occurrences(one, end, first=max(one.due, today))]
        for year in years:
            months = sorted({day.month for day in days if day.year == year and day >= today})
            yield ", ".join(_month(month) for month in months)

    rare = [one for one in dues if _months(one) >= LEAST_MONTHS]
    return Ahead(tuple(map(str, years)), tuple(_rows(rare, today, cells)))


def _months(one: Due) -> int:
    every = one.ruling.interval or one.task.interval
    return every.months or every.days // 30


def _rows(
    dues: Sequence[Due], today: date, cells: Callable[[Sequence[Due]], Iterable[str]]
) -> Iterator[Row]:
    by_task: dict[str, list[Due]] = {}
    for one in dues:
        by_task.setdefault(one.title, []).append(one)
    for title, each in by_task.items():
        yield Row(
            title=title,
            things=tuple(dict.fromkeys(one.about for one in each)),
            late=sum(one.due < today for one in each),
            cells=tuple(cells(each)),
        )


@dataclass(frozen=True, slots=True)
class VisitTold:
    """One visit: its day, between which it may fall, each task with what it is of."""

    on: date
    opens: date
    closes: date
    wintry: bool
    told: tuple[tuple[str, str], ...]


def visits_ahead(view: View, dues: Sequence[Due], today: date) -> Iterator[VisitTold]:
    """Yield the fewest visits that meet everything due in the coming year."""
    for visit in visits(view, dues, today=today, until=add_months(today, 12)):
        of: dict[str, list[str]] = {}
        for window in visit.windows:
            of.setdefault(window.one.title, []).append(window.one.about)
        told = tuple((title, ", ".join(dict.fromkeys(tags))) for title, tags in of.items())
        yield VisitTold(visit.on, visit.opens, visit.closes, visit.wintry, told)


def season_words(view: View) -> Iterator[str]:
    """Yield when each season begins and how that is known, or what is missing to know it."""
    known = seasons(view)
    for one in known.known:
        # What the air's season rests on stands at its strip.
        entries = () if one.word == CONDENSING else one.entries
        yield f"{_begins(one)}: {one.source}{_numbers(entry.number for entry in entries)}"
    for word, why in known.missing:
        yield say("upkeep.the_season_is_not", word=term(word), why=why)


def _begins(one: Season) -> str:
    day = one.first_day(2001)
    return say(
        "upkeep.about", day=day.day, month=tell(f"month_in_full.{day.month}"), begins=one.begins
    )


def _numbers(numbers: Iterable[str]) -> str:
    told = ", ".join(dict.fromkeys(numbers))
    return f" ({told})" if told else ""


def strips(view: View) -> Iterator[Strip]:
    """Yield for each supply run the months that wet it: where dew point is over the ground."""
    from record.reckon.of_damp import condensing_year

    for worked in of_seasons(view):
        if worked.missing or worked.refused:
            continue
        rows = [fed.value for fed in worked.given if fed.key == "month"]
        given = {fed.key: fed.value for fed in worked.given if fed.key != "month"}
        months = tuple(
            (_month(one.number), _degrees(one.dew_point_c), _degrees(one.ground_c), one.wet)
            for one in condensing_year({**given, "month": rows})
        )
        numbers = tuple(dict.fromkeys(held.entry.number for held in worked.rests))
        yield Strip(worked.heading, months, numbers)


def _degrees(celsius: float) -> str:
    return in_both(Decimal(f"{celsius:.0f}"), Dimension.TEMPERATURE)
