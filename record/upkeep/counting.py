"""From which day a task is counted, and which entry says so."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from record.entry import Entry
from record.fold import Held, Thing
from record.upkeep.catalogue import Task
from record.upkeep.dates import read_day
from record.upkeep.past import Past
from record.upkeep.services import Services
from record.words import term

MADE = "made"
FIRST_RECORDED = "first recorded"
LAST_DONE = "last done"


@dataclass(frozen=True, slots=True)
class Counted:
    """The day a task is counted from, why that day, and the entry it rests on."""

    on: date
    why: str
    entry: Entry


def counted(
    task: Task,
    thing: Thing,
    parts: tuple[Thing, ...],
    done: Services,
    past: Past,
    today: date,
) -> tuple[Counted, tuple[str, ...]] | None:
    """
    Return the day to count from, and the fields that would have told it better.

    The last pass; what was put in after it counts from that day instead. Without either, the
    day the thing (or the oldest of ``parts``) was first recorded. What ages from the day it was
    made counts from that day whenever it is known. None where nothing tells a day at all.
    """
    base, missing = _stated(task, thing, past, today)
    last = done.last_done()
    ages = base is not None and base.why == MADE
    if last and not ages and (base is None or base.on <= last.day):
        return Counted(last.day, LAST_DONE, last.happening.entry), ()
    if base is not None:
        return base, missing
    firsts = [past.first[one.tag] for one in parts or (thing,) if one.tag in past.first]
    if not firsts:
        return None
    day, entry = min(firsts, key=lambda one: one[0])
    return Counted(day, FIRST_RECORDED, entry), missing


def _stated(
    task: Task, thing: Thing, past: Past, today: date
) -> tuple[Counted | None, tuple[str, ...]]:
    """Return the first of the task's day fields that holds one, and those passed over."""
    missing: list[str] = []
    for key in task.counted_from:
        name = key.replace(" ", "_")
        read = [(day_of(held), held) for held in past.values(thing, name)]
        days = [(day, held) for day, held in read if day is not None and day <= today]
        if days:
            # Where two statements differ the earlier rules: it is due the sooner.
            day, held = min(days, key=lambda one: one[0])
            return Counted(day, key, held.entry), tuple(missing)
        if thing.kind.field(key):
            missing.append(f"{term(key)}: {thing.words(name)}")
    return None, tuple(missing)


def day_of(held: Held) -> date | None:
    """Return the day a field holds, or None: an absence, or words that are no day."""
    return read_day(held.value) if isinstance(held.value, str) else None
