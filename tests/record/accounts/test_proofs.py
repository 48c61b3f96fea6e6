"""Tests that still prove something, and those that later work undid."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.accounts.proof_words import doubts, form, void_rows, words
from record.accounts.proofs import FAILED, NOT_TOLD, STANDS, VOID, proofs
from record.accounts.voids import VOIDS
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
        ("AIR-IN", "water runs out", "AIR-IN", "cut", VOID),
        ("AIR-IN", "drains in a minute", "DV-1", "reopened", VOID),
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
    assert form(proof)["undone_by"][0]["what"] == []
    assert only(view_of(BUILT, TIGHT, secret)).state == VOID


def test_something_unread_of_the_thing_leaves_it_open():
    [site_and_hull, test] = [BUILT, TIGHT]
    view = view_of(site_and_hull, test)
    tainted = replace(view, unread=Counter({"A": 1}))
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


@pytest.mark.parametrize(
    ("tag", "name", "doing", "known", "blank"),
    [
        ("A", "air tightness", "opened up A-L1", "- what: drilled", "- what: not recorded"),
        ("A", "air tightness", "worked by others A-L1", "- what: drilled", "- what: not recorded"),
        ("AIR-IN", "pour", "opened up A", "- tags: AIR-IN", "- tags: not recorded"),
        ("AIR-IN", "pour", "opened up A", "- tags: AIR-IN", "- hull: A\n- tags: not recorded"),
        ("A", "air tightness", "opened up AIR-IN", "- hull: A", "- hull: not recorded"),
        ("DV-1", "lift", "serviced DV-1", "- parts: ball", "- parts: not recorded"),
    ],
)
def test_what_was_done_mended_to_not_recorded_never_makes_a_void_test_stand(
    tag, name, doing, known, blank
):
    """The house's rule: "not recorded" never makes an answer more permissive."""
    passed = day("2031-05-20", "ld", passed_test(tag, name))
    needed = {"opened up": ("- what: drilled", "- why: a bracket"), "serviced": ("- task: seat",)}
    stated = [
        line
        for word, lines in needed.items()
        if doing.startswith(word)
        for line in lines
        if line.split(":")[0] != known.split(":")[0]
    ]
    first = day("2031-06-14", "ld", f"## {doing}\n\n" + "\n".join([*stated, known]) + "\n")
    before = only(view_of(BUILT, passed, first), tag)
    assert before.state == VOID
    number = before.undone[0].doing.happening.entry.number
    mend = f"## {doing}\n\n{blank}\n- mends: {number}\n- because: not sure any more\n"
    after = only(view_of(BUILT, passed, first, day("2031-06-20", "ld", mend)), tag)
    assert after.state == VOID


def test_a_valve_of_no_known_run_may_be_of_any():
    poured = day("2031-05-20", "ld", passed_test("AIR-IN", "pour"))
    loose = BUILT.replace("- on run: AIR-IN", "- on run: not recorded")
    assert only(view_of(loose, poured, opened("DV-1")), "AIR-IN").state == VOID


def test_two_tests_without_a_name_do_not_renew_each_other():
    first = day("2031-05-20", "ld", passed_test("A", "not recorded"))
    second = day("2031-06-21", "ld", passed_test("A", "not recorded"))
    states = [one.state for one in proofs(view_of(BUILT, first, opened("A-L1"), second))]
    assert states == [VOID, STANDS]


def test_a_later_test_of_no_known_result_leaves_it_open():
    again = day("2031-06-21", "ld", passed_test("A", "air tightness", result="not recorded"))
    proof = only(view_of(BUILT, TIGHT, again))
    assert proof.state == NOT_TOLD and "result of ld-13 is not recorded" in proof.words


@pytest.mark.parametrize(("name", "state"), [("holiday", VOID), ("weld seen", STANDS)])
def test_a_seam_dug_out_has_its_coating_tested_again(name, state):
    coat = day("2031-05-20", "ld", passed_test("SM-2", name))
    dug = day("2031-06-14", "ld", "## uncovered FILL\n\n- tags: SM-2\n- extent: all of it\n")
    assert only(view_of(BUILT, coat, dug), "SM-2").state == state


UNRELATED = (
    "## remark A\n\nlooked fine\n",
    "## left as DV-1\n\n- state: shut\n",
    "## opened up AU-1\n\n- what: drilled\n- why: a bracket\n",
    "## serviced AU-1\n\n- task: filter\n- parts: prefilter\n",
    "## uncovered FILL\n\n- tags: AIR-IN\n- extent: all of it\n",
    "## opened up AIR-IN\n\n- what: cut\n- why: a tee\n",
    passed_test("AU-1", "fan flow"),
    passed_test("AIR-IN", "pour", result="failed"),
)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.tuples(st.sampled_from(UNRELATED), st.integers(1, 28), st.booleans()), max_size=5),
    st.booleans(),
)
def test_whatever_is_done_elsewhere_changes_no_proof(others, holed):
    """None of these is of the hull's air: before or after, alone or together, it stays as it was.

    Another writer's sheets leave the numbers of the first one's entries alone.
    """
    sheets = (BUILT, TIGHT, *((opened("A-L1"),) if holed else ()))
    more = tuple(
        day(f"2031-{'07' if late else '06'}-{dom:02d}", "ck", block) for block, dom, late in others
    )
    before, after = only(view_of(*sheets)), only(view_of(*sheets, *more))
    assert form(before) == form(after)
    assert before.state == (VOID if holed else STANDS)


def test_a_hole_that_undid_two_tests_in_a_row_is_told_once_and_whether_passed_since():
    twice = day("2031-05-25", "ld", passed_test("A", "air tightness"))
    again = day("2031-06-21", "ld", passed_test("A", "air tightness"))
    late = opened("A-L1", on="2031-07-01")
    rows = list(void_rows(proofs(view_of(BUILT, TIGHT, twice, opened("A-L1"), again, late))))
    assert [(row.since, row.now) for row in rows] == [
        ("2031-06-14 10:20", "passed again 2031-06-21 11:00 (ld-17)"),
        ("2031-07-01 10:20", "not passed since"),
    ]


def test_of_two_tests_before_a_hole_neither_reads_as_if_it_stood():
    twice = day("2031-05-25", "ld", passed_test("A", "air tightness"))
    said = doubts(view_of(BUILT, TIGHT, twice, opened("A-L1")))
    assert len(said) == 2
    assert all(one.startswith("VOID since 2031-06-14 10:20, not passed") for one in said.values())


def test_the_proofs_asked_of_one_tag_are_those_of_all_that_concern_it():
    """The proofs of everything, sifted, are the oracle."""
    from record.fold import fold
    from record.readers import look_at
    from tests.bench.long import read_all
    from tests.bench.made import Site

    view = look_at(fold(read_all(list(Site("fern-bank").entries(900)))))
    every = proofs(view)
    assert len(every) > 5
    for tag in (*view.built.things, "fern-bank", "nobody"):
        assert proofs(view, tag) == tuple(one for one in every if tag in one.test.concerns())
