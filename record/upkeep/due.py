"""What is due, when, counted from what, and by whose rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from record.facts import KINDS
from record.fold import Happening, natural
from record.readers import View
from record.upkeep.catalogue import SAY_WHAT_IT_IS, WHO, Task, catalogue, told
from record.upkeep.counting import MADE, Counted, counted
from record.upkeep.dates import Interval
from record.upkeep.fitted import Fitted, fitted
from record.upkeep.past import Past, past_of
from record.upkeep.rules import EXPIRY, SEASON, Rule, makers_words, rules
from record.upkeep.seasons import Seasons, seasons
from record.upkeep.services import Service, Services, resetting_nothing, services
from record.upkeep.triggers import Triggers, triggers
from record.words import tell, tell_how_many


class CannotTell(ValueError):
    """This reader's copy holds no services, so that a date made from it would be wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """
    One task of one thing. There is one however often it was missed, and it stays overdue.

    ``rules`` are all that apply, the ruling one first: the strictest. ``doubt`` is not empty
    where too little is recorded to tell whether, or which, task the thing needs.
    """

    task: Task
    about: str
    name: str  # the thing's own, as recorded; may be empty
    due: date
    counted_from: Counted
    last_done: Happening | None
    overdue_days: int
    rules: tuple[Rule, ...]
    maker_says: str  # the maker's interval in words, or which absence; empty: not for this task
    notes: tuple[str, ...] = ()
    doubt: str = ""
    failed: tuple[Happening, ...] = ()

    @property
    def title(self) -> str:
        return self.task.title

    @property
    def ruling(self) -> Rule:
        return self.rules[0]

    @property
    def who(self) -> tuple[str, ...]:
        return self.task.who

    @property
    def page(self) -> str:
        return self.task.page

    @property
    def repeats(self) -> Interval | None:
        """The interval at which it comes again; None where only this one day is known."""
        return None if self.doubt or self.failed else self.ruling.interval

    @property
    def seasonal(self) -> tuple[Rule, ...]:
        """The seasons it comes before, every year; with one, no interval rules after the next."""
        return tuple(rule for rule in self.rules if rule.whose == SEASON)

    @property
    def repeats_from(self) -> date:
        """The day its repetitions are counted from."""
        return self.ruling.base or self.counted_from.on


def due(
    view: View, *, today: date, until: date | None = None, role: str | None = None
) -> tuple[Due, ...]:
    """
    Return what is due, soonest first: all of it, or up to and with the day ``until``.

    ``today`` is the day it is asked on: services after it do not count, and days before it are
    overdue. ``role`` leaves only what one of ``WHO`` may do.

    Raises
    ------
    CannotTell
        If the view's reader is shown no services.
    ValueError
        If there is no such role.
    """
    if role is not None and role not in WHO:
        raise ValueError(f'"{role}" is not one of {", ".join(WHO)}')
    found = [
        one
        for one in _all(view, today)
        if (until is None or one.due <= until) and (role is None or role in one.who)
    ]
    return tuple(sorted(found, key=lambda one: (one.due, natural(one.about), one.task.word)))


def services_for_nothing(view: View, *, today: date) -> tuple[Happening, ...]:
    """Return services that take nothing off the list: a word no task has, or another's tag."""
    taken = frozenset((one.task.word, one.about) for one in _all(view, today))
    return resetting_nothing(view.built, catalogue(), taken)


def occurrences(one: Due, until: date, *, first: date | None = None) -> tuple[date, ...]:
    """
    Return the due day and the days after it up to ``until``, if each is done on its day.

    They are counted from the first day, not from one another; days of expiry still to come
    stand among them. ``first`` is the day on which what is overdue is done: it stands for the due
    day, and what comes again is counted from it.
    """
    late = first is not None and first > one.due
    start = first if first is not None and late else one.due
    days = {start, *(day for day in expiries(one) if day > start)}
    if one.repeats is not None:
        for rule in one.seasonal or (one.ruling,):
            days.update(_again(rule, one, start, until, late))
    return tuple(sorted(day for day in days if day <= until))


def _again(rule: Rule, one: Due, start: date, until: date, late: bool) -> Iterator[date]:
    """Yield the days after its first on which a rule comes again, each counted from its base."""
    interval, base = rule.interval or one.repeats, rule.base or one.counted_from.on
    seasonal = rule.whose == SEASON
    if late and not seasonal:
        base = start
    # What is done late counts for a season that is near.
    after = start + timedelta(weeks=one.task.weeks_before) if late and seasonal else start
    times = 1
    while interval and (day := interval.after(base, times)) <= until:
        if day > after:
            yield day
        if day == date.max:
            return
        times += 1


