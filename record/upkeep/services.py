"""What "serviced" entries say of a task and a thing: done, failed, or only looked at.

Only a pass takes a task off the list. A failure stays until a pass that certainly came after
it; two of one day without times have no order, and then the failure stands.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import Enum

from record.fold import AsBuilt, Happening
from record.upkeep.catalogue import Task
from record.upkeep.dates import read_day


class Outcome(Enum):
    """What a service came to. No result stated at all counts as done, and is shown so."""

    DONE = "done"
    FAILED = "failed"
    LOOKED_AT = "looked at"


@dataclass(frozen=True, slots=True)
class Service:
    """One service: its day, its happening, and what it came to."""

    day: date
    happening: Happening
    outcome: Outcome

    def surely_after(self, other: Service) -> bool:
        """Return whether this came after ``other`` beyond doubt."""
        mine, theirs = self.happening.at, other.happening.at
        if self.day != other.day:
            return self.day > other.day
        return mine is not None and theirs is not None and mine > theirs


@dataclass(frozen=True, slots=True)
class Services:
    """Every service of one task on one thing, in the order of their days."""

    all: tuple[Service, ...] = ()

    def last_done(self) -> Service | None:
        done = [one for one in self.all if one.outcome is Outcome.DONE]
        return done[-1] if done else None

    def failed(self) -> tuple[Service, ...]:
        """Return the failures that no later pass has answered."""
        done = [one for one in self.all if one.outcome is Outcome.DONE]
        return tuple(
            one
            for one in self.all
            if one.outcome is Outcome.FAILED and not any(d.surely_after(one) for d in done)
        )

    def looked_at(self) -> tuple[Service, ...]:
        """Return what was looked at since the last pass, and not judged."""
        last = self.last_done()
        return tuple(
            one
            for one in self.all
            if one.outcome is Outcome.LOOKED_AT and (last is None or one.day >= last.day)
        )


def named(text: str) -> str:
    """Return a task's word as a crew may write it: capitals and spaces do not count.

    >>> named("Filter change")
    'filter-change'
    """
    return re.sub(r"[\s_-]+", "-", text.strip().casefold())


def services(
    built: AsBuilt, tasks: Mapping[str, Task], today: date
) -> dict[tuple[str, str], Services]:
    """
    Return the services up to ``today`` by (task's word, tag); titles are understood too.

    A failure that names no task of ours stands against every task of its thing, so that losing
    the word never loses the failure.
    """
    found: dict[tuple[str, str], list[Service]] = {}
    anyhow: dict[str, list[Service]] = {}
    for happening in built.happened("serviced"):
        day, tag = read_day(happening.on), happening.about.partition("/")[0]
        if day is None or day > today:
            continue
        service = Service(day, happening, _outcome(happening))
        words = _tasks_named(happening, tasks)
        for word in words:
            found.setdefault((word, tag), []).append(service)
        if not words and service.outcome is Outcome.FAILED:
            anyhow.setdefault(tag, []).append(service)
    for tag, failures in anyhow.items():
        for word in tasks:
            found.setdefault((word, tag), []).extend(failures)
    return {key: Services(tuple(sorted(each, key=_order))) for key, each in found.items()}


def _order(service: Service) -> tuple[date, str]:
    return service.day, service.happening.at or ""


def _tasks_named(happening: Happening, tasks: Mapping[str, Task]) -> tuple[str, ...]:
    """Return the words of the tasks it names; more than one where statements differ."""
    titles = {named(task.title): task.word for task in tasks.values()}
    said = [named(held.value) for held in happening.held("task") if isinstance(held.value, str)]
    words = dict.fromkeys(titles.get(one, one) for one in said)
    return tuple(word for word in words if word in tasks)


def _outcome(happening: Happening) -> Outcome:
    results = {held.value for held in happening.held("result")}
    if "failed" in results:
        return Outcome.FAILED
    settled = len({held.value for held in happening.held("task")}) == 1
    if settled and (not results or results == {"passed"}):
        return Outcome.DONE
    return Outcome.LOOKED_AT


def resetting_nothing(
    built: AsBuilt, tasks: Mapping[str, Task], taken: frozenset[tuple[str, str]]
) -> tuple[Happening, ...]:
    """Return services that are for no (task, thing) in ``taken``: a word or a tag is wrong."""
    return tuple(
        happening
        for happening in built.happened("serviced")
        if not any(
            (word, happening.about.partition("/")[0]) in taken
            for word in _tasks_named(happening, tasks)
        )
    )
