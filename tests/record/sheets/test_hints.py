"""Hints and gaps of a printed form: skipped wherever they stand, and refused where not filled."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.sheets import Sheet, SheetRejected, read_sheet
from record.sheets.hints import without_hints

LINES = """# 2031-05-14 ld

- site: fern-bank

## run AIR-IN

- size: 6 in
- joint: solvent weld,
  two coats

| station | crown [m] | how |
|---|---|---|
| 1 foot | 48.006 | staff |
| 2 bend | 47.906 | staff |

![wide, looking east, shows AIR-IN](a.jpg)

Rock at the bend.
""".splitlines()
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=30).filter(
    lambda words: "-->" not in words
)


def said(sheet: Sheet) -> list[tuple[str, str, dict[str, object], str]]:
    return [(d.kind.word, d.about, dict(d.body), d.key) for d in sheet.drafts]


def read(lines: list[str]) -> Sheet:
    return read_sheet("sheet.md", "\n".join(lines).encode())


@given(st.lists(WORDS, min_size=len(LINES), max_size=len(LINES)), st.data())
def test_a_hint_at_the_end_of_any_line_is_no_part_of_what_is_said(words: list[str], data):
    at = data.draw(st.sets(st.integers(0, len(LINES) - 1)))
    hinted = [f"{line} <!--{words[n]}-->" if n in at else line for n, line in enumerate(LINES)]
    assert said(read(hinted)) == said(read(LINES))


def test_a_hint_may_take_lines_of_its_own_between_blocks_and_hold_whole_blocks():
    hint = ["", "<!-- a hint", "## valve CV-1", "", "- size: 6 inn ____", "| a | b", "-->", ""]
    assert said(read([*LINES, *hint])) == said(read(LINES))
    assert said(read([*LINES[:7], *LINES[7:9], *hint, *LINES[9:]])) == said(read(LINES))


def test_a_hint_in_a_cell_hides_its_own_bar():
    row = LINES.index("| 1 foot | 48.006 | staff |")
    hinted = [*LINES]
    hinted[row] = "| 1 foot | 48.006 <!-- crown | not invert --> | staff |"
    assert said(read(hinted)) == said(read(LINES))


@given(st.lists(st.text(st.sampled_from("<!->ab "), max_size=14), max_size=8))
def test_what_is_no_hint_stays_in_its_column(lines: list[str]):
    """The outside check: one regular expression over the joined text blanks the same letters."""
    joined = "\n".join(lines)
    hint = re.compile(r"<!--.*?(-->|\Z)", re.DOTALL)
    blank = hint.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), joined)
    plain, opened = without_hints(lines)
    assert "\n".join(plain) == blank
    assert bool(opened) == any(not found[1] for found in hint.finditer(joined))


@pytest.mark.parametrize("gap", ["____", "__________", "~____ m", "____ ± 3 mm"])
def test_a_gap_that_was_not_filled_is_the_only_fault_there(gap: str):
    lines = [line.replace("6 in", gap) for line in LINES]
    with pytest.raises(SheetRejected) as caught:
        read(lines)
    [fault] = caught.value.faults
    assert fault.problem == "this gap was not filled"
    assert lines[fault.line - 1][fault.column - 1 :][: fault.length] == "_" * gap.count("_")


def test_three_strokes_are_not_a_gap():
    assert said(read([*LINES, "", "Two ___ three.", ""]))[-1][2] == {"text": "Two ___ three."}
