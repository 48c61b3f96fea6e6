"""Tests that still prove something, and those that later work undid."""

from __future__ import annotations

import pytest

from record.accounts.proof_words import form, words
from record.accounts.proofs import FAILED, NOT_TOLD, STANDS, VOID, VOIDS, proofs
from tests.record.building import day, view_of

HULL = """## hull A

- inside length: 9.00 m
- inside width: 2.70 m
- inside height: 2.50 m
- steel thickness: 6 mm
- x: 20.00 m
- y: 10.00 m
- floor level: 46.20 m
- bearing: 270°
- how: tape

## panel A-L1

- hull: A
- face: left
- from near: 0 m
- bottom: 46.55 m
- width: 1.20 m
- height: 2.15 m
- thickness: 12 mm
- packing thickness: 90 mm

## run AIR-IN

- carries: supply air

## valve DV-1

- type: ball
- on run: AIR-IN

## equipment AU-1

- type: air unit

## build-up BU

- side: outside

| layer | material | coats |
|---|---|---|
| 1 | tar | 1 |

## seam SM-2

- joins: A and the link
- build-up: BU
- hull: A

## covering FILL

- hides: AIR-IN
"""


def passed_test(tag, name, result="passed", at="11:00", more=""):
    return f"""## tested {tag}

- at: {at}
- test: {name}
- result: {result}
- reading: 21 m³/h at 60 Pa
- limit: 30 m³/h
- instrument: door fan 1
{more}
"""


BUILT = day("2031-05-10", "ld", HULL)
TIGHT = day("2031-05-20", "ld", passed_test("A", "air tightness"))


def opened(tag, what="drilled", on="2031-06-14", at="10:20", writer="ld", more=""):
    hour = f"- at: {at}\n" if at else ""
    block = f"## opened up {tag}\n\n{hour}- what: {what}\n- why: a bracket\n{more}"
    return day(on, writer, block)


def only(view, about="A"):
    [proof] = [one for one in proofs(view) if one.about == about]
    return proof


def test_a_test_that_nothing_touched_stands():
    proof = only(view_of(BUILT, TIGHT))
    assert proof.state == STANDS and proof.words == "stands: 21 m³/h at 60 Pa"


def test_a_hole_in_the_lining_voids_the_tightness_of_its_hull():
    proof = only(view_of(BUILT, TIGHT, opened("A-L1")))
    assert proof.state == VOID
    assert proof.words == "VOID since 2031-06-14 10:20"
    assert [one.doing.happening.entry.number for one in proof.undone] == ["ld-13"]


def test_only_the_same_test_passed_again_restores_it():
    hole = opened("A-L1")
    again = day("2031-06-21", "ld", passed_test("A", "Air  Tightness"))
    proof = only(view_of(BUILT, TIGHT, hole, again))
    assert proof.state == STANDS and proof.words.startswith("stands again")
    [(before, undone)] = proof.earlier
    assert before.on == "2031-05-20" and len(undone) == 1
    other = day("2031-06-21", "ld", passed_test("A", "door force"))
    by_name = {one.name: one.state for one in proofs(view_of(BUILT, TIGHT, hole, other))}
    assert by_name == {"air tightness": VOID, "door force": STANDS}


def test_a_retest_names_what_it_is_of_by_its_number():
    named = day("2031-06-21", "ld", passed_test("A", "fan and gauge", more="- retest of: ld-11\n"))
    view = view_of(BUILT, TIGHT, opened("A-L1"), named)
    assert only(view).state == STANDS and only(view).test.on == "2031-06-21"


def test_a_test_failed_since_proves_nothing():
    failed = day("2031-06-21", "ld", passed_test("A", "air tightness", "failed"))
    proof = only(view_of(BUILT, TIGHT, failed))
    assert proof.state == FAILED and proof.words.startswith("FAILED 2031-06-21")


def test_what_was_done_before_the_test_undoes_nothing():
    assert only(view_of(BUILT, opened("A-L1", on="2031-05-19"), TIGHT)).state == STANDS


def test_of_one_day_without_an_hour_the_order_is_not_known_and_it_is_void():
    view = view_of(BUILT, TIGHT, opened("A-L1", on="2031-05-20", at="", writer="ck"))
    assert only(view).words == "VOID since 2031-05-20; order not known"
    earlier = view_of(BUILT, TIGHT, opened("A-L1", on="2031-05-20", at="10:59"))
    assert only(earlier).state == STANDS


def test_written_down_and_worked_out_are_one_lapse():
    wrote = day(
        "2031-06-14", "ld", "## proof lapsed A\n\n- at: 10:20\n- test: air tightness\n- cause: hole"
    )
    proof = only(view_of(BUILT, TIGHT, opened("A-L1"), wrote))
    assert proof.state == VOID and proof.since == "2031-06-14 10:20" and len(proof.undone) == 2
    other = day("2031-06-14", "ld", "## proof lapsed A\n\n- test: door force\n- cause: hole")
    assert only(view_of(BUILT, TIGHT, other)).state == STANDS


