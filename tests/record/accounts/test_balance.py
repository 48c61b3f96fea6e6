"""Deliveries held against what was built in, sent back and kept."""

from __future__ import annotations

import pytest

from record.accounts.amounts import read_amount
from record.accounts.balance import accounts
from record.accounts.balance_words import form, words
from tests.record.building import day, view_of

RUNS = """## run AIR-IN

- carries: supply air
- pipe length: 12.60 m

## run AIR-OUT

- carries: exhaust air
- pipe length: 5.00 m

## run PD-1

- carries: pumped water
"""
PIPE = """## delivered fern-bank

- what: air pipe 160
- amount: 24.00 m
- lot: P-14
- used for: AIR-IN, AIR-OUT

## used fern-bank

| what | amount | lot |
|---|---|---|
| risers of the terminals | 2.60 m | P-14 |
| riser of the discharge | 3.05 m | P-14 |
"""
OFFCUT = """## returned fern-bank

- what: air pipe 160
- amount: 0.75 m
- lot: P-14
- why: offcut, stays on site
"""


def valve(tag):
    return f"## valve {tag}\n\n- type: ball\n- on run: PD-1\n- lot: V-0290\n"


BALLS = "## delivered fern-bank\n\n- what: ball valves 40\n- amount: 3\n- lot: V-0290\n"


def kept(*blocks):
    found = accounts(view_of(day("2031-05-14", "ld", RUNS, *blocks)))
    return {one.name: one for one in found}


def test_pipe_adds_up_to_the_metre():
    """The demo's pipe by hand: 24.00 = 12.60 + 5.00 + 2.60 + 3.05 + 0.75."""
    one = kept(PIPE, OFFCUT)["P-14"]
    assert one.even and one.says == "adds up"
    short = kept(PIPE)["P-14"]
    assert not short.even and short.says.startswith("0.750 m (2' 5 1/2\") came and is neither")


def test_three_valves_came_and_two_are_fitted():
    blocks = (BALLS, valve("DV-1"), valve("DV-2"))
    one = kept(*blocks)["V-0290"]
    assert one.says == "1 came and is neither built in, sent back nor kept" and not one.even
    back = "## returned fern-bank\n\n- what: ball valve\n- amount: 1\n- lot: V-0290\n- why: spare\n"
    assert kept(*blocks, back)["V-0290"].even
    third = kept(*blocks, valve("DV-3"), back)["V-0290"]
    assert third.says == "1 more is accounted for than came"


def test_kits_are_counted_by_the_batches_mixed_of_them():
    """The demo's kits by hand: 12 = 9 used + 3 on hand."""
    kits = "## delivered fern-bank\n\n- what: epoxy kits, 2.5 L\n- amount: 12 kits\n- lot: E-501\n"
    batches = "\n".join(
        f"## batch M-{n}\n\n- product: epoxy\n- lots: A E-501, B E-501\n- mixed: 10:00\n"
        "- air: 20 °C\n- workable time: 45 min\n"
        for n in range(1, 10)
    )
    over = "## returned fern-bank\n\n- what: kits\n- amount: 3\n- lot: E-501\n- why: kept\n"
    assert kept(kits, batches, over)["E-501"].even


def test_what_nobody_wrote_down_is_not_nothing():
    tar = "## delivered fern-bank\n\n- what: hot tar\n- amount: 4 blocks\n- lot: T-22\n"
    one = kept(tar)["T-22"]
    assert one.left is None and one.says == (
        "cannot be told: none is recorded as built in, and nobody wrote that none was"
    )
    vague = "## delivered fern-bank\n\n- what: wrap\n- amount: not recorded\n- lot: W-18\n"
    assert kept(vague)["W-18"].left is None
    unmeasured = PIPE.replace("AIR-IN, AIR-OUT", "AIR-IN, AIR-OUT, PD-1")
    assert "PD-1, pipe length not recorded" in kept(unmeasured, OFFCUT)["P-14"].says


def test_what_is_planned_and_not_there_is_named():
    plan = "## expected EX-1\n\n- what: check valve 150\n- amount: 1\n- for: CV-1\n"
    one = kept(plan)["EX-1"]
    assert one.says == "planned, and nothing of it came" and one.missing == ("CV-1",)
    came = "## delivered fern-bank\n\n- what: check valve\n- amount: 1\n- item: EX-1\n"
    fitted = "## valve CV-1\n\n- type: check\n- on run: PD-1\n"
    assert kept(plan, came, fitted)["EX-1"].even
    two = plan.replace("amount: 1", "amount: 2")
    short = kept(two, came, fitted)["EX-1"]
    assert short.short.number == 1 and not short.even


