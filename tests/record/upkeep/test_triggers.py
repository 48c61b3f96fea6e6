"""What makes a task due before its day: what befell the shelter, a reading, running hours."""

from datetime import date

import pytest

from record.upkeep import due
from record.upkeep.catalogue import BadTask, read_task
from tests.record.building import day, view_of
from tests.record.upkeep.test_seasons import TASK

PLAN = """
## hull A

- inside length: 9.00 m

## valve OV-1

- type: overpressure
- hull: A

## equipment FS-1

- type: filter set
- installed: 2031-05-01
- service after running: 250 h
- maker's interval from: maker's sheet 4
"""


def one(task, about, *later, today="2033-01-01"):
    view = view_of(day("2031-05-01", "of", PLAN), *later)
    (found,) = [
        each
        for each in due(view, today=date.fromisoformat(today))
        if (each.task.word, each.about) == (task, about)
    ]
    return found


def said(on, *lines, part=""):
    return day(on, "ow", "\n".join(lines) + "\n", part=part)


def befell(what, on="2031-09-03", *lines):
    return said(on, "## befell fern-bank", "", f"- what: {what}", *lines)


def done(on, *lines):
    words = ("## serviced OV-1", "", "- task: overpressure-valve-check", "- result: passed")
    return said(on, *words, *lines, part="done")


def valve(*later, **asked):
    return one("overpressure-valve-check", "OV-1", *later, **asked)


def test_after_a_fire_the_valve_is_due_that_day():
    found = valve(befell("fire"))
    assert found.due == date(2031, 9, 3) and found.ruling.whose == "event"
    assert found.ruling.says == "after: fire, 2031-09-03" and found.repeats is None
    assert valve(befell("earthquake")).due == date(2032, 5, 1)


def test_what_befell_another_part_does_not_touch_it():
    assert valve(befell("fire", "2031-09-03", "- tags: FS-1")).due == date(2032, 5, 1)
    assert valve(befell("fire", "2031-09-03", "- tags: OV-1")).due == date(2031, 9, 3)
    assert valve(befell("fire", "2031-09-03", "- tags: A")).due == date(2031, 9, 3)  # its hull


@pytest.mark.parametrize(
    ("service", "due_on"),
    [
        (done("2031-09-02"), date(2031, 9, 3)),
        (done("2031-09-03"), date(2031, 9, 3)),  # which was first nobody wrote
        (done("2031-09-03", "- at: 09:00"), date(2031, 9, 3)),
        (done("2031-09-03", "- at: 17:00"), date(2032, 9, 3)),
        (done("2031-09-04"), date(2032, 9, 4)),
    ],
)
def test_only_a_check_that_surely_came_after_answers_it(service, due_on):
    assert valve(befell("fire", "2031-09-03", "- at: 12:00"), service).due == due_on


def test_what_befell_it_before_it_was_there_or_is_still_to_come_is_nothing():
    assert valve(befell("fire"), today="2031-09-02").due == date(2032, 5, 1)
    before = day("2031-04-01", "ow", "## befell fern-bank\n\n- what: fire\n")
    view = view_of(
        before,
        day(
            "2031-05-01",
            "of",
            PLAN + "\n## valve OV-2\n\n- type: overpressure\n- installed: 2031-05-01\n",
        ),
    )
    (found,) = [
        each
        for each in due(view, today=date(2031, 6, 1))
        if (each.task.word, each.about) == ("overpressure-valve-check", "OV-2")
    ]
    assert found.due == date(2032, 5, 1)


def drop(on, reading, limit="250 Pa"):
    return said(
        on, "## reading taken FS-1", "", "- what: pressure drop", f"- reading: {reading}",
        f"- limit: {limit}", part="drop",
    )  # fmt: skip


def test_a_filter_past_its_pressure_drop_is_due_on_the_day_it_was_read():
    found = one("filter-change", "FS-1", drop("2031-06-01", "80 Pa"), drop("2031-11-01", "260 Pa"))
    assert found.due == date(2031, 11, 1) and found.ruling.whose == "condition"
    assert found.ruling.says == "pressure drop read 260 Pa on 2031-11-01, limit 250 Pa"
    within = one("filter-change", "FS-1", drop("2031-06-01", "80 Pa"), drop("2031-11-01", "250 Pa"))
    assert within.due == date(2032, 5, 1)


def test_a_new_filter_answers_the_pressure_drop():
    changed = said(
        "2031-11-03", "## serviced FS-1", "", "- task: filter-change", "- result: passed"
    )  # fmt: skip
    read = (drop("2031-06-01", "80 Pa"), drop("2031-11-01", "260 Pa"))
    assert one("filter-change", "FS-1", *read, changed).due == date(2032, 11, 3)


def hours(on, reading):
    words = ("## reading taken FS-1", "", "- what: hours run", f"- reading: {reading}")
    return said(on, *words, part="hours")


def test_running_hours_bring_it_forward_at_the_rate_it_ran():
    """100 h in 100 days: 250 h are reached 150 days after the second reading."""
    found = one(
        "filter-change", "FS-1", hours("2031-05-01", "0 h"), hours("2031-08-09", "100 h"),
        today="2031-08-10",
    )  # fmt: skip
    assert found.due == date(2032, 1, 6) and found.ruling.whose == "use"
    assert "250 h run since 2031-05-01, at the rate of" in found.ruling.says


def test_running_hours_that_were_reached_make_it_due_then():
    read = (hours("2031-05-01", "10 h"), hours("2031-08-09", "100 h"), hours("2031-12-01", "260 h"))
    assert one("filter-change", "FS-1", *read).due == date(2031, 12, 1)
    under = (hours("2031-05-01", "10 h"), hours("2031-12-01", "259 h"))
    assert one("filter-change", "FS-1", *under).ruling.says.startswith("250 h run since")
    assert one("filter-change", "FS-1", *under).due == date(2031, 12, 1)  # one hour more to run


def test_hours_run_before_the_last_change_do_not_count_again():
    changed = said(
        "2031-08-09", "## serviced FS-1", "", "- task: filter-change", "- result: passed"
    )  # fmt: skip
    read = (hours("2031-05-01", "0 h"), hours("2031-08-09", "200 h"), hours("2031-11-17", "300 h"))
    found = one("filter-change", "FS-1", *read, changed)
    assert found.due == date(2032, 4, 15)  # 150 h more, an hour a day, from 17 November


def test_a_task_comes_after_known_things():
    with pytest.raises(BadTask, match='"rain" befalls nothing'):
        read_task("look.toml", TASK + 'after = ["rain"]\n\n[[fits]]\nkind = "drain"\n')
