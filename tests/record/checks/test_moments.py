"""What came first, where times of day are written only sometimes."""

from datetime import datetime, timedelta
from types import SimpleNamespace

import pytest

from record.checks.moments import duration_words, ended, moment

KNOWN, DAY = moment("2031-05-14", "14:10"), moment("2031-05-14", None)


@pytest.mark.parametrize(
    ("one", "other", "by"),
    [
        (moment("2031-05-13", None), DAY, True),
        (DAY, moment("2031-05-13", "23:59"), False),
        (KNOWN, KNOWN, True),
        (moment("2031-05-14", "14:11"), KNOWN, False),
        (DAY, KNOWN, None),
        (KNOWN, DAY, None),
        (DAY, DAY, None),
    ],
)
def test_within_one_day_the_order_is_known_only_from_the_hours(one, other, by):
    assert one.by(other) is by


def coat(**clocks):
    return SimpleNamespace(on="2031-05-14", at=None, text=clocks.get)


def test_a_coat_finished_past_midnight_is_of_the_next_day():
    end = ended(coat(started="23:30", ended="00:20"))
    assert end.earliest == end.latest == datetime(2031, 5, 15, 0, 20)


def test_a_coat_without_an_end_may_have_ended_any_time_after_its_start():
    end = ended(coat(started="13:00"))
    assert (end.earliest, end.latest) == (datetime(2031, 5, 14, 13), datetime(2031, 5, 14, 23, 59))


def test_a_span_is_said_as_one_would():
    told = [duration_words(timedelta(minutes=m)) for m in (10, 60, 130, 48 * 60, 72 * 60, 75 * 60)]
    assert told == ["10 min", "1 h", "2 h 10 min", "48 h", "3 d", "3 d 3 h"]
