"""How a thing stands, how it came to be so, and the log as a list."""

from __future__ import annotations

import pytest

from record.answers import NotFound
from record.answers.entry_list import Wanted, entry_list, entry_words
from record.answers.history import history, history_form, history_words
from record.answers.show import show, show_form, show_words
from tests.record.building import day, view_of
from tests.record.place.measuring import book, mark, pipe, site

SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt, 50.000 m
- grid: x east, y north
"""
RUN = """
## run AIR-IN

- carries: supply air
- size: 6 in
- screen: not recorded
- insulation: none
- freeze protection: n/a, below frost

| station | invert [m] | how |
|---|---|---|
| 1 foot | 47.850 | staff |
| 2 bend | 47.906 | staff |
"""
STORE = """
## store S-3

- looks like: plain board
"""
# ld-1 site, ld-2 run, ld-3 and ld-4 stations, ld-5 the sheet.
FIRST = day("2031-05-14", "ld", SITE, RUN)


def mend(writer, invert, because, mends="ld-4"):
    return day(
        "2031-05-15",
        writer,
        f"## run AIR-IN\n\n- mends: {mends}\n- because: {because}\n\n"
        f"| station | invert [m] |\n|---|---|\n| 2 bend | {invert} |",
    )


def test_a_thing_shows_every_field_with_the_entry_and_the_day_it_rests_on():
    shown = show_form(show(view_of(FIRST), "AIR-IN"))
    size = shown["fields"]["size"]
    assert size["words"] == '0.152 m (6")' and size["settled"]
    assert size["held"] == [
        {
            "value": {"text": "6 in", "si": "0.1524", "unit": "m"},
            "on": "2031-05-14",
            "at": None,
            "entry": "ld-2",
            "writer": "ld",
            "did": None,
            "saw": None,
            "by": None,
            "swapped": [],
        }
    ]


def test_three_kinds_of_nothing_are_shown_as_three_different_things():
    fields = show_form(show(view_of(FIRST), "AIR-IN"))["fields"]
    words = [fields[name]["words"] for name in ("screen", "insulation", "freeze protection")]
    assert words == ["not recorded", "none", "n/a, below frost"]


def test_a_part_is_shown_alone_by_its_own_tag():
    shown = show(view_of(FIRST), "AIR-IN/2")
    assert shown.kind == "station" and not shown.parts
    assert any("invert 47.906 m" in line for line in show_words(shown))


def test_a_needed_field_of_which_nobody_wrote_a_word_is_said_to_be_missing():
    view = view_of(day("2031-05-14", "ld", SITE, "## valve V-1\n\n- type: check"))
    assert "on run" in show(view, "V-1").not_recorded
    assert any(
        "on run" in line and "not recorded" in line for line in show_words(show(view, "V-1"))
    )


def test_two_mends_written_apart_are_both_shown_and_neither_is_chosen():
    view = view_of(FIRST, mend("ld", "47.750", "was the crown"), mend("ck", "47.754", "crown"),
                   unseen={2: 1})  # fmt: skip
    level = show_form(show(view, "AIR-IN/2"))["fields"]["level"]
    assert not level["settled"]
    assert sorted(held["entry"] for held in level["held"]) == ["ck-1", "ld-6"]
    assert "not settled" in level["words"]


def test_a_tag_nobody_used_is_refused_with_those_like_it():
    with pytest.raises(NotFound, match="AIR-IN"):
        show(view_of(FIRST), "AIRIN")
    with pytest.raises(NotFound, match="no part 9"):
        show(view_of(FIRST), "AIR-IN/9")


def test_a_mended_entry_stays_in_the_history_marked_with_what_mended_it_and_why():
    lines = history_words(
        history(view_of(FIRST, mend("ld", "47.750", "was the crown")), "AIR-IN/2")
    )
    struck = next(line for line in lines if line.startswith("~ "))
    assert "ld-4" in struck
    assert any("mended by ld-6, because was the crown" in line for line in lines)
    assert any("mends ld-4" in line for line in lines)
    assert any("level: invert 47.906 m" in line for line in lines), "what was written must stay"


def test_the_history_of_a_run_holds_its_stations_and_both_times():
    form = history_form(history(view_of(FIRST), "AIR-IN"))
    assert [one["entry"] for one in form["entries"]] == ["ld-2", "ld-3", "ld-4"]
    assert {one["on"] for one in form["entries"]} == {"2031-05-14"}
    assert all(one["recorded"].startswith("2031-05-14T18:") for one in form["entries"])


def test_a_history_says_for_whom_it_is_and_counts_as_one_counts():
    words = history_words(history(view_of(FIRST), "AIR-IN/2", reach_m=1.0))
    assert words[0].endswith(", 1 entry")
    assert words[1] == "Reader: owner. The owner's view: no entry is left out."
    assert "WITHIN REACH, 1.00 m: no entry." in words
    trade = history(view_of(FIRST, reader="trade"), "AIR-IN/2")
    assert "Further entries may exist that this reader does not see." in history_words(trade)[1]
    assert history_form(trade)["reader"] == "trade"


def test_a_withdrawn_entry_is_said_to_be_withdrawn():
    gone = day("2031-05-15", "ld", "## withdrawn\n\n- mends: ld-4\n- because: another pipe")
    form = history_form(history(view_of(FIRST, gone), "AIR-IN/2"))
    assert form["entries"][0]["withdrawn"] and form["entries"][0]["mended_by"] == ["ld-6"]


def test_happenings_that_name_a_thing_are_in_its_history():
    photo = day(
        "2031-05-15",
        "ld",
        "## tested fern-bank\n\n- test: pour\n- result: passed\n- reading: 4.8 L\n"
        "- limit: none\n- instrument: jug",
        "## hold waived fern-bank\n\n- rule: photo\n- tags: AIR-IN\n- reason: dark\n- second: gc",
    )
    kinds = [told.kind for told in history(view_of(FIRST, photo), "AIR-IN").told]
    assert kinds[-1] == "hold waived" and "tested" not in kinds


def test_the_list_of_entries_is_narrowed_by_tag_kind_writer_day_and_sheet():
    view = view_of(FIRST, mend("ck", "47.750", "was the crown"))

    def numbers(**wanted):
        return [told.entry.number for told in entry_list(view, Wanted(**wanted))]

    assert numbers(tag="AIR-IN") == ["ld-2", "ld-3", "ld-4", "ck-1"]
    assert numbers(kind="run") == ["ld-2"]
    assert numbers(kind="sheet posted") == ["ld-5", "ck-2"]
    assert numbers(writer="ck") == ["ck-1", "ck-2"]
    assert numbers(day="2031-05-15") == ["ck-1", "ck-2"]
    assert numbers(tag="AIR-IN", writer="ck", day="2031-05-14") == []
    assert entry_words(()) == ["No entry is like that."]


def test_a_line_of_the_list_fits_the_page_and_marks_what_was_mended():
    lines = entry_words(entry_list(view_of(FIRST, mend("ck", "47.750", "crown")), Wanted()))
    assert all(len(line) <= 100 for line in lines)
    assert [line.split()[1] for line in lines if line.startswith("~")] == ["ld-4"]


def test_a_withheld_entry_shows_its_number_and_when_it_was_written_and_nothing_else():
    view = view_of(day("2031-05-14", "ld", SITE, RUN, STORE), reader="technician")
    told = entry_list(view, Wanted())
    hidden = [one for one in told if one.kind == "withheld"]
    assert [one.entry.number for one in hidden] == ["ld-5", "ld-6"]  # the store, and its sheet
    line = entry_words(tuple(hidden))[0]
    assert "S-3" not in line and "board" not in line
    with pytest.raises(NotFound):
        show(view, "S-3")


def test_a_level_that_nobody_wrote_is_shown_with_the_run_it_was_worked_from():
    """50.000 + 1.432 − 3.526 = 47.906, less the 2 mm the run closed by."""
    rows = (("BM1", 1.432, None, None, 28), ("AIR-IN 2 crown", None, 3.526, None, 22),
            ("BM2", None, None, 1.018, 32))  # fmt: skip
    marks = (mark("BM1", "50.000 m"), mark("BM2", "50.412 m", "levelled"))
    bare = pipe("2 bend | staff", columns="how")
    view = view_of(site(*marks, bare), day("2031-05-14", "ld", book(*rows)))
    words = "\n".join(show_words(show(view, "AIR-IN/2")))
    assert "level    crown 47.904 m" in words
    assert (
        "levelled, run of 2031-05-14 (ld-7) from BM1, closed +2 mm on BM2 of 2.9 allowed" in words
    )
    form = show_form(show(view, "AIR-IN/2"))["fields"]
    assert form["level"]["worked"].startswith("levelled") and form["how"]["worked"] == ""


POURED = """
## tested AIR-IN

