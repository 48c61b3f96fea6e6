"""Batches and their workable time."""

import pytest

from record.checks import batch_used_in_time as rule
from tests.record.checks.ground import SEAM, against, changed, the_one


def test_a_batch_used_in_time_is_not_held():
    """Mixed 13:00, workable 60 min to 14:00, last used 13:50."""
    assert against(rule, SEAM) == []


def test_a_batch_used_a_quarter_hour_too_long_is_certainly_wrong():
    """Mixed 13:05 at 31 °C and workable 30 min, to 13:35; last used 13:50."""
    late = changed(
        SEAM, ("mixed: 13:00", "mixed: 13:05"), ("workable time: 60 min", "workable time: 30 min")
    )
    found = the_one(rule, late)
    assert (found.sure, found.stops) == ("certain", True)
    assert "to 13:35; last used 13:50, 15 min past it" in found.says


def test_a_coat_finished_after_the_batch_was_said_to_be_done_counts():
    """Foam was finished at 13:50; the batch is written as last used at 13:20, workable to 13:30."""
    said = changed(
        SEAM,
        ("last used: 13:50", "last used: 13:20"),
        ("workable time: 60 min", "workable time: 30 min"),
    )
    assert "foam finished 13:50, 20 min past it" in the_one(rule, said).says


@pytest.mark.parametrize(
    "pair",
    [
        ("mixed: 13:00", "mixed: not recorded"),
        ("workable time: 60 min", "workable time: not recorded"),
        ("last used: 13:50", "last used: not recorded"),
    ],
)
def test_a_batch_with_a_time_missing_cannot_be_told(pair):
    found = the_one(rule, changed(SEAM, pair))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_coat_of_a_batch_nobody_wrote_cannot_be_told():
    lost = changed(
        SEAM,
        (
            "| foam | 1 | 13:05 | 13:20 | F-1 | M-1 |",
            "| foam | 1 | 13:05 | 13:20 | F-1 | not recorded |",
        ),
    )
    found = the_one(rule, lost)
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_batch_is_known_by_either_end_of_the_story():
    """Used on the seam by its own entry, or by the coat's."""
    late = changed(SEAM, ("workable time: 60 min", "workable time: 30 min"))
    assert the_one(rule, changed(late, ("- used on: SM\n", ""))).stops
    assert the_one(rule, late.replace("| F-1 | M-1 |", "| F-1 | none |")).stops
