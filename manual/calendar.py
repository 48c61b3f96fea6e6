"""The upkeep calendar: what is due, as one iCalendar file (RFC 5545) for one reader's edition.

An event's UID is made of site, task and tag and never of a day, and SEQUENCE is the edition, so
that a later edition's file moves the events of an earlier one. No position and no place stands
in it: calendars are copied to machines the owner does not hold.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING, Any

from manual.languages import say, term
from record.facts.kind import TECHNICIAN
from record.readers import View
from record.upkeep import Due, expiries, occurrences
from record.upkeep.dates import Interval, add_months
from record.upkeep.rules import BENCHMARK
from record.upkeep.words import details

if TYPE_CHECKING:
    from icalendar import Event

PRODUCT = "-//asburied//upkeep calendar//EN"
REMIND_DAYS = 7
MONTHS_WRITTEN_OUT = 24  # days that no rule can say are listed this far
EVERY_MONTH_HAS = 28
_NAMES = uuid.UUID("6f0a7f2e-6d0c-5a53-9d3b-2f6d4f2b8c11")  # ours, never to be changed


def calendar(
    view: View, dues: Sequence[Due], *, edition: int, stamp: datetime, zone: tzinfo
) -> bytes:
    """
    Return the calendar of one edition: the same bytes for the same dues, edition and stamp.

    Parameters
    ----------
    view : View
        What the edition's reader may see; ``dues`` were asked of it.
    edition : int
        The edition's number, from 1.
    stamp : datetime
        The moment of the record's newest entry, never the clock; without a zone it is in ``zone``.
    zone : tzinfo
        The site's time zone. Days are days there, whole and without a zone (RFC 5545, DATE).

    Raises
    ------
    ValueError
        If a due rests on something the view does not show, or two are of one task and tag.
    """
    from icalendar import Calendar

    _check(view, dues)
    at = stamp if stamp.tzinfo else stamp.replace(tzinfo=zone)
    made = Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("name", _plain(say("calendar.upkeep_of", view=view.built.site_name())))
    for one in sorted(dues, key=lambda one: (one.due, one.about, one.task.word)):
        made.add_component(_event(view, one, edition, at.astimezone(UTC).replace(microsecond=0)))
    return bytes(made.to_ical(sorted=True))


def uid_of(site: str, one: Due) -> str:
    """Return the UID of a task of a thing: the same in every edition (RFC 7986, 5.3)."""
    return str(uuid.uuid5(_NAMES, f"{site}\n{one.task.word}\n{one.about}"))


def _check(view: View, dues: Sequence[Due]) -> None:
    shown = {entry.hash for entry in view.built.entries if entry.content is not None}
    met: set[tuple[str, str]] = set()
    for one in dues:
        entries = [one.counted_from.entry, *(rule.entry for rule in one.rules if rule.entry)]
        if one.about not in view.built.things or any(e.hash not in shown for e in entries):
            raise ValueError(f"a due was not asked of the {view.reader}'s view")
        if (one.task.word, one.about) in met:
            raise ValueError(f"{one.task.word} of {one.about} stands twice")
        met.add((one.task.word, one.about))


def _event(view: View, one: Due, edition: int, stamp: datetime) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", uid_of(view.built.site, one))
    event.add("dtstamp", stamp)
    event.add("sequence", edition)
    event.add("dtstart", one.due)
    event.add("summary", _plain(f"{one.about}: {one.title}"))
    event.add("description", "\n".join(_plain(line) for line in _description(one, edition)))
    event.add("categories", ["Upkeep", *one.who])
    event.add("class", _class(view, one))
    event.add("transp", "TRANSPARENT")
    if rule := _rule(one):
        event.add("rrule", rule)
    if further := _further_days(one, ruled=rule is not None):
        event.add("rdate", further, parameters={"VALUE": "DATE"})
    event.add_component(_alarm(one))
    return event


def _class(view: View, one: Due) -> str:
    """Return who a shared calendar may show it to: a technician's things are not the owner's."""
    thing = view.built.things[one.about]
    shown = TECHNICIAN in thing.kind.readers & one.task.readers and all(
        entry.content is None or TECHNICIAN in entry.content.readers
        for entry in thing.all_entries()
    )
    return "PRIVATE" if shown else "CONFIDENTIAL"


def _rule(one: Due) -> dict[str, Any] | None:
    """Return the repetition, if a rule can say it: a rule skips the months that are too short."""
    every: Interval | None = one.repeats
    if every is None:
        return None
    if every.days:
        return {"freq": "daily", "interval": every.days}
    if one.repeats_from.day > EVERY_MONTH_HAS or len(one.seasonal) > 1:
        return None
    if every.months % 12 == 0:
        return {"freq": "yearly", "interval": every.months // 12}
    return {"freq": "monthly", "interval": every.months}


def _further_days(one: Due, *, ruled: bool) -> list[date]:
    """Return days that no rule gives: each expiry, a missed one's day of asking, short months."""
    days = set(expiries(one))
    if one.overdue_days:
        # It would lie in the past, unseen, until the next time round.
        days.add(one.due + timedelta(days=one.overdue_days))
    if not ruled:
        until = add_months(one.due + timedelta(days=one.overdue_days), MONTHS_WRITTEN_OUT)
        days.update(occurrences(one, until))
    return sorted(days - {one.due})


def _alarm(one: Due) -> Any:
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add(
        "description",
        _plain(say("calendar.in_days", remind_days=REMIND_DAYS, about=one.about, title=one.title)),
    )
    alarm.add("trigger", timedelta(days=-REMIND_DAYS))
    return alarm


def _description(one: Due, edition: int) -> Iterator[str]:
    """Yield the card: what and why, the caution before any step, then ticks and one reading."""
    task = one.task
    yield f"{one.about}{f' ({one.name})' if one.name else ''}: {task.title}"
    if one.overdue_days:
        yield say("calendar.missed_it_was_due", due=one.due)
    yield task.why
    if task.benchmark:
        yield say("calendar.a_benchmark", benchmark=term(BENCHMARK))
    yield ""
    yield f"{term(task.signal).upper()}: {task.caution}"
    yield ""
    for number, step in enumerate(task.steps, start=1):
        yield f"{number}. {step}"
    yield say("calendar.passed_if", passes=task.passes)
    yield say("calendar.tools", tools=", ".join(task.tools))
    yield ""
    for tick in task.ticks:
        yield f"[ ] {tick}"
    yield say("calendar.reading", reading=task.reading)
    yield say("calendar.write_down", record=task.record)
    yield say("calendar.record_it_as_serviced", about=one.about, word=task.word)
    yield ""
    yield from details(one)
    yield say("calendar.manual_edition_after_a", edition=edition, title=task.title)


def _plain(text: str) -> str:
    """Return text with what RFC 5545, 3.3.11, keeps out of it, control characters, made visible."""
    return "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in text
    )
