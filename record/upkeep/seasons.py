"""When the seasons begin that upkeep must come before, worked from what is recorded of the site.

"condensing" is when outside air begins to wet the inside of a buried supply pipe, "frost" when
the first frost is to be looked for. Both are means of many years: a year may be weeks earlier.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from record.entry import Entry
from record.figures import Fed, Missing, Worked
from record.figures.of_ground import climate_of, day_of_year, of_seasons
from record.fold import Thing
from record.readers import View
from record.words import tell, tell_how_many, term

CONDENSING, FROST = "condensing", "frost"
SEASONS = (CONDENSING, FROST)
#: A daily mean at which nights begin to freeze: common practice, no source.
NIGHT_FROST_C = 5.0
DAYS = 365
COMMON_YEAR = 2001  # days of the year are of a year of 365


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """
    A season that comes every year, by the day it begins.

    ``begins`` says of what and how that was worked; ``entries`` are what it rests on.
    """

    word: str
    month: int
    day: int
    begins: str
    source: str
    entries: tuple[Entry, ...] = ()

    def first_day(self, year: int) -> date:
        """Return the day it begins in a year; no season is found to begin on a leap day."""
        return date(year, self.month, self.day)


@dataclass(frozen=True, slots=True)
class Seasons:
    """The seasons that are known, and by word why one is not."""

    known: tuple[Season, ...] = ()
    missing: tuple[tuple[str, str], ...] = ()

    def of(self, words: tuple[str, ...]) -> tuple[Season, ...]:
        return tuple(one for one in self.known if one.word in words)

    def not_known(self, words: tuple[str, ...]) -> tuple[str, ...]:
        """Return why a season is not known, shortly: ``missing`` has all of it."""
        return tuple(
            tell("upkeep.season", word=term(word), why=_shortly(why))
            for word, why in self.missing
            if word in words
        )


def _shortly(why: str) -> str:
    first, *more = why.split("; ")
    return tell_how_many("upkeep.and_more", len(more), first=first) if len(more) > 1 else why


def seasons(view: View) -> Seasons:
    """Return every season of the site, as far as a reader's copy of the record tells it."""
    found = [*_condensing(view), *_frost(view)]
    known = tuple(one for one in found if isinstance(one, Season))
    missing = dict.fromkeys(one for one in found if isinstance(one, tuple))
    return Seasons(known, tuple(missing))


def winter(view: View) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """
    Return the first and the last day of deep winter, each (month, day): a daily mean under 0 °C.

    None where the place has none, or its climate is not recorded.
    """
    from record.calc.cold_days import falls_to_day

    parts = climate_of(view)
    if any(isinstance(part, Missing) for part in parts):
        return None
    given = {part.key: float(part.value) for part in parts if isinstance(part, Fed)}
    coldest = given["coldest-day"]
    falls = falls_to_day(
        0.0, mean_c=given["mean"], amplitude_k=given["amplitude"], coldest_day=coldest
    )
    if falls is None:
        return None
    rises = (2 * coldest - falls) % DAYS  # as far after the coldest day as the fall is before it
    return _month_and_day(max(1, int(falls))), _month_and_day(max(1, int(rises)))


def _condensing(view: View) -> Iterator[Season | tuple[str, str]]:
    for worked in of_seasons(view):
        if worked.missing or worked.refused:
            yield CONDENSING, worked.refused or "; ".join(one.words for one in worked.missing)
        else:
            yield from _wet(worked)


def _wet(worked: Worked) -> Iterator[Season]:
    """Yield a season for each unbroken run of wet months; wet all year begins nowhere."""
    from record.calc.condensing_season import MONTHS
    from record.calc.condensing_season import seasons as spans
    from record.reckon.of_damp import condensing_year

    rows = [fed.value for fed in worked.given if fed.key == "month"]
    given = {fed.key: fed.value for fed in worked.given if fed.key != "month"}
    for first, last in spans(condensing_year({**given, "month": rows})):
        if (first, last) != (1, MONTHS):
            yield Season(
                word=CONDENSING,
                month=first,
                day=1,
                begins=tell("upkeep.air_begins_to_wet", heading=worked.heading),
                source=tell("upkeep.monthly_normals", source=term(worked.sum.source)),
                entries=_entries(worked),
            )


def _entries(worked: Worked) -> tuple[Entry, ...]:
    found = {held.entry.hash: held.entry for held in worked.rests}
    return tuple(found.values())


def _frost(view: View) -> Iterator[Season | tuple[str, str]]:
    site = view.built.site_thing()
    told = _first_frost(site) if site else None
    if told:
        yield told
        return
    if site is not None and (said := site.text("first_frost")):
        yield FROST, tell("upkeep.first_frost_no_day", tag=site.tag, said=said)
        return
    parts = climate_of(view)
    missing = [one.words for one in parts if isinstance(one, Missing)]
    if missing:
        yield FROST, tell("upkeep.first_frost_not_recorded", missing="; ".join(missing))
        return
    given = {part.key: part.value for part in parts if part and not isinstance(part, Missing)}
    entries = tuple(
        held.entry
        for part in parts
        if part and not isinstance(part, Missing) and part.key != "diffusivity"
        for held in part.rests
    )
    yield from _cold(given, tuple({one.hash: one for one in entries}.values()))


def _first_frost(site: Thing) -> Season | None:
    said = site.text("first_frost")
    number = day_of_year(said) if said else None
    if number is None:
        return None
    month, day = _month_and_day(number)
    return Season(
        word=FROST,
        month=month,
        day=day,
        begins=tell("upkeep.first_frost_usual"),
        source=tell("upkeep.first_frost_from", first_frost_from=site.words("first_frost_from")),
        entries=tuple(held.entry for held in site.held("first_frost")),
    )


def _cold(given: dict[str, object], entries: tuple[Entry, ...]) -> Iterator[Season]:
    from record.calc.cold_days import falls_to_day

    numbers = {key: float(str(value)) for key, value in given.items()}
    day = falls_to_day(
        NIGHT_FROST_C,
        mean_c=numbers["mean"],
        amplitude_k=numbers["amplitude"],
        coldest_day=numbers["coldest-day"],
    )
    if day is not None:
        month, of_month = _month_and_day(max(1, int(day)))
        yield Season(
            word=FROST,
            month=month,
            day=of_month,
            begins=tell("upkeep.days_come_down_to", night_frost_c=f"{NIGHT_FROST_C:g}"),
            source=tell("upkeep.yearly_wave_site_s"),
            entries=entries,
        )


def _month_and_day(number: int) -> tuple[int, int]:
    """
    Return month and day of a day of a year of 365.

    >>> _month_and_day(1), _month_and_day(60), _month_and_day(365)
    ((1, 1), (3, 1), (12, 31))
    """
    day = date(COMMON_YEAR, 1, 1) + timedelta(days=number - 1)
    return day.month, day.day