@pytest.mark.parametrize(
    ("tag", "name", "touched", "what", "state"),
    [
        ("AIR-IN", "pour test", "DV-1", "taken out", VOID),
        ("AIR-IN", "pour test", "DV-1", "reopened", VOID),
        ("DV-1", "flow through it", "AIR-IN", "cut", VOID),
        ("AIR-IN", "painted label", "DV-1", "taken out", STANDS),
        ("AIR-IN", "pour test", "A-L1", "drilled", STANDS),
        ("A", "air tightness", "AIR-IN", "cut", STANDS),
        ("A", "air tightness", "A-L1", "taken out", STANDS),
        ("A", "door force", "A-L1", "drilled", STANDS),
        ("SM-2", "holiday test", "SM-2", "welded", VOID),
        ("A", "air tightness", "SM-2", "welded", VOID),
        ("SM-2", "holiday test", "A-L1", "drilled", STANDS),
    ],
)
def test_which_work_undoes_which_test(tag, name, touched, what, state):
    """Common practice, no source: the rows of the table, and what lies just outside each."""
    passed = day("2031-05-20", "ld", passed_test(tag, name))
    assert only(view_of(BUILT, passed, opened(touched, what)), tag).state == state


@pytest.mark.parametrize(
    ("said", "state"),
    [
        ("drilled for a shelf bracket", VOID),
        ("welded a hook on", VOID),
        ("sawn through for a cable", VOID),
        ("painted", STANDS),
        ("drive widened", STANDS),
        ("cutlery drawer hung", STANDS),
    ],
)
def test_the_words_of_other_trades_are_read(said, state):
    others = day("2031-06-14", "gc", f"## worked by others A-L1\n\n- what: {said}\n")
    assert only(view_of(BUILT, TIGHT, others)).state == state


def test_a_pipe_dug_up_and_a_machine_repaired():
    dug = day("2031-06-14", "ld", "## uncovered FILL\n\n- tags: AIR-IN\n- extent: all of it\n")
    packed = day("2031-05-20", "ld", passed_test("FILL", "compaction"))
    assert only(view_of(BUILT, packed, dug), "FILL").state == VOID
    mended = day("2031-06-14", "ld", "## repaired AU-1\n\n- what: bearing\n- how: new one\n"
                 "- repair of: n/a, it squealed\n")  # fmt: skip
    flow = day("2031-05-20", "ld", passed_test("AU-1", "fan flow"))
    assert only(view_of(BUILT, flow, mended), "AU-1").state == VOID
    filter_ = day("2031-06-14", "ld", "## serviced AU-1\n\n- task: filter\n- parts: prefilter\n")
    assert only(view_of(BUILT, flow, filter_), "AU-1").state == STANDS


def test_a_test_without_a_name_is_undone_by_whatever_touches_its_thing():
    nameless = day("2031-05-20", "ld", passed_test("A", "not recorded"))
    assert only(view_of(BUILT, nameless, opened("A-L1"))).state == VOID


def test_what_a_reader_may_not_see_still_voids_and_is_not_told():
    """Non-interference: what hid behind it stays hidden; that the proof is void does not."""
    secret = opened("A-L1", more="- readers: owner\n")
    view = view_of(BUILT, TIGHT, secret, reader="technician")
    proof = only(view)
    assert proof.state == VOID
    told = "\n".join(words([proof]))
    assert "ask the owner" in told and "bracket" not in told and "drill" not in told
    assert form(proof)["undone_by"][0]["entry"] is None
    assert only(view_of(BUILT, TIGHT, secret)).state == VOID


def test_something_unread_of_the_thing_leaves_it_open():
    [site_and_hull, test] = [BUILT, TIGHT]
    view = view_of(site_and_hull, test)
    tainted = type(view)(**{
        name: getattr(view, name) for name in ("reader", "built", "hulls", "shapes", "withheld")
    }, unread={"A": 1})  # fmt: skip
    assert only(tainted).state == NOT_TOLD and "cannot be read" in only(tainted).words


def test_as_it_stood_between_hole_and_retest():
    again = day("2031-06-21", "ld", passed_test("A", "air tightness"))
    sheets = (BUILT, TIGHT, opened("A-L1"), again)
    assert only(view_of(*sheets, as_of="2031-06-13")).state == STANDS
    assert only(view_of(*sheets, as_of="2031-06-15")).state == VOID
    assert only(view_of(*sheets, as_of="2031-06-22")).state == STANDS


def test_work_on_something_else_changes_no_proof():
    before = only(view_of(BUILT, TIGHT))
    other = day(
        "2031-06-14", "ld", "## remark A\n\nlooked fine\n", "## left as DV-1\n\n- state: shut"
    )
    after = only(view_of(BUILT, TIGHT, other))
    assert (before.state, before.words) == (after.state, after.words)


def test_every_row_says_by_what_it_goes():
    assert all(row.source and row.what and row.on for row in VOIDS)


def test_words_tell_what_passed_what_undid_it_and_what_was_before():
    again = day("2031-06-21", "ld", passed_test("A", "air tightness"))
    told = list(words(proofs(view_of(BUILT, TIGHT, opened("A-L1"), again), "A")))
    assert told == [
        "A: air tightness, passed 2031-06-21 11:00 (ld-15)",
        "  stands again: 21 m³/h at 60 Pa",
        "  before: passed 2031-05-20 11:00, 21 m³/h at 60 Pa (ld-11)",
        "    undone by 2031-06-14 10:20: drilled (ld-13)",
    ]
    assert list(words(())) == ["No test that passed is recorded."]
