"""Neither too soon nor too late."""

import pytest

from record.checks import waits_between_coats as rule
from tests.record.building import day
from tests.record.checks.ground import SEAM, against, changed, the_one


def test_waits_within_their_bounds_are_not_held():
    """Primer 08:30 to tar 10:00 is 1 h 30; tar 10:30 to foam 13:05, 2 h 35; lifts 20 min."""
    assert against(rule, SEAM) == []


def test_foam_on_hot_tar_waited_too_short():
    """10:30 to 12:20 is 1 h 50 min of 2 h."""
    found = the_one(rule, changed(SEAM, ("| 13:05 | 13:20 |", "| 12:20 | 12:40 |")))
    assert (found.sure, found.stops) == ("certain", True)
    assert found.says == "waited 1 h 50 min from tar to foam coat 1, at least 2 h asked"


def test_two_lifts_of_foam_wait_for_each_other_too():
    """13:20 to 13:30 is 10 min of 15."""
    found = the_one(rule, changed(SEAM, ("| 13:40 | 13:50 |", "| 13:30 | 13:50 |")))
    assert found.says == "waited 10 min from foam coat 1 to foam coat 2, at least 15 min asked"


def test_exactly_the_least_wait_is_kept():
    assert against(rule, changed(SEAM, ("| 13:05 | 13:20 |", "| 12:30 | 12:40 |"))) == []


def test_primer_left_bare_over_the_most_wait_is_too_old():
    """08:30 to 10:00 is 1 h 30 min."""
    found = the_one(rule, changed(SEAM, ("| 1 h | 24 h |", "| 1 h | 80 min |")))
    assert found.says == "waited 1 h 30 min from primer to tar, at most 80 min asked"
    assert found.sure == "certain"


def test_a_wait_over_midnight_counts_the_night():
    """Wrapped the next morning at 08:00: 18 h 10 min after the foam of 13:50."""
    row = "| wrap | 1 | 15:00 | 15:30 | W-1 | none | 14.0 °C | 8.6 °C | none |\n"
    evening = changed(SEAM, (row, ""), ("| 15 min | 24 h |", "| 15 min | 18 h |"))
    morning = day(
        "2031-05-15",
        "ld",
        "## coat applied SM\n\n- layer: wrap\n- coat: 1\n- lot: W-1\n"
        "- started: 08:00\n- ended: 08:30\n- surface: 14 °C\n- dew point: 8 °C",
    )
    assert the_one(rule, evening, morning).says.startswith("waited 18 h 10 min from foam coat 2")


@pytest.mark.parametrize(
    "pair",
    [("| 1 h | 24 h |", "| not recorded | 24 h |"), ("| 2 h | 48 h |", "| 2 h | not recorded |")],
)
def test_a_wait_nobody_gave_holds_and_none_does_not(pair):
    found = the_one(rule, changed(SEAM, pair))
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert against(rule, changed(SEAM, (pair[0], pair[1].replace("not recorded", "none")))) == []


def test_a_coat_whose_end_nobody_wrote_may_have_waited_too_long():
    """Primer begun at 08:00 and tarred at 10:00: 2 h at most, where 110 min are allowed."""
    bounds = ("| 1 h | 24 h |", "| none | 110 min |")
    assert against(rule, changed(SEAM, bounds)) == []
    [found] = against(
        rule, changed(SEAM, bounds, ("| 08:00 | 08:30 |", "| 08:00 | not recorded |"))
    )
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert found.says == "whether tar went on within 110 min of primer cannot be told"


def test_a_coat_whose_end_nobody_wrote_proves_no_wait():
    found = against(rule, changed(SEAM, ("| 08:00 | 08:30 |", "| 08:00 | not recorded |")))
    assert [(one.sure, one.stops) for one in found] == [("cannot be told", True)]


@pytest.mark.parametrize(
    ("planned", "held"), [("2031-05-14", False), ("2031-05-16", False), ("2031-05-17", True)]
)
def test_a_foam_planned_for_too_late_a_day_is_held_before_it_is_late(planned, held):
    """Tar ended at 10:30 on the 14th, and takes foam for 48 h, so to 10:30 on the 16th."""
    rows = [line + "\n" for line in SEAM.splitlines() if line.startswith(("| foam", "| wrap"))]
    tarred = changed(
        SEAM,
        *((row, "") for row in rows),
        ("what: backfill", "what: foam"),
        ("planned: 2031-05-20", f"planned: {planned}"),
    )
    found = against(rule, tarred)
    assert [one.says.rpartition("the tar ")[2] for one in found] == (
        ["not after 2031-05-16 10:30"] if held else []
    )
