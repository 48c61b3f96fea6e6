"""The inside of hull A while it is filled round: 2.500 m before; the engineer allows 25 mm."""

import pytest

from record.checks import shape_kept as rule
from tests.record.checks.ground import against, changed, the_one

SHAPE = """
## covering FILL

- what: backfill
- hides: A

## shape measured A

| what | stage | measured [m] | limit [mm] | limit from |
|---|---|---|---|---|
| inside height, middle | before | 2.500 | 25 | engineer |
| inside height, middle | at crown | 2.475 | 25 | engineer |
"""
READINGS = """
## covering FILL

- what: backfill
- hides: A

## reading taken A

| what | reading | limit | limit from |
|---|---|---|---|
| inside height, middle | 2.500 m | 25 mm change | engineer |
| inside height, middle, fill at the crown | 2.475 m | 25 mm change | engineer |
"""


@pytest.mark.parametrize("blocks", [SHAPE, READINGS])
def test_one_that_moved_as_much_as_it_may_is_right(blocks):
    assert against(rule, blocks) == []


@pytest.mark.parametrize("blocks", [SHAPE, READINGS])
def test_one_that_moved_a_millimetre_more_stops_the_fill(blocks):
    found = the_one(rule, changed(blocks, ("2.475", "2.474")))
    assert (found.about, found.stops, found.sure) == ("A", True, "certain")
    assert "0.026 m" in found.says and "less than before" in found.says
    assert "(engineer)" in found.says


@pytest.mark.parametrize(
    ("blocks", "old", "new"),
    [
        (SHAPE, "| before | 2.500 |", "| before | not recorded |"),
        (SHAPE, "| at crown | 2.475 | 25 |", "| at crown | 2.475 | not recorded |"),
        (READINGS, "| 2.475 m | 25 mm change |", "| 2.475 m | not recorded |"),
    ],
)
def test_a_measure_or_a_limit_nobody_wrote_cannot_be_told_and_stops(blocks, old, new):
    found = the_one(rule, changed(blocks, (old, new)))
    assert (found.stops, found.sure) == (True, "cannot be told")
    assert ("the limit" in found.says) is ("before" not in old)


def test_a_hull_nobody_measured_is_looked_at():
    found = the_one(rule, SHAPE[: SHAPE.index("## shape")])
    assert (found.stops, found.sure) == (False, "cannot be told")


def test_another_reading_of_the_hull_is_not_its_shape():
    damp = changed(
        READINGS[: READINGS.index("| inside height, middle, fill")],
        ("| inside height, middle | 2.500 m |", "| inside air | 14 °C |"),
    )
    assert the_one(rule, damp).says.startswith("no inside length")


def test_turf_moves_no_hull():
    assert against(rule, changed(SHAPE, ("2.475", "2.474"), ("backfill", "turf"))) == []
