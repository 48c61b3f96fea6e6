"""Thirty years of upkeep, done on time, late, failed and skipped, against another reckoning.

The other reckoning knows nothing of this project's dates: months are those of dateutil, a season
is a day of the year that it is told, and what is due is worked from the acts alone.
"""

import random
from datetime import date, timedelta

from dateutil.relativedelta import relativedelta

from record.readers import look
from record.upkeep import catalogue, due
from tests.record.building import day, entries_of
from tests.record.figures.ground import SITE

BUILT = date(2031, 5, 31)
END = date(2061, 5, 31)
FIRST_FROST = (10, 3)
PLAN = """
## valve CV-1

- type: check
- installed: 2031-05-31

## valve DV-1

- type: ball
- installed: 2031-05-31

## valve OV-1

- type: overpressure
- installed: 2031-05-31

## equipment FS-1

- type: filter set
- installed: 2031-05-31
- maker's interval: 9 months
- maker's interval from: maker's sheet 4

## equipment AL-1

- type: alarm
- detects: carbon monoxide
- installed: 2031-05-31

## drain D-2

- serves: not recorded
"""
#: Task, thing, months, whether it must also come before the first frost, by six weeks.
WATCHED = (
    ("check-valve-test", "CV-1", 6, True),
    ("valve-cycle", "DV-1", 12, False),
    ("overpressure-valve-check", "OV-1", 12, False),
    ("filter-change", "FS-1", 9, False),
    ("alarm-test", "AL-1", 1, False),
    ("drain-clearing", "D-2", 12, True),
)


def next_due(start, months, frosty):
    """Return the day on which what was done on ``start`` falls due again."""
    found = start + relativedelta(months=months)
    if frosty:
        frost = date(start.year, *FIRST_FROST)
        while frost - timedelta(weeks=6) <= start:
            frost = frost.replace(year=frost.year + 1)
        found = min(found, frost - timedelta(days=1))
    return found


def acts(seed):
    """Yield (day, task, tag, result): on time, late, skipped by a year, failed once a decade."""
    chance = random.Random(seed)
    for task, tag, months, frosty in WATCHED:
        on, fails = BUILT, {date(2031 + decade, 1, 1) for decade in (4, 14, 24)}
        while True:
            meant = next_due(on, months, frosty)
            late = chance.choice((0, 0, 0, 1, 5, 40, 400))
            done = meant + timedelta(days=late)
            if done > END:
                break
            failing = {one for one in fails if one <= done}
            if failing:
                fails -= failing
                yield done, task, tag, "failed"
                done += timedelta(days=chance.choice((1, 3, 30)))
                if done > END:
                    break
            yield done, task, tag, "passed"
            on = done


def expected(history, today):
    """Return the day each task is due as of ``today``, from the acts alone."""
    found = {}
    for task, tag, months, frosty in WATCHED:
        on, failed = BUILT, None
        for when, word, about, result in history:
            if (word, about) == (task, tag) and when <= today:
                on, failed = (when, None) if result == "passed" else (on, when)
        found[task, tag] = min(filter(None, (next_due(on, months, frosty), failed)))
    return found


def test_no_task_is_lost_none_is_doubled_and_every_day_is_right():
    history = sorted(acts(seed=7))
    site = f"{SITE}- first frost: 3 October\n- first frost from: weather office\n"
    sheets = [day(BUILT.isoformat(), "of", site, PLAN)]
    for number, (when, task, tag, result) in enumerate(history):
        said = f"## serviced {tag}\n\n- task: {task}\n- result: {result}\n"
        sheets.append(day(when.isoformat(), "ow", said, part=f"p{number}"))
    entries = entries_of(*sheets)
    assert len(history) > 300 and sum(one[3] == "failed" for one in history) == 18
    watched = {(task, tag) for task, tag, *_ in WATCHED}
    for today in days_asked(history):
        asked = due(look(entries, as_of=today.isoformat()), today=today)
        listed = [(one.task.word, one.about) for one in asked]
        assert len(listed) == len(set(listed))
        found = {key: one.due for one in asked if (key := (one.task.word, one.about)) in watched}
        assert found == expected(history, today), today


def days_asked(history):
    """Return days over all the years: before and on acts, and the ends of short months."""
    chance = random.Random(3)
    on = [when for when, *_ in chance.sample(history, 20)]
    ends = [date(2032, 2, 29), date(2033, 2, 28), date(2040, 2, 29), date(2059, 12, 31)]
    return sorted({BUILT, END, *on, *(one - timedelta(days=1) for one in on), *ends})


def test_the_other_reckoning_watches_what_the_catalogue_says():
    """The maker's nine months are the stricter of its filter's; the rest are the list's own."""
    for task, _, months, frosty in WATCHED:
        one = catalogue()[task]
        assert one.interval.months == months or (task, months) == ("filter-change", 9)
        assert ("frost" in one.seasons) is frosty and one.weeks_before in (0, 6)
