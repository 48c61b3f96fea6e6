"""The algebra of mending: what stands after mends, withdrawals, and withdrawals of those."""

from __future__ import annotations

import pytest

from record.facts.values import Absent, Why
from record.fold import AsBuilt, fold
from tests.record.records import Tablet, measured

LONG = {"pipe_length": measured("12.60")}
SHORT = {"pipe_length": measured("12.06")}


def length(built: AsBuilt) -> str:
    return built.things["AIR-IN"].words("pipe_length")


def test_a_mend_takes_the_place_of_what_was_misread():
    ld = Tablet("ld")
    first = ld.says("run", "AIR-IN", SHORT)
    ld.says("run", "AIR-IN", LONG, mends=[first])
    assert length(fold(ld.chain)) == "12.60 m"


def test_a_mend_holds_from_the_day_of_what_it_mends():
    """A reading of the 14th that was put right on the 20th was right on the 15th already."""
    ld = Tablet("ld")
    first = ld.says("run", "AIR-IN", SHORT, on="2031-05-14")
    ld.says("run", "AIR-IN", LONG, on="2031-05-20", mends=[first])
    assert length(fold(ld.chain, as_of="2031-05-15")) == "12.60 m"
    assert fold(ld.chain, as_of="2031-05-13").thing("AIR-IN") is None


def test_withdrawing_a_mend_brings_back_the_state_before_it():
    ld = Tablet("ld")
    first = ld.says("run", "AIR-IN", {**SHORT, "material": "clay"})
    before = fold(ld.chain)
    mend = ld.says("run", "AIR-IN", LONG, mends=[first])
    ld.withdraws(mend)
    assert fold(ld.chain).things == before.things


def test_withdrawing_the_withdrawal_brings_back_the_mend():
    ld = Tablet("ld")
    first = ld.says("run", "AIR-IN", SHORT)
    mend = ld.says("run", "AIR-IN", LONG, mends=[first])
    mended = fold(ld.chain)
    back = ld.withdraws(mend)
    ld.withdraws(back)
    assert fold(ld.chain).things == mended.things


def test_a_thousand_withdrawals_of_withdrawals_end_where_they_must():
    """An even number of changes of mind leaves the statement standing."""
    ld = Tablet("ld")
    last = ld.says("run", "AIR-IN", LONG)
    for _ in range(1500):
        last = ld.withdraws(last)
    assert length(fold(ld.chain)) == "12.60 m"
    ld.withdraws(last)
    assert fold(ld.chain).thing("AIR-IN") is None


def test_withdrawing_a_things_only_entry_leaves_no_thing():
    ld = Tablet("ld")
    only = ld.says("run", "AIR-IN", LONG)
    ld.withdraws(only)
    assert fold(ld.chain).thing("AIR-IN") is None


@pytest.mark.parametrize("turned", [False, True])
def test_mends_of_two_different_fields_give_the_same_in_either_order(turned: bool):
    ld, ck = Tablet("ld"), Tablet("ck")
    first = ld.says("run", "AIR-IN", {**SHORT, "material": "clay"})
    ck.meets(ld)
    orders = [(ck, LONG), (ld, {"material": "steel"})]
    for tablet, body in reversed(orders) if turned else orders:
        tablet.says("run", "AIR-IN", body, mends=[first])
    run = fold([*ld.chain, *ck.chain]).things["AIR-IN"]
    assert (run.words("pipe_length"), run.words("material")) == ("12.60 m", "steel")


def test_two_mends_of_one_reading_disagree_until_an_entry_names_both():
    ld, ck = Tablet("ld"), Tablet("ck")
    first = ld.says("run", "AIR-IN", SHORT)
    ck.meets(ld)
    one = ld.says("run", "AIR-IN", LONG, mends=[first])
    two = ck.says("run", "AIR-IN", {"pipe_length": measured("12.65")}, mends=[first])
    run = fold([*ld.chain, *ck.chain]).things["AIR-IN"]
    value = run.value("pipe_length")
    assert isinstance(value, Absent) and value.why is Why.NOT_SETTLED
    assert run.si("pipe_length") is None
    assert {held.entry.number for held in run.held("pipe_length")} == {"ld-2", "ck-1"}
    ld.meets(ck)
    ld.says("run", "AIR-IN", LONG, mends=[one, two])
    assert length(fold([*ld.chain, *ck.chain])) == "12.60 m"