def test_all_sent_back_adds_up_without_a_word_of_what_was_built_in():
    back = "## returned fern-bank\n\n- what: ball valves\n- amount: {}\n- lot: V-0290\n"
    assert kept(BALLS, back.format(3))["V-0290"].even
    some = kept(BALLS, back.format(2))["V-0290"]
    assert some.left is None and some.says.startswith("cannot be told: none is recorded as built")


def test_a_piece_that_names_its_item_is_counted_though_it_has_no_lot():
    plan = "## expected EX-2\n\n- what: ball valves 40\n- amount: 3\n"
    came = "## delivered fern-bank\n\n- what: ball valves\n- amount: 3\n- item: EX-2\n"
    fitted = [
        f"## valve {tag}\n\n- type: ball\n- on run: PD-1\n- item: EX-2\n"
        for tag in ("DV-1", "DV-2")
    ]
    one = kept(plan, came, *fitted)["EX-2"]
    assert [line.words for line in one.built_in] == ["DV-1", "DV-2"]
    assert one.says == "1 came and is neither built in, sent back nor kept"
    back = "## returned fern-bank\n\n- what: ball valve\n- amount: 1\n- item: EX-2\n"
    assert kept(plan, came, *fitted, back)["EX-2"].even
    pipes = "## expected EX-3\n\n- what: pipe\n- amount: 6 m\n"
    laid = "## run X-1\n\n- carries: pumped water\n- pipe length: 6 m\n- item: EX-3\n"
    brought = "## delivered fern-bank\n\n- what: pipe\n- amount: 6 m\n- item: EX-3\n"
    assert kept(pipes, brought, laid)["EX-3"].even
    assert kept(pipes, laid)["EX-3"].says == "built in, and nothing of it came"


def test_what_is_built_in_and_never_came_is_named():
    plan = "## expected EX-2\n\n- what: ball valves 40\n- amount: 1\n"
    fitted = "## valve DV-1\n\n- type: ball\n- on run: PD-1\n- item: EX-2\n"
    one = kept(plan, fitted)["EX-2"]
    assert one.says == "built in, and nothing of it came" and not one.even


def test_feet_and_metres_add_up_together():
    """24.00 m came as two lots of 40' (12.192 m each, 24.384 m); 0.384 m is over, by hand."""
    came = "## delivered fern-bank\n\n- what: pipe\n- amount: 40'\n- lot: P-9\n\n"
    used = "## used fern-bank\n\n- what: pipe\n- amount: 24.000 m\n- lot: P-9\n\n"
    over = "## returned fern-bank\n\n- what: pipe\n- amount: 384 mm\n- lot: P-9\n"
    assert kept(came, came, used, over)["P-9"].even
    assert str(kept(came, came, used)["P-9"].left.number.normalize()) == "0.384"


def test_measures_are_not_mixed():
    mixed = (
        PIPE
        + "\n## returned fern-bank\n\n- what: pipe\n- amount: 2 pieces\n- lot: P-14\n- why: x\n"
    )
    assert "in another measure" in kept(mixed)["P-14"].says


@pytest.mark.parametrize(
    ("text", "number", "measure"),
    [
        ("24.00 m", "24", "length"),
        ("78' 9\"", "24.003", "length"),
        ("2.5 L", "0.0025", "volume"),
        ("4 blocks", "4", None),
        ("9", "9", None),
    ],
)
def test_amounts_as_crews_write_them(text, number, measure):
    amount = read_amount(text)
    assert f"{amount.number.normalize():f}" == number
    assert (amount.of.value if amount.of else None) == measure


@pytest.mark.parametrize("text", ["some", "", "not recorded", "a few cans", "-3", "1.5"])
def test_what_is_no_amount_is_none(text):
    assert read_amount(text) is None


def test_words_and_json_tell_the_same():
    found = accounts(view_of(day("2031-05-14", "ld", RUNS, PIPE, OFFCUT, BALLS)))
    told = list(words(found))
    assert told[0] == "CANNOT BE TOLD" and "ADDS UP" in told
    assert [form(one)["even"] for one in found] == [True, False]
    assert list(words(())) == ["No plan and no delivery is recorded."]


def test_a_reader_without_deliveries_is_told_of_none():
    sheets = day("2031-05-14", "ld", RUNS, PIPE, OFFCUT)
    assert accounts(view_of(sheets, reader="responder")) == ()


def test_an_old_piece_that_is_taken_away_owes_nothing():
    [one] = kept("## returned fern-bank\n\n- what: blower, worn\n- amount: 1\n").values()
    assert one.even and one.says == "went, and is not of what came: an old piece"
    assert "ADDS UP" in "\n".join(words([one]))