- at: 11:00
- test: pour
- result: passed
- reading: 5.0 L in, 4.9 L out
- limit: 0.5 L
- instrument: bucket
"""
CUT = day("2031-06-14", "ld", "## opened up AIR-IN\n\n- at: 09:00\n- what: cut\n- why: a tee")


def test_a_test_undone_by_later_work_is_shown_as_void_wherever_it_is_told():
    view = view_of(FIRST, day("2031-05-20", "ld", POURED), CUT)
    told = "; ".join(history_words(history(view, "AIR-IN")))
    assert "VOID since 2031-06-14 09:00, not passed since; 2031-06-14 09:00: cut (ld-8)" in told
    [void] = [
        one["void"] for one in history_form(history(view, "AIR-IN"))["entries"] if one["void"]
    ]
    assert void.startswith("VOID since 2031-06-14 09:00")
    shown = show(view, "AIR-IN")
    assert "    VOID since 2031-06-14 09:00" in show_words(shown)
    assert show_form(shown)["lapsed"][0]["state"] == "void"


def test_a_test_passed_again_is_told_as_void_in_between_only():
    again = day("2031-06-21", "ld", POURED)
    view = view_of(FIRST, day("2031-05-20", "ld", POURED), CUT, again)
    told = [line.strip() for line in history_words(history(view, "AIR-IN"))]
    void = [line for line in told if line.startswith("VOID")]
    assert void == ["VOID since 2031-06-14 09:00; passed again 2031-06-21 11:00 (ld-10)"]
    assert show(view, "AIR-IN").lapsed == ()


def test_a_test_that_nothing_undid_says_nothing_of_it():
    view = view_of(FIRST, day("2031-05-20", "ld", POURED))
    assert not any("VOID" in line for line in history_words(history(view, "AIR-IN")))
    assert show_form(show(view, "AIR-IN"))["lapsed"] == []
