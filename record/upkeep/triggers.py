"""What makes a task due before its day: something befell it, a reading past its limit, its use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from record.accounts.drift import Reading, Series, series
from record.accounts.limits import past_limit
from record.facts.states import BEFELL
from record.fold import Happening, Thing
from record.readers import View
from record.units import Dimension, Quantity
from record.upkeep.catalogue import Task
from record.upkeep.dates import read_day
from record.upkeep.rules import CONDITION, EVENT, USE, Rule
from record.upkeep.services import Service
from record.words import tell, term

HOURS = "hours run"
LIMIT_OF_USE = "service_after_running"
SECONDS_IN_HOUR = 3600


@dataclass(frozen=True, slots=True)
class Triggers:
    """What happened and what was read, looked up once for every task."""

    view: View
    befell: tuple[Happening, ...]
    read: tuple[Series, ...]

    def rules(self, task: Task, thing: Thing, start: date, last: Service | None) -> Iterator[Rule]:
        """Yield every rule that what happened or was read since the last pass adds."""
        since = Since(start, last)
        yield from self._events(task, thing, since)
        mine = [one for one in self.read if one.about.partition("/")[0] == thing.tag]
        yield from _conditions(task, mine, since)
        yield from _use(task, thing, mine, since)

    def _events(self, task: Task, thing: Thing, since: Since) -> Iterator[Rule]:
        for one in self.befell:
            what = (one.text("what") if one.kind is BEFELL else None) or one.kind.word
            day = read_day(one.on)
            if what in task.after and day and _touches(one, thing) and since.stands(day, one.at):
                yield Rule(
                    EVENT,
                    tell("upkeep.after", what=term(what), on=one.on),
                    tell("upkeep.told"),
                    day,
                    None,
                    one.entry,
                )


@dataclass(frozen=True, slots=True)
class Since:
    """The day a task is counted from, and the pass it is counted from, if it was one."""

    start: date
    last: Service | None

    def stands(self, day: date, at: str | None) -> bool:
        """Return whether something of that moment is not surely answered by the last pass."""
        if self.last is None or self.last.day != self.start:
            return day >= self.start
        if day != self.last.day:
            return day > self.last.day
        done = self.last.happening.at
        return not (at is not None and done is not None and done > at)


def triggers(view: View, today: date) -> Triggers:
    """Return what may have made a task due up to ``today``."""
    built = view.built
    kinds = (BEFELL.word, "opened up", "worked by others", "uncovered")
    befell = tuple(one for one in built.happened(*kinds) if one.on <= today.isoformat())
    return Triggers(view, befell, tuple(_until(one, today) for one in series(view)))


def _until(one: Series, today: date) -> Series:
    later = tuple(each for each in one.later if each.happening.on <= today.isoformat())
    return Series(one.about, one.name, one.first, later, one.limit)


def _touches(one: Happening, thing: Thing) -> bool:
    """Return whether what happened is of the whole site, of the thing, or of where it is."""
    named = {tag.partition("/")[0] for tag in (one.about, *one.tags("tags")) if tag}
    if one.kind is BEFELL and not one.tags("tags"):
        return True
    where = {thing.tag, *(thing.text(name) or "" for name in ("hull", "on_run", "serves"))}
    return bool(named & where)


def _conditions(task: Task, mine: Sequence[Series], since: Since) -> Iterator[Rule]:
    for one in mine:
        past = (
            past_limit(one) if any(word in one.name.casefold() for word in task.readings) else None
        )
        day = read_day(past.happening.on) if past else None
        if past and day and since.stands(day, past.happening.at):
            yield Rule(
                CONDITION,
                tell(
                    "upkeep.read_on_limit",
                    name=one.name,
                    words=past.words,
                    day=day,
                    limit=one.limit,
                ),
                tell("upkeep.recorded_with_reading"),
                day,
                None,
                past.happening.entry,
            )


def _use(task: Task, thing: Thing, mine: Sequence[Series], since: Since) -> Iterator[Rule]:
    """
    Yield the rule of running hours: due when as many have run since the last pass as it may.

    Before that many have run, the day is carried on at the rate between the last two readings.
    """
    held = thing.held(LIMIT_OF_USE) if task.use else ()
    counters = [one for one in mine if one.name.casefold() == HOURS]
    for each in held:
        if not isinstance(each.value, Quantity) or not counters:
            continue
        read = [*_hours((counters[0].first, *counters[0].later))]
        before = [hours for day, hours in read if day <= since.start]
        begun = before[-1] if before else Decimal(0)
        found = _reached(read, begun + each.value.si / SECONDS_IN_HOUR, since.start)
        if found:
            day, said = found
            source = thing.words("maker's_interval_from")
            yield Rule(
                USE,
                tell("upkeep.run_since", text=each.value.text, start=since.start, said=said),
                source,
                day,
                None,
                each.entry,
            )


def _hours(readings: Sequence[Reading]) -> Iterator[tuple[date, Decimal]]:
    for one in readings:
        day = read_day(one.happening.on)
        if day and one.quantity is not None and one.of is Dimension.DURATION:
            yield day, one.quantity.si / SECONDS_IN_HOUR


def _reached(
    read: Sequence[tuple[date, Decimal]], due_at: Decimal, start: date
) -> tuple[date, str] | None:
    """Return the day a counter comes to so many hours, and how that is known."""
    for day, hours in read:
        if hours >= due_at and day >= start:
            return day, tell("upkeep.counter_at_h", normalize=f"{hours.normalize():f}")
    if len(read) < 2:
        return None
    (early, least), (late, most) = read[-2:]
    days, run = (late - early).days, most - least
    if days <= 0 or run <= 0:
        return None
    ahead = int((due_at - most) * days / run)
    if ahead > (date.max - late).days:
        return None
    return late + timedelta(days=ahead), tell("upkeep.at_rate_to", early=early, late=late)
