"""Whether a place was seen before its covering went on."""

import pytest

from record.answers import behind
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, sheet
from tests.record.building import view_of

COVERING = block("covering LIN-1", what="lining", hides="FO-1")


def state(seen, covered, seen_at=None, covered_at=None, later=()):
    """Return the cover state of a box seen on one day (and hour), covered on another."""
    plan = sheet(SITE, hull(), panel(), COVERING, date="2031-05-01")
    over = [sheet(block("covered LIN-1", at=covered_at, extent="all"), date=covered)]
    box = [sheet(fit_out(at=seen_at), date=seen)]
    days = [*box, *over] if seen <= covered else [*over, *box]
    (item,) = behind(view_of(plan, *days, *later), "P-1").items
    return item.cover


@pytest.mark.parametrize(
    ("seen", "covered", "found"),
    [
        (("2031-05-10", None), ("2031-05-11", None), "before cover"),
        (("2031-05-12", None), ("2031-05-11", None), "after cover"),
        (("2031-05-11", None), ("2031-05-11", "10:00"), "order not known"),
        (("2031-05-11", "10:00"), ("2031-05-11", None), "order not known"),
        (("2031-05-11", "10:00"), ("2031-05-11", "10:00"), "order not known"),
        (("2031-05-11", "09:59"), ("2031-05-11", "10:00"), "before cover"),
        (("2031-05-11", "10:01"), ("2031-05-11", "10:00"), "after cover"),
    ],
)
def test_days_decide_and_on_one_day_hours_where_both_are_written(seen, covered, found):
    assert state(seen[0], covered[0], seen[1], covered[1]) == found


def test_what_no_covering_hides_is_not_covered():
    view = view_of(sheet(SITE, hull(), panel(), fit_out()))
    assert behind(view, "P-1").items[0].cover == "not covered"


def test_a_serial_or_a_seal_written_later_does_not_move_the_place_after_the_cover():
    later = [sheet(block("fit-out FO-1", sealed="both ends"), date="2031-06-01")]
    assert state("2031-05-10", "2031-05-11", later=later) == "before cover"


def test_a_place_measured_again_through_a_window_stays_after_the_first_cover():
    later = [
        sheet(
            block("uncovered LIN-1", tags="FO-1", extent="window"),
            block("fit-out FO-1", from_near="2.31 m"),
            date="2031-06-01",
        ),
        sheet(block("covered LIN-1", extent="window"), date="2031-06-02"),
    ]
    assert state("2031-05-10", "2031-05-11", later=later) == "after cover"


def test_surely_after_one_cover_outweighs_an_unknown_order_with_another():
    """Covered on the 10th, opened, and closed again on the 12th: seen on the 12th, no hour."""
    over = [
        sheet(block("covered LIN-1", extent="all"), date="2031-05-10"),
        sheet(block("covered LIN-1", extent="window"), date="2031-05-12"),
    ]
    plan = sheet(SITE, hull(), panel(), COVERING, date="2031-05-01")
    view = view_of(plan, *over, sheet(fit_out(), date="2031-05-12", writer="ck"))
    assert behind(view, "P-1").items[0].cover == "after cover"


def late(box, *, writer="ld", unseen=None, together=False):
    """Covered on the 11th at 10:00; the box written of the same morning, but typed afterwards."""
    plan = sheet(SITE, hull(), panel(), COVERING, date="2031-05-01")
    over = block("covered LIN-1", at="10:00", extent="all")
    days = [sheet(over, box, date="2031-05-11")]
    if not together:
        days = [sheet(over, date="2031-05-11"), sheet(box, date="2031-05-11", writer=writer)]
    (item,) = behind(view_of(plan, *days, unseen=unseen), "P-1").items
    return item.cover


def test_one_who_had_seen_the_covering_recorded_wrote_after_it_whatever_hour_is_claimed():
    assert late(fit_out(at="09:00"), writer="ck") == "after cover"


def test_one_who_had_not_seen_it_is_taken_at_the_hour_written():
    """ck's tablet knew the first sheet only."""
    assert late(fit_out(at="09:00"), writer="ck", unseen={2: 1}) == "before cover"
    assert late(fit_out(), writer="ck", unseen={2: 1}) == "order not known"


def test_what_was_typed_on_one_sheet_with_the_covering_is_taken_at_its_hour():
    assert late(fit_out(at="09:00"), together=True) == "before cover"
    assert late(fit_out(at="11:00"), together=True) == "after cover"


def test_a_place_mended_after_the_cover_carries_it_for_ever():
    mend = "## fit-out FO-1\n\n- mends: ld-6\n- because: misread\n- from near: 2.31 m"
    later = [sheet(mend, date="2031-05-20")]
    assert state("2031-05-10", "2031-05-11", later=later) == "after cover"
