"""Recurrence and months by the calendar, as RFC 5545 and published libraries have them.

The reader of calendars that the upkeep calendar is held to is held itself to the examples of
RFC 5545, 3.8.5.3; the month arithmetic is ours.
"""

from datetime import date, timedelta

import pytest

from record.upkeep.dates import Interval, add_months


def days(start, rule, until):
    import recurring_ical_events
    from icalendar import Calendar

    lines = (
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//test//EN",
        "BEGIN:VEVENT",
        "UID:one",
        "DTSTAMP:19970101T000000Z",
        f"DTSTART;VALUE=DATE:{start}",
        f"RRULE:FREQ={rule}",
        "END:VEVENT",
        "END:VCALENDAR",
        "",
    )
    read = recurring_ical_events.of(Calendar.from_ical("\r\n".join(lines)))
    found = read.between(date(1990, 1, 1), until + timedelta(days=1))
    return sorted(event["dtstart"].dt for event in found)


def of(*said):
    return [date.fromisoformat(one) for one in said]


@pytest.mark.parametrize(
    ("start", "rule", "until", "expected"),
    [
        ("19970902", "DAILY;COUNT=10", "1998-01-01", [f"1997-09-{n:02d}" for n in range(2, 12)]),
        (
            "20070115",
            "MONTHLY;BYMONTHDAY=15,30;COUNT=5",
            "2008-01-01",  # 30 February is left out, and not moved
            ["2007-01-15", "2007-01-30", "2007-02-15", "2007-03-15", "2007-03-30"],
        ),
        (
            "19970805",
            "WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO",
            "1998-01-01",
            ["1997-08-05", "1997-08-10", "1997-08-19", "1997-08-24"],
        ),
        (
            "19970805",
            "WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU",
            "1998-01-01",
            ["1997-08-05", "1997-08-17", "1997-08-19", "1997-08-31"],
        ),
        (
            "19970928",
            "MONTHLY;BYMONTHDAY=-3",
            "1998-02-28",
            ["1997-09-28", "1997-10-29", "1997-11-28", "1997-12-29", "1998-01-29", "1998-02-26"],
        ),
        (
            "19970904",
            "MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3",
            "1998-01-01",
            ["1997-09-04", "1997-10-07", "1997-11-06"],
        ),
        (
            "19970101",
            "YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200",
            "2007-01-01",
            [
                *("1997-01-01", "1997-04-10", "1997-07-19", "2000-01-01", "2000-04-09"),
                *("2000-07-18", "2003-01-01", "2003-04-10", "2003-07-19", "2006-01-01"),
            ],
        ),
        (
            "19961105",
            "YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8",
            "2005-01-01",
            ["1996-11-05", "2000-11-07", "2004-11-02"],
        ),
        (
            "20240131",
            "MONTHLY;COUNT=7",
            "2025-01-01",
            [f"2024-{n:02d}-31" for n in (1, 3, 5, 7, 8, 10, 12)],
        ),
        ("20240229", "YEARLY;COUNT=3", "2033-01-01", [f"{n}-02-29" for n in (2024, 2028, 2032)]),
        (
            "20240131",
            "MONTHLY;BYMONTHDAY=-1;COUNT=4",
            "2025-01-01",
            ["2024-01-31", "2024-02-29", "2024-03-31", "2024-04-30"],
        ),
    ],
)
def test_the_reader_expands_the_examples_of_the_standard(start, rule, until, expected):
    assert days(start, rule, date.fromisoformat(until)) == of(*expected)


@pytest.mark.parametrize(
    ("start", "months", "expected"),
    [
        ("2023-01-31", 1, "2023-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2023-01-31", 2, "2023-03-31"),  # counted from the first day: not 28 March
        ("2024-02-29", 12, "2025-02-28"),
        ("2022-08-31", 6, "2023-02-28"),
        ("2023-08-30", 6, "2024-02-29"),
        ("2024-12-31", 2, "2025-02-28"),
    ],
)
def test_months_end_early_and_never_drift(start, months, expected):
    """As relativedelta of python-dateutil has them."""
    from dateutil.relativedelta import relativedelta

    first = date.fromisoformat(start)
    assert add_months(first, months) == date.fromisoformat(expected)
    assert add_months(first, months) == first + relativedelta(months=months)


def test_a_year_from_the_leap_day_is_the_end_of_february_however_it_is_counted():
    leap = date(2024, 2, 29)
    assert Interval(months=12).after(leap) == Interval(days=365).after(leap) == date(2025, 2, 28)
    assert Interval(months=12).after(leap, 4) == date(2028, 2, 29)
