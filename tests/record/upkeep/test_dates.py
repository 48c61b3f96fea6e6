"""Months, leap days and intervals on the calendar."""

import doctest
from datetime import date
from decimal import Decimal

import pytest
from dateutil.relativedelta import relativedelta
from dateutil.rrule import MONTHLY, YEARLY, rrule
from hypothesis import example, given
from hypothesis import strategies as st

from record.units import Dimension, Quantity, read_quantity
from record.upkeep import dates, services
from record.upkeep.dates import Interval, add_months, interval_of, read_day

days = st.dates(date(1900, 1, 1), date(2200, 12, 31))


@pytest.mark.parametrize(
    ("start", "months", "lands"),
    [
        ("2023-01-31", 1, "2023-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2023-01-31", 2, "2023-03-31"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-02-29", 48, "2028-02-29"),
        ("2022-08-31", 6, "2023-02-28"),
        ("2023-08-30", 6, "2024-02-29"),
    ],
)
def test_a_month_too_short_ends_on_its_last_day(start, months, lands):
    """python-dateutil's relativedelta, a published library, gives these days."""
    assert add_months(date.fromisoformat(start), months) == date.fromisoformat(lands)


def test_the_end_of_january_does_not_drift_to_the_28th():
    """By hand: one step a time would give 28 March (relativedelta does, chained)."""
    start, month = date(2023, 1, 31), Interval(months=1)
    found = [month.after(start, times) for times in range(1, 6)]
    assert [(day.month, day.day) for day in found] == [(2, 28), (3, 31), (4, 30), (5, 31), (6, 30)]
    assert start + relativedelta(months=1) + relativedelta(months=1) == date(2023, 3, 28)


@given(days, st.integers(1, 60), st.integers(1, 40))
@example(date(2024, 2, 29), 12, 4)
@example(date(2023, 12, 31), 2, 1)
def test_months_fall_where_dateutil_lets_them_fall(start, months, times):
    expected = start + relativedelta(months=months * times)
    assert Interval(months=months).after(start, times) == expected


@given(days, st.integers(1, 4000), st.integers(1, 12))
def test_days_fall_where_dateutil_lets_them_fall(start, count, times):
    assert Interval(days=count).after(start, times) == start + relativedelta(days=count * times)


@given(days, st.integers(1, 60), st.integers(1, 60))
def test_a_longer_interval_is_never_due_earlier(start, one, other):
    short, long = sorted((one, other))
    assert Interval(months=short).after(start) <= Interval(months=long).after(start)


def test_a_yearly_service_from_a_leap_day_is_not_every_fourth_year():
    """RFC 5545, 3.3.10: a rule skips days that are not there; dateutil's rrule does the same."""
    leap = date(2024, 2, 29)
    assert [d.year for d in rrule(YEARLY, dtstart=leap, count=3)] == [2024, 2028, 2032]
    assert [Interval(months=12).after(leap, n) for n in (1, 2)] == [
        date(2025, 2, 28),
        date(2026, 2, 28),
    ]


def test_a_rule_and_the_counting_agree_on_days_every_month_has():
    for day in (1, 15, 28):
        start = date(2023, 8, day)
        ruled = [d.date() for d in rrule(MONTHLY, interval=5, dtstart=start, count=30)]
        assert ruled == [Interval(months=5).after(start, n) for n in range(30)]


def test_what_lies_beyond_the_last_year_is_the_last_day_there_is():
    assert Interval(months=12 * 9000).after(date(2024, 5, 1)) == date.max
    assert Interval(days=10**12).after(date(2024, 5, 1), 3) == date.max


@pytest.mark.parametrize("wrong", [{}, {"months": 1, "days": 1}, {"months": -1}, {"days": -3}])
def test_an_interval_is_months_or_days_and_more_than_none(wrong):
    with pytest.raises(ValueError, match="months or of days"):
        Interval(**wrong)


@pytest.mark.parametrize(
    ("text", "reads"),
    [
        ("12 months", Interval(months=12)),
        ("1 year", Interval(months=12)),
        ("18 months", Interval(months=18)),
        ("6 weeks", Interval(days=42)),
        ("90 days", Interval(days=90)),
    ],
)
def test_an_interval_is_taken_as_the_maker_wrote_it(text, reads):
    assert interval_of(read_quantity(text, Dimension.INTERVAL)) == reads


@pytest.mark.parametrize(
    ("si", "unit", "reads"),
    [
        ("4.5", "month", Interval(months=4)),
        ("0.5", "month", Interval(days=14)),
        ("10.9", "day", Interval(days=10)),
        ("0.01", "month", None),
        ("0", "month", None),
        ("0.5", "day", None),
    ],
)
def test_a_broken_interval_is_cut_shorter_never_longer(si, unit, reads):
    """By hand: half of the shortest month, 28 days, is 14 days."""
    assert interval_of(Quantity(Decimal(si), unit, f"{si} {unit}")) == reads


def test_one_is_said_in_the_singular():
    said = [str(Interval(months=1)), str(Interval(months=2)), str(Interval(days=1))]
    assert said == ["1 month", "2 months", "1 day"]


def test_words_that_are_no_day_are_no_day():
    assert read_day("2024-02-29") == date(2024, 2, 29)
    assert [read_day(text) for text in ("2023-02-29", "Thursday", "", "not recorded")] == [None] * 4


def test_the_examples_in_the_docstrings_hold():
    results = [doctest.testmod(module) for module in (dates, services)]
    assert [result.attempted for result in results] == [1, 1]
    assert sum(result.failed for result in results) == 0