def expiries(one: Due) -> tuple[date, ...]:
    """Return the days of expiry after the due day, soonest first."""
    found = {rule.due for rule in one.rules if rule.whose == EXPIRY and rule.due > one.due}
    return tuple(sorted(found))


def _all(view: View, today: date) -> Iterator[Due]:
    if view.reader not in KINDS["serviced"].readers:
        raise CannotTell(
            f"the {view.reader}'s copy does not show services, so that it cannot tell what is due"
        )
    tasks = catalogue()
    done = services(view.built, tasks, today)
    past, known, come = past_of(view.built), seasons(view), triggers(view, today)
    doubtful: list[tuple[Fitted, Due]] = []
    for found in fitted(view.built, tuple(tasks.values()), view.reader):
        one = _due(view, found, done, past, today, known, come)
        if one and found.doubt:
            doubtful.append((found, one))
        elif one:
            yield one
    yield from _cannot_be_told(doubtful, tasks[SAY_WHAT_IT_IS])


def _due(
    view: View,
    found: Fitted,
    done: Mapping[tuple[str, str], Services],
    past: Past,
    today: date,
    known: Seasons,
    come: Triggers,
) -> Due | None:
    task, thing = found.task, found.thing
    mine = done.get((task.word, thing.tag), Services())
    counting = counted(task, thing, found.parts, mine, past, today)
    if counting is None:
        return None
    start, missing = counting
    standing = mine.failed()
    last = mine.last_done()
    ruled = rules(
        task,
        thing,
        found.parts,
        start.on,
        standing,
        past,
        known.of(task.seasons),
        come.rules(task, thing, start.on, last),
    )
    return Due(
        task=told(task),
        about=thing.tag,
        name=thing.text("name") or "",
        due=ruled[0].due,
        counted_from=start,
        last_done=last.happening if last else None,
        overdue_days=max(0, (today - ruled[0].due).days),
        rules=ruled,
        maker_says=makers_words(task, thing),
        notes=tuple(_notes(view, found, mine, start, (*missing, *known.not_known(task.seasons)))),
        failed=tuple(one.happening for one in standing),
    )


def _notes(
    view: View, found: Fitted, mine: Services, start: Counted, missing: Sequence[str]
) -> Iterator[str]:
    thing = found.thing
    for one in mine.failed():
        said = one.happening.words("task")
        yield tell("upkeep.failed_on_due_until", day=one.day, one=_number(one), said=said)
    for one in mine.looked_at():
        result = one.happening.words("result")
        yield tell("upkeep.looked_at_on_result", day=one.day, one=_number(one), result=result)
    last = mine.last_done()
    if last and not last.happening.held("result"):
        yield tell("upkeep.done_on_with_no", day=last.day, last=_number(last))
    if last and start.why == MADE and last.day > start.on:
        yield tell("upkeep.done_on_if_was", day=last.day, last=_number(last))
    if missing:
        yield tell("upkeep.may_be_due_sooner", missing=", ".join(missing))
    unread = [one for one in view.built.unread if _is_about(one.entry.content, thing.tag)]
    if unread:
        yield tell_how_many("upkeep.unread", len(unread), tag=thing.tag)


def _is_about(content: object, tag: str) -> bool:
    return str(getattr(content, "about", "")).partition("/")[0] == tag


def _number(one: Service) -> str:
    return one.happening.entry.number


def _cannot_be_told(doubtful: Sequence[tuple[Fitted, Due]], task: Task) -> Iterator[Due]:
    """Yield one due a thing: find out what it is, by the soonest day any task could be due."""
    by_tag = sorted(doubtful, key=lambda pair: pair[0].thing.tag)
    for tag, pairs in groupby(by_tag, key=lambda pair: pair[0].thing.tag):
        each = list(pairs)
        soonest = min((one for _, one in each), key=lambda one: (one.due, one.task.word))
        fields = dict.fromkeys(said for found, _ in each for said in found.doubt)
        words = dict.fromkeys(one.task.word for _, one in each)
        yield Due(
            task=told(task),
            about=tag,
            name=soonest.name,
            due=soonest.due,
            counted_from=soonest.counted_from,
            last_done=None,
            overdue_days=soonest.overdue_days,
            rules=soonest.rules,
            maker_says="",
            notes=soonest.notes,
            doubt=tell("upkeep.may_need", fields=", ".join(fields), words=", ".join(words)),
            failed=soonest.failed,
        )


__all__ = ["CannotTell", "Due", "due", "expiries", "occurrences", "services_for_nothing"]
