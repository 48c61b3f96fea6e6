"""Failures, repairs and retests: which belongs to which, and when it is settled."""

from __future__ import annotations

from record.fold.looks import chains, every_chain, surely_before
from tests.record.building import day, view_of

SITE = "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: x east"
RUN = "## run R-1\n\n- size: 6 in\n\n## run R-2\n\n- size: 6 in"
# ld-1 site, ld-2 and ld-3 runs, ld-4 the sheet.
FIRST = day("2031-05-14", "ld", SITE, RUN)


def a_test(result, at="", retest="none", tag="R-1"):
    hour = f"- at: {at}\n" if at else ""
    return (
        f"## tested {tag}\n\n{hour}- test: pour\n- result: {result}\n- reading: 4 L\n"
        f"- limit: 5 L\n- instrument: jug\n- retest of: {retest}"
    )


def repaired(of, at="", tag="R-1"):
    hour = f"- at: {at}\n" if at else ""
    return f"## repaired {tag}\n\n{hour}- what: joint\n- how: made anew\n- repair of: {of}"


def chain_words(*sheets, tag="R-1"):
    return [chain.words for chain in chains(view_of(FIRST, *sheets).built, tag)]


def test_a_failure_that_nobody_answered_says_that_it_did_not_pass():
    assert chain_words(day("2031-05-15", "ld", a_test("failed"))) == [
        "pour: failed (ld-5), not passed since"
    ]


def test_a_failure_its_repair_and_its_retest_are_one_chain_by_number():
    sheets = (
        day("2031-05-15", "ld", a_test("failed")),  # ld-5
        day("2031-05-16", "ck", repaired("ld-5")),  # ck-1
        day("2031-05-17", "ld", a_test("passed", retest="ld-5")),  # ld-7
    )
    assert chain_words(*sheets) == ["pour: failed (ld-5) → repaired (ck-1) → passed again (ld-7)"]


def test_a_retest_that_failed_stays_in_the_chain_until_one_passes():
    sheets = (
        day("2031-05-15", "ld", a_test("failed")),  # ld-5
        day("2031-05-16", "ld", a_test("failed", retest="ld-5")),  # ld-7
        day("2031-05-17", "ld", repaired("ld-7")),  # ld-9
        day("2031-05-18", "ld", a_test("passed", retest="ld-7")),  # ld-11
    )
    assert chain_words(*sheets[:2]) == [
        "pour: failed (ld-5) → failed again (ld-7), not passed since"
    ]
    assert chain_words(*sheets) == [
        "pour: failed (ld-5) → failed again (ld-7) → repaired (ld-9) → passed again (ld-11)"
    ]


def test_a_pass_that_names_no_failure_settles_none():
    sheets = (
        day("2031-05-15", "ld", a_test("failed")),
        day("2031-05-16", "ld", a_test("passed")),
    )
    assert chain_words(*sheets) == ["pour: failed (ld-5), not passed since"]


def test_a_pass_before_the_last_failure_does_not_settle_it():
    sheets = (
        day("2031-05-15", "ld", a_test("failed")),  # ld-5
        day("2031-05-16", "ld", a_test("passed", retest="ld-5")),  # ld-7
        day("2031-05-17", "ld", a_test("failed", retest="ld-7")),  # ld-9
    )
    (words,) = chain_words(*sheets)
    assert words.endswith("failed again (ld-9), not passed since")


def test_on_the_same_day_the_time_names_the_failure_of_the_same_thing_only():
    both = day(
        "2031-05-15",
        "ld",
        a_test("failed", "07:10"),
        a_test("failed", "07:10", tag="R-2"),
        a_test("passed", "08:00", retest="the leak of 07:10"),
    )
    view = view_of(FIRST, both)
    assert [(c.failed.about, c.settled) for c in every_chain(view.built)] == [
        ("R-1", True),
        ("R-2", False),
    ]


def test_two_steps_of_one_day_without_an_hour_have_no_known_order():
    one = day("2031-05-15", "ld", a_test("failed", "07:10"), repaired("07:10"))
    (words,) = chain_words(one)
    assert words.endswith("not passed since; 2031-05-15: order not known")
    hours = day("2031-05-15", "ld", a_test("failed", "07:10"), repaired("07:10", "07:40"))
    assert "order not known" not in chain_words(hours)[0]


def test_a_day_alone_comes_before_nothing_of_that_day():
    sheet = day("2031-05-15", "ld", a_test("failed", "07:10"), a_test("failed"))
    with_hour, without = view_of(FIRST, sheet).built.happened("tested")
    assert not surely_before(with_hour, without) and not surely_before(without, with_hour)