def test_a_mend_that_names_only_one_of_two_leaves_them_in_disagreement():
    """Having been handed the other tablet's mend is not the same as answering it."""
    ld, ck = Tablet("ld"), Tablet("ck")
    first = ld.says("run", "AIR-IN", SHORT)
    ck.meets(ld)
    one = ld.says("run", "AIR-IN", LONG, mends=[first])
    ck.meets(ld)
    ck.says("run", "AIR-IN", {"pipe_length": measured("12.65")}, mends=[first])
    ld.meets(ck)
    ld.says("run", "AIR-IN", {"pipe_length": measured("12.61")}, mends=[one])
    value = fold([*ld.chain, *ck.chain]).things["AIR-IN"].value("pipe_length")
    assert isinstance(value, Absent) and value.why is Why.NOT_SETTLED
    assert "12.65" in value.reason and "12.61" in value.reason


def test_a_mend_of_a_mend_answers_what_the_first_one_left_alone():
    """ld-2 mends the length only; ld-3 mends ld-2 and states the material too. What ld-1 says
    of the material is older than ld-3, which stands for both of them."""
    ld = Tablet("ld")
    first = ld.says("run", "AIR-IN", {**SHORT, "material": "clay"})
    second = ld.says("run", "AIR-IN", LONG, mends=[first])
    ld.says("run", "AIR-IN", {**LONG, "material": "steel"}, mends=[second])
    assert fold(ld.chain).things["AIR-IN"].words("material") == "steel"


def test_a_renewal_is_not_undone_by_a_later_mend_of_the_old_part():
    """The blower was renewed on the 20th; on the 25th the old one's serial is put right. The new
    one still turns, and the old one's number is right for the days it was there."""
    ld = Tablet("ld")
    old = ld.says("equipment", "AU-1", {"serial": "A-100"}, on="2031-05-14")
    ld.says("equipment", "AU-1", {"serial": "B-200"}, on="2031-05-20")
    ld.says("equipment", "AU-1", {"serial": "A-101"}, on="2031-05-25", mends=[old])
    assert fold(ld.chain).things["AU-1"].words("serial") == "B-200"
    assert fold(ld.chain, as_of="2031-05-19").things["AU-1"].words("serial") == "A-101"


def test_a_mend_of_the_morning_does_not_undo_the_afternoon():
    """Same day, no times: the second statement still follows the first, mended or not."""
    ld = Tablet("ld")
    morning = ld.says("valve", "DV-1", {"normal_position": "open"})
    ld.says("valve", "DV-1", {"normal_position": "shut"})
    ld.says("valve", "DV-1", {"normal_position": "half open"}, mends=[morning])
    assert fold(ld.chain).things["DV-1"].words("normal_position") == "shut"


def test_readings_are_mended_like_things():
    ld = Tablet("ld")
    body = {"what": "water level", "reading": "45.59 m"}
    wrong = ld.says("reading-taken", "DP-1", body)
    mend = ld.says("reading-taken", "DP-1", {"reading": "45.95 m"}, mends=[wrong])
    (reading,) = fold(ld.chain).happenings
    assert (reading.words("what"), reading.words("reading")) == ("water level", "45.95 m")
    assert reading.entry == wrong
    back = ld.withdraws(mend)
    (reading,) = fold(ld.chain).happenings
    assert reading.words("reading") == "45.59 m"
    ld.withdraws(back)
    ld.withdraws(wrong)
    assert fold(ld.chain).happenings == ()


def test_a_mend_of_something_that_is_not_here_is_shown_as_unread_and_changes_nothing():
    ld, ck = Tablet("ld"), Tablet("ck")
    lost = ld.says("run", "AIR-IN", SHORT)
    ck.meets(ld)
    stray = ck.says("run", "AIR-IN", LONG, mends=[lost])
    after = ck.says("run", "AIR-IN", {"pipe_length": measured("12.61")}, mends=[stray])
    built = fold(ck.chain)
    assert next(iter(built.unread)).entry == stray
    assert after.number in {
        held.entry.number for held in built.things["AIR-IN"].held("pipe_length")
    }


def test_a_mend_cannot_reach_forward_to_what_its_writer_had_not_seen():
    ld, ck = Tablet("ld"), Tablet("ck")
    first = ld.says("run", "AIR-IN", SHORT)
    ck.says("run", "AIR-IN", LONG, mends=[first])  # ck never met ld
    built = fold([*ld.chain, *ck.chain])
    assert length(built) == "12.06 m"
    assert [unread.entry.number for unread in built.unread] == ["ck-1"]
