"""A swap of two tags through a day sheet: what is refused, who sees it, and how it is told."""

from __future__ import annotations

import pytest

from record.answers.entry_list import Wanted, entry_list, entry_words
from record.answers.history import history, history_form, history_words
from record.answers.misled import misled_editions
from record.answers.show import show, show_form, show_words
from record.fold import fold, known_at
from record.log import Log
from record.readers import look
from record.sheets import SheetRejected
from tests.record.records import post_text, sheet

PLAN = """## run DRIP

- material: clay

## valve DV-1

- type: ball
- on run: DRIP

## valve DV-2

- type: ball
- on run: DRIP
"""
FRIDAY = """## valve DV-1

- serial: 77

## left as DV-2

- state: shut
- saw: ck
"""
SWAP = """## tags swapped DV-1

- with: DV-2
- from: 2031-05-12
- found by: pour test
- why: the plates hung the wrong way round
"""


@pytest.fixture
def valves(log: Log) -> Log:
    needed: list[str] = []
    try:
        post_text(log, sheet(PLAN, day="2031-05-10"))
    except SheetRejected as rejected:
        needed = [f.problem.split('"')[1] for f in rejected.faults]
    more = "".join(f"- {key}: not recorded\n" for key in dict.fromkeys(needed))
    if needed:
        post_text(log, sheet(PLAN.replace("- material: clay\n", "- material: clay\n" + more)))
    post_text(log, sheet(FRIDAY, day="2031-05-14", part="friday"))
    return log


def problems(log: Log, blocks: str) -> list[str]:
    with pytest.raises(SheetRejected) as refused:
        post_text(log, sheet(blocks, day="2031-05-17", writer="ck"))
    return [fault.problem for fault in refused.value.faults]


def swapped(log: Log, blocks: str = SWAP) -> None:
    post_text(log, sheet(blocks, day="2031-05-17", writer="ck"))


def test_one_block_puts_serial_and_left_as_right_and_both_are_told(valves: Log):
    swapped(valves)
    view = look(valves.entries())
    assert view.built.things["DV-2"].words("serial") == "77"
    (left,) = view.built.happened("left as")
    assert left.about == "DV-1"
    lines = "\n".join(show_words(show(view, "DV-2")))
    assert "written of DV-1; the tags were swapped, ck-1" in lines
    said = "\n".join(history_words(history(view, "DV-1")))
    assert "written of DV-2; the tags were swapped, ck-1" in said
    assert "tags swapped" in said
    (serial,) = show_form(show(view, "DV-2"))["fields"]["serial"]["held"]
    assert serial["swapped"] == ["written of DV-1; the tags were swapped, ck-1"]
    told = {e["entry"]: e for e in history_form(history(view, "DV-1"))["entries"]}
    assert told[left.entry.number]["written_of"] == "DV-2"
    assert told[left.entry.number]["swapped_by"] == ["ck-1"]


def test_the_swap_stands_in_the_history_of_both_valves(valves: Log):
    swapped(valves)
    view = look(valves.entries())
    for tag in ("DV-1", "DV-2"):
        assert "ck-1" in {told.entry.number for told in history(view, tag).told}


def test_the_list_of_entries_goes_by_what_was_meant(valves: Log):
    swapped(valves)
    found = entry_list(look(valves.entries()), Wanted(tag="DV-1", kind="left as"))
    assert "left as DV-1: written of DV-2" in entry_words(found)[0]


def test_a_mend_stands_under_the_right_name_once_the_swap_is_known(valves: Log):
    swapped(valves)
    serial = look(valves.entries()).built.things["DV-2"].held("serial")[0].entry.number
    mend = f"- mends: {serial}\n- because: misread\n- serial: 71"
    assert any("is about valve DV-2" in p for p in problems(valves, f"## valve DV-1\n\n{mend}"))
    post_text(valves, sheet(f"## valve DV-2\n\n{mend}", day="2031-05-18", writer="ck"))
    assert look(valves.entries()).built.things["DV-2"].words("serial") == "71"


def test_posting_the_old_sheet_again_adds_nothing(valves: Log):
    swapped(valves)
    assert not post_text(valves, sheet(FRIDAY, day="2031-05-14", part="friday")).recorded


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (("- with: DV-2", "- with: DV-1"), "cannot be swapped with itself"),
        (("- with: DV-2", "- with: DRIP"), "DV-1 is a valve and DRIP a run"),
        (("- with: DV-2", "- with: DV-9"), "nothing here has the tag DV-9"),
        (("2031-05-12", "2031-05-18"), "is after the day of this sheet"),
        (("2031-05-12", "not recorded"), "nothing can be put right"),
        (("- found by: pour test\n", ""), '"found by" is missing'),
    ],
)
def test_a_swap_that_cannot_be_is_refused(valves: Log, wrong: tuple[str, str], said: str):
    before = valves.entries()
    assert any(said in problem for problem in problems(valves, SWAP.replace(*wrong)))
    assert valves.entries() == before


def test_a_swap_that_fewer_may_see_than_what_it_corrects_is_refused(valves: Log):
    """The technician's copy has the serial under DV-1, and would keep it there."""
    (problem,) = problems(valves, SWAP + "- readers: owner\n")
    assert "could not see what puts it right" in problem and "technician" in problem


def test_every_reader_is_told_the_same_names(valves: Log):
    swapped(valves)
    for reader in ("owner", "technician", "responder"):
        built = look(valves.entries(), reader).built
        assert built.things["DV-2"].words("serial") == "77"


def test_editions_issued_while_it_was_wrong_are_named(valves: Log):
    """The first edition came after the serial was read and before the swap; the second after."""
    edition = (
        "## edition issued\n\n- edition: {n}\n- reader: technician\n- recorded to: 2031-05-14\n"
        "- checkpoint: c\n- pdf: p\n- html: h\n- calendar: i"
    )
    first = post_text(valves, sheet(edition.format(n=1), day="2031-05-15", part="one")).recorded[0]
    swapped(valves)
    post_text(valves, sheet(edition.format(n=2), day="2031-05-18", part="two"))
    view = look(valves.entries())
    (one,) = misled_editions(view.built)
    assert (one.number, one.reader, one.edition.number) == (1, "technician", first.number)
    assert {"DV-1", "DV-2"} <= one.tags
    said = [line for line in history_words(history(view, "DV-2")) if line.startswith("Edition")]
    assert len(said) == 1 and "Edition 1" in said[0] and "ck-1" in said[0]
    then = fold(known_at(valves.entries(), first.link.recorded))
    assert misled_editions(then) == () or then.things["DV-2"].words("serial") == "77"
