"""The rules a task is due by: ours, the maker's, a season, expiry, failure. The strictest rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from record.entry import Entry
from record.facts.values import in_words
from record.fold import Thing
from record.units import Quantity
from record.upkeep.catalogue import Task
from record.upkeep.counting import day_of
from record.upkeep.dates import Interval, interval_of
from record.upkeep.past import Past
from record.upkeep.seasons import Season
from record.upkeep.services import Service
from record.words import tell, term

OURS = "ours"
MAKER = "maker"
EXPIRY = "expiry"
FAILED = "failed"
SEASON = "season"
EVENT, CONDITION, USE = "event", "condition", "use"
#: Of rules that fall on one day, which is told first.
ORDER = (FAILED, EVENT, CONDITION, EXPIRY, USE, SEASON, MAKER, OURS)
YEAR = Interval(months=12)
BENCHMARK = "not required for a home shelter"


@dataclass(frozen=True, slots=True)
class Rule:
    """
    One rule, whose it is, what it says, who says so, and the day it makes the task due.

    It comes again at ``interval``, counted from ``base``.
    """

    whose: str
    says: str
    source: str
    due: date
    interval: Interval | None = None
    entry: Entry | None = None
    base: date | None = None


def rules(
    task: Task,
    thing: Thing,
    parts: tuple[Thing, ...],
    start: date,
    failed: Sequence[Service],
    past: Past,
    seasons: Sequence[Season] = (),
    more: Iterable[Rule] = (),
) -> tuple[Rule, ...]:
    """Return every rule for a task counted from ``start``, the soonest due first."""
    source = f"{term(task.source)} ({term(BENCHMARK)})" if task.benchmark else term(task.source)
    ours = Rule(
        OURS,
        tell("upkeep.every", interval=task.interval),
        source,
        task.interval.after(start),
        task.interval,
        None,
        start,
    )
    found = [ours, *_makers(task, thing, start, past), *_expiries(task, parts or (thing,), past)]
    found += [
        Rule(
            FAILED,
            tell("upkeep.failed_on", day=one.day),
            tell("upkeep.due_until_retested"),
            one.day,
            None,
            entry,
        )
        for one in failed
        if (entry := one.happening.entry)
    ]
    found += [_seasonal(task, season, start) for season in seasons]
    found += more
    return tuple(sorted(found, key=lambda rule: (rule.due, ORDER.index(rule.whose))))


def _seasonal(task: Task, season: Season, start: date) -> Rule:
    """
    Return the rule to be done before a season begins.

    What was done, or put in, within the task's weeks before a season counts for that season.
    """
    window = timedelta(weeks=task.weeks_before)
    year = start.year
    while season.first_day(year) - window <= start:
        year += 1
    eve = season.first_day(year) - timedelta(days=1)
    day = season.first_day(year)
    numbers = ", ".join(dict.fromkeys(one.number for one in season.entries))
    return Rule(
        whose=SEASON,
        says=tell(
            "upkeep.before_about",
            begins=season.begins,
            day=day.day,
            month=tell(f"month_in_full.{day.month}"),
        ),
        source=f"{season.source}; {numbers}" if numbers else season.source,
        due=eve,
        interval=YEAR,
        entry=None,
        base=YEAR.before(eve),
    )


def makers_words(task: Task, thing: Thing) -> str:
    """Return what the record holds of the maker's interval; empty if it is not for this task."""
    if not task.maker or thing.kind.field("maker's interval") is None:
        return ""
    held = thing.held("maker's_interval")
    said = thing.words("maker's_interval")
    if not any(isinstance(one.value, Quantity) for one in held):
        return said
    numbers = ", ".join(one.entry.number for one in held)
    source = thing.words("maker's_interval_from")
    return tell("upkeep.from", said=said, source=source, numbers=numbers)


def _makers(task: Task, thing: Thing, start: date, past: Past) -> Iterator[Rule]:
    """Yield the maker's interval as logged; each of two that differ, so that the stricter rules."""
    if not task.maker:
        return
    for held in past.values(thing, "maker's_interval"):
        interval = interval_of(held.value) if isinstance(held.value, Quantity) else None
        if interval is None or not isinstance(held.value, Quantity):
            continue
        said = tell("upkeep.every", interval=held.value.text)
        source = thing.words("maker's_interval_from")
        yield Rule(MAKER, said, source, interval.after(start), interval, held.entry, start)


def _expiries(task: Task, things: Sequence[Thing], past: Past) -> Iterator[Rule]:
    for thing in things:
        for key in task.expiry:
            for held in past.values(thing, key.replace(" ", "_")):
                day = day_of(held)
                if day is not None:
                    yield Rule(EXPIRY, f"{term(key)} {day}", _which(thing), day, None, held.entry)


def _which(thing: Thing) -> str:
    """Return what carries the day: the row of a store, or the thing itself."""
    what = thing.held("what")
    said = f"{in_words(what[0].value)}, " if what else ""
    return f"{said}{thing.tag}"
