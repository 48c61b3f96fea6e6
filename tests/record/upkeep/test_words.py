"""What is due, in lines and in JSON."""

import json
from datetime import date

from record.upkeep import due, json_form, services_for_nothing, words
from tests.record.building import day, view_of

SHEETS = (
    day(
        "2022-05-21",
        "ld",
        "## valve CV-1\n\n- type: check\n- on run: AIR-IN\n- installed: 2022-05-19",
        "## equipment FS-1\n\n- type: filter set\n- name: prefilter\n- installed: 2022-05-20\n"
        "- maker's interval: none",
        "## valve V-2\n\n- on run: AIR-IN\n- size: 100 mm",
    ),
    day("2022-06-01", "te", "## serviced CV-1\n\n- task: shake it\n- result: passed"),
)
TODAY = date(2022, 11, 29)


def said(today=TODAY, **asked):
    view = view_of(*SHEETS)
    odd = services_for_nothing(view, today=today)
    return words(due(view, today=today, **asked), view=view, today=today, for_nothing=odd)


def test_overdue_comes_first_then_what_is_to_come_then_what_cannot_be_told():
    lines = said()
    headings = [line for line in lines if line and line == line.upper() and line[0].isalpha()]
    assert headings[:3] == ["OVERDUE", "TO COME", "CANNOT BE TOLD"]
    late = lines[lines.index("OVERDUE") + 1]
    # 19 May and six months is 19 November; ten days later it is the 29th.
    assert late == (
        "2022-11-19  CV-1: Clean and test the check valve, 10 days overdue [check-valve-test]"
    )
    assert "            counted from 2022-05-19, installed (ld-1)" in lines
    assert "            the maker's interval: none" in lines
    assert any("type not recorded; it may need check-valve-test" in line for line in lines)
    assert lines[-1] == "2022-06-01  CV-1: shake it (te-1)"


def test_what_is_due_today_is_still_to_come():
    lines = said(today=date(2022, 11, 19))
    assert "OVERDUE" not in lines
    assert lines[lines.index("TO COME") + 1].startswith("2022-11-19  CV-1: ")


def test_no_line_is_wider_than_a_screen():
    assert max(len(line) for line in said()) in range(90, 101)


def test_nothing_due_is_said_and_not_left_blank():
    assert "Nothing that is recorded needs upkeep by then." in said(until=date(2022, 6, 1))


def test_the_json_is_plain_and_names_its_entries():
    found = [json_form(one) for one in due(view_of(*SHEETS), today=TODAY)]
    assert json.loads(json.dumps(found)) == found
    valve = next(one for one in found if one["about"] == "CV-1")
    assert valve["due"] == "2022-11-19"
    assert valve["overdue_days"] == 10
    assert valve["counted_from"] == {"on": "2022-05-19", "why": "installed", "entry": "ld-1"}
    assert valve["last_done"] is None
    assert [(rule["whose"], rule["rules"]) for rule in valve["rules"]] == [("ours", True)]
    filters = next(one for one in found if one["about"] == "FS-1")
    assert filters["makers_interval"] == "none"
    doubtful = next(one for one in found if one["about"] == "V-2")
    assert doubtful["task"] == "say-what-it-is"
    assert doubtful["cannot_tell"].startswith("type not recorded")
