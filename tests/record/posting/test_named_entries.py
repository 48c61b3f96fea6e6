"""What a retest or a repair is of must be there, and must have been a look or a test."""

from __future__ import annotations

import pytest

from record.log import Log
from record.sheets import SheetRejected
from tests.record.records import SITE, post_text, sheet

RUN = "## run R-1\n\n- size: 6 in\n"
TESTED = """## tested R-1

- at: 07:10
- test: pour
- result: failed
- reading: 4 L
- limit: 5 L
- instrument: jug
- retest of: {retest}
"""
REPAIRED = "## repaired R-1\n\n- what: joint\n- how: made anew\n- repair of: {of}\n"


@pytest.fixture
def begun(log: Log) -> Log:
    """ld-1 site, ld-2 its sheet, ld-3 the run, ld-4 the test that failed, ld-5 its sheet."""
    post_text(log, SITE)
    post_text(log, sheet(RUN + "\n" + TESTED.format(retest="none")))
    return log


def problems(log: Log, blocks: str, day: str = "2031-05-15") -> list[str]:
    with pytest.raises(SheetRejected) as refused:
        post_text(log, sheet(blocks, day=day))
    return [fault.problem for fault in refused.value.faults]


def test_a_repair_and_a_retest_of_what_failed_are_taken(begun: Log):
    again = TESTED.format(retest="ld-4")
    assert post_text(begun, sheet(REPAIRED.format(of="ld-4") + "\n" + again, day="2031-05-15"))


def test_a_number_that_is_not_in_the_record_is_refused_where_it_is_written(begun: Log):
    with pytest.raises(SheetRejected) as refused:
        post_text(begun, sheet(REPAIRED.format(of="ld-4, ld-88"), day="2031-05-15"))
    (fault,) = refused.value.faults
    assert fault.problem == "repair of: this record has no entry ld-88"
    assert (fault.line, fault.column) == (10, 20)


def test_a_number_that_is_no_look_and_no_test_is_refused(begun: Log):
    assert problems(begun, REPAIRED.format(of="ld-3")) == [
        "repair of: ld-3 is a run of R-1, and not a look or a test"
    ]
    assert problems(begun, TESTED.format(retest="ld-3")) == [
        "retest of: ld-3 is a run of R-1, and not a look or a test"
    ]


def test_a_withdrawn_test_is_no_longer_named(begun: Log):
    post_text(
        begun, sheet("## withdrawn\n\n- mends: ld-4\n- because: other pipe\n", day="2031-05-15")
    )
    assert problems(begun, REPAIRED.format(of="ld-4"), "2031-05-16") == [
        "repair of: ld-4 was withdrawn"
    ]


def test_a_time_names_a_look_at_the_same_thing_on_the_same_day_only(begun: Log):
    assert problems(begun, REPAIRED.format(of="07:10")) == [
        "repair of: nothing that was looked at or tested of R-1 stands at 07:10 on 2031-05-15"
    ]
    same = sheet(REPAIRED.format(of="07:10"), day="2031-05-14", part="afternoon")
    assert post_text(begun, same).recorded


def test_a_time_names_what_stands_on_the_sheet_itself(begun: Log):
    blocks = TESTED.format(retest="none") + "\n" + REPAIRED.format(of="07:10")
    assert post_text(begun, sheet(blocks, day="2031-05-15")).recorded
    other = sheet(
        "## run R-2\n\n- size: 6 in\n\n"
        + TESTED.format(retest="none").replace("R-1", "R-2")
        + "\n"
        + REPAIRED.format(of="07:10"),
        day="2031-05-16",
    )
    with pytest.raises(SheetRejected):
        post_text(begun, other)


def test_words_in_an_older_field_are_let_be_but_a_number_is_asked_after(begun: Log):
    words = TESTED.format(retest="the leak at the third joint")
    assert post_text(begun, sheet(words, day="2031-05-15")).recorded
    assert problems(begun, TESTED.format(retest="ld-77"), "2031-05-16") == [
        "retest of: this record has no entry ld-77"
    ]
