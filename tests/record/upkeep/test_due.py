"""What is due on a day: counted from what, by whose rule, and what resets it."""

from datetime import date

import pytest
from msgspec.structs import replace

from record.readers import look
from record.upkeep import CannotTell, due, occurrences, services_for_nothing
from tests.record.building import day, entries_of, view_of

CHECK_VALVE = """## valve CV-1

- type: check
- on run: AIR-IN
- installed: 2022-05-19
"""
FILTER = """## equipment FS-1

- type: filter set
- name: prefilter
- installed: 2022-05-23
- maker's interval: 9 months
- maker's interval from: maker's sheet 4
"""
CRANK = """## equipment HC-1

- type: hand crank
"""
WATER = """## store S-1

- name: floor store

| item | what | count | each | expires |
|---|---|---|---|---|
| 1 water | drinking water, drums | 8 | 20 L | not recorded |
| 2 beans | beans | 12 | 400 g | 2023-01-31 |
"""


def served(tag, task, *fields, at=None):
    lines = [f"- task: {task}", *fields, *([f"- at: {at}"] if at else [])]
    return "\n".join([f"## serviced {tag}", "", *lines])


def one(task, about, *sheets, today="2022-06-01", reader="owner", unseen=None, **asked):
    """Return the one due of a task and a thing."""
    view = view_of(*sheets, reader=reader, unseen=unseen)
    found = [
        each
        for each in due(view, today=iso(today), **asked)
        if (each.task.word, each.about) == (task, about)
    ]
    assert len(found) == 1, f"{len(found)} of {task} {about}"
    return found[0]


def words_of(*sheets, today="2022-06-01", reader="owner", **asked):
    found = due(view_of(*sheets, reader=reader), today=iso(today), **asked)
    return [(each.task.word, each.about) for each in found]


def iso(text):
    return date.fromisoformat(text)


def test_it_is_counted_from_the_day_it_was_put_in():
    found = one("check-valve-test", "CV-1", day("2022-05-21", "ld", CHECK_VALVE))
    assert found.due == date(2022, 11, 19)  # six months from 19 May
    assert (found.counted_from.on, found.counted_from.why) == (date(2022, 5, 19), "installed")
    assert found.counted_from.entry.number == "ld-1"
    assert found.overdue_days == 0


def test_where_nobody_wrote_the_day_it_is_counted_from_when_it_was_first_recorded():
    said = day("2022-05-21", "ld", CRANK)
    later = day("2023-08-01", "ck", "## equipment HC-1\n\n- type: hand crank\n- name: red arm")
    found = one("hand-crank-turn", "HC-1", said, later)
    assert (found.due, found.counted_from.why) == (date(2023, 5, 21), "first recorded")
    assert found.counted_from.entry.number == "ld-1"
    assert "installed: not recorded, in use from: not recorded: it may be due sooner" in found.notes


def test_a_thing_in_use_only_later_is_counted_from_then():
    crank = CRANK + "- in use from: 2022-07-31\n"
    found = one("hand-crank-turn", "HC-1", day("2022-08-02", "ld", crank), today="2022-09-01")
    assert (found.due, found.counted_from.why) == (date(2023, 7, 31), "in use from")


def test_a_service_starts_the_count_again():
    done = day("2022-11-30", "te", served("CV-1", "check-valve-test", "- result: passed"))
    found = one("check-valve-test", "CV-1", day("2022-05-21", "ld", CHECK_VALVE), done)
    assert found.counted_from.why == "installed", "a service after the day asked of is not known"
    found = one(
        "check-valve-test",
        "CV-1",
        *(day("2022-05-21", "ld", CHECK_VALVE), done),
        today="2022-12-01",
    )
    # 30 November and six months.
    assert (found.due, found.counted_from.why) == (date(2023, 5, 30), "last done")
    assert found.last_done.entry.number == "te-1"
    assert found.counted_from.entry.number == "te-1"


def test_a_missed_service_is_one_line_and_stays():
    found = one(
        "check-valve-test", "CV-1", day("2022-05-21", "ld", CHECK_VALVE), today="2024-11-19"
    )
    # Two years and a leap day after 19 November 2022.
    assert (found.due, found.overdue_days) == (date(2022, 11, 19), 731)


def test_the_day_itself_is_not_overdue():
    sheet = day("2022-05-21", "ld", CHECK_VALVE)
    assert one("check-valve-test", "CV-1", sheet, today="2022-11-19").overdue_days == 0
    assert one("check-valve-test", "CV-1", sheet, today="2022-11-20").overdue_days == 1


def test_a_task_may_be_called_by_its_title():
    title = "clean and test  the CHECK valve"
    done = day("2022-11-01", "te", served("CV-1", title, "- result: passed"))
    found = one(
        "check-valve-test",
        "CV-1",
        *(day("2022-05-21", "ld", CHECK_VALVE), done),
        today="2022-12-01",
    )
    assert found.due == date(2023, 5, 1)


def test_a_failure_is_due_at_once_until_it_is_retested():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    failed = day("2022-09-01", "te", served("CV-1", "check-valve-test", "- result: failed"))
    again = day("2022-09-20", "te", served("CV-1", "check-valve-test", "- result: passed"))
    found = one("check-valve-test", "CV-1", built, failed, today="2022-09-10")
    assert (found.due, found.overdue_days, found.ruling.whose) == (date(2022, 9, 1), 9, "failed")
    assert found.repeats is None
    expected = "failed on 2022-09-01 (te-1, check-valve-test); due until it is retested"
    assert expected in found.notes
    found = one("check-valve-test", "CV-1", built, failed, again, today="2022-09-21")
    assert (found.due, found.failed) == (date(2023, 3, 20), ())


def test_a_failure_after_a_pass_stands():
    sheets = [
        day("2022-05-21", "ld", CHECK_VALVE),
        day("2022-09-01", "te", served("CV-1", "check-valve-test", "- result: passed")),
        day("2022-09-20", "te", served("CV-1", "check-valve-test", "- result: failed")),
    ]
    found = one("check-valve-test", "CV-1", *sheets, today="2022-09-21")
    assert (found.due, found.counted_from.why) == (date(2022, 9, 20), "last done")


@pytest.mark.parametrize(
    ("failed_at", "passed_at", "stands"),
    [
        (None, None, True),
        ("09:00", None, True),
        ("09:00", "10:00", False),
        ("10:00", "09:00", 1),
        ("09:00", "09:00", 1),
    ],
)
def test_on_one_day_a_pass_answers_a_failure_only_if_it_is_known_to_be_later(
    failed_at, passed_at, stands
):
    built = day("2022-05-21", "ld", CHECK_VALVE)
    both = day(
        "2022-09-01",
        "te",
        served("CV-1", "check-valve-test", "- result: failed", at=failed_at),
        served("CV-1", "check-valve-test", "- result: passed", at=passed_at),
    )
    found = one("check-valve-test", "CV-1", built, both, today="2022-09-02")
    assert bool(found.failed) is bool(stands)
    assert (found.due == date(2022, 9, 1)) is bool(stands)


@pytest.mark.parametrize("result", ["as found", "not recorded", "none", "n/a, no gauge"])
def test_what_was_only_looked_at_is_not_done(result):
    built = day("2022-05-21", "ld", CHECK_VALVE)
    looked = day("2022-10-01", "te", served("CV-1", "check-valve-test", f"- result: {result}"))
    found = one("check-valve-test", "CV-1", built, looked, today="2022-10-02")
    assert found.due == date(2022, 11, 19)
    assert any("not counted as done" in note for note in found.notes)


def test_a_service_without_a_result_counts_and_says_so():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    done = day("2022-10-01", "te", served("CV-1", "check-valve-test"))
    found = one("check-valve-test", "CV-1", built, done, today="2022-10-02")
    assert found.due == date(2023, 4, 1)
    assert "done on 2022-10-01 (te-1) with no result stated" in found.notes


def test_losing_the_result_of_a_failure_makes_nothing_later():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    failed = day("2022-11-25", "te", served("CV-1", "check-valve-test", "- result: failed"))
    mend = day(
        "2022-11-26",
        "te",
        "## serviced CV-1\n\n- result: not recorded\n- mends: te-1\n- because: nobody knows",
    )
    before = one("check-valve-test", "CV-1", built, failed, today="2022-12-01")
    after = one("check-valve-test", "CV-1", built, failed, mend, today="2022-12-01")
    assert after.due == before.due == date(2022, 11, 19)


def test_losing_the_task_of_a_failure_does_not_lose_the_failure():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    failed = day("2022-09-01", "te", served("CV-1", "not recorded", "- result: failed"))
    found = one("check-valve-test", "CV-1", built, failed, today="2022-09-02")
    assert (found.due, len(found.failed)) == (date(2022, 9, 1), 1)


def test_a_service_withdrawn_was_never_done():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    done = day("2022-10-01", "te", served("CV-1", "check-valve-test", "- result: passed"))
    gone = day("2022-10-02", "te", "## withdrawn\n\n- mends: te-1\n- because: it was CV-2")
    found = one("check-valve-test", "CV-1", built, done, gone, today="2022-10-03")
    assert (found.due, found.last_done) == (date(2022, 11, 19), None)


def test_the_stricter_of_the_makers_interval_and_ours_rules_and_both_are_shown():
    """By hand: 23 May 2022 and 9 months is 23 February 2023; and 12, 23 May 2023."""
    sheet = day("2022-05-23", "te", FILTER)
    found = one("filter-change", "FS-1", sheet)
    assert [(rule.whose, rule.due) for rule in found.rules] == [
        ("maker", date(2023, 2, 23)),
        ("ours", date(2023, 5, 23)),
    ]
    assert (found.due, found.ruling.says) == (date(2023, 2, 23), "every 9 months")
    assert (found.ruling.source, found.ruling.entry.number) == ("maker's sheet 4", "te-1")
    assert found.maker_says == "9 months, from maker's sheet 4 (te-1)"


def test_a_makers_longer_interval_does_not_stretch_ours():
    found = one(
        "filter-change", "FS-1", day("2022-05-23", "te", FILTER.replace("9 months", "2 years"))
    )
    assert (found.due, found.ruling.whose) == (date(2023, 5, 23), "ours")


@pytest.mark.parametrize("said", ["not recorded", "none", "n/a, home made"])
def test_three_answers_for_the_makers_interval_are_kept_apart(said):
    found = one("filter-change", "FS-1", day("2022-05-23", "te", FILTER.replace("9 months", said)))
    assert (found.maker_says, found.due) == (said, date(2023, 5, 23))


def test_of_two_statements_that_differ_the_stricter_rules():
    two = day("2022-05-23", "ck", "## equipment FS-1\n\n- maker's interval: 4 months")
    found = one("filter-change", "FS-1", day("2022-05-23", "te", FILTER), two, unseen={1: 0})
    assert found.due == date(2022, 9, 23)
    assert "not settled" in found.maker_says


def test_a_seal_that_expires_sooner_rules():
    sealed = FILTER + "- sealed until: 2022-12-31\n"
    found = one("filter-change", "FS-1", day("2022-05-23", "te", sealed))
    assert (found.due, found.ruling.whose) == (date(2022, 12, 31), "expiry")
    assert found.repeats is None


def test_a_later_expiry_stands_among_the_days_to_come():
    sealed = FILTER + "- sealed until: 2023-12-31\n"
    found = one("filter-change", "FS-1", day("2022-05-23", "te", sealed))
    assert occurrences(found, date(2024, 6, 1)) == (
        date(2023, 2, 23),
        date(2023, 11, 23),
        date(2023, 12, 31),
    )


def test_what_is_put_in_after_the_last_service_counts_from_that_day():
    built = day("2022-05-23", "te", FILTER)
    done = day("2023-01-10", "te", served("FS-1", "filter-change", "- result: passed"))
    new = day("2023-04-02", "te", "## equipment FS-1\n\n- installed: 2023-04-02\n- serial: 2")
    found = one("filter-change", "FS-1", built, done, new, today="2023-05-01")
    assert (found.due, found.counted_from.why) == (date(2024, 1, 2), "installed")


ALARM = """## equipment AL-1

- type: alarm
- made: 2022-02-03
- installed: 2022-05-23
"""


def test_an_alarm_ages_from_the_day_it_was_made_not_from_when_it_was_hung():
    """NFPA's public advice: ten years from the day made."""
    sheet = day("2022-05-23", "te", ALARM)
    assert one("alarm-replace", "AL-1", sheet).due == date(2032, 2, 3)
    assert one("alarm-test", "AL-1", sheet).due == date(2022, 6, 23)


def test_replacing_an_alarm_counts_once_the_new_ones_day_is_recorded():
    built = day("2022-05-23", "te", ALARM)
    done = day("2032-01-10", "te", served("AL-1", "alarm-replace", "- result: passed"))
    found = one("alarm-replace", "AL-1", built, done, today="2032-03-01")
    assert found.due == date(2032, 2, 3)
    assert any("record the day it was made" in note for note in found.notes)
    new = day("2032-03-02", "te", "## equipment AL-1\n\n- made: 2031-11-30")
    assert one("alarm-replace", "AL-1", built, done, new, today="2032-03-03").due == date(
        2041, 11, 30
    )


def test_a_label_date_sooner_than_ten_years_rules():
    sheet = day("2022-05-23", "te", ALARM + "- replace by: 2029-02-01\n")
    assert one("alarm-replace", "AL-1", sheet).due == date(2029, 2, 1)


def test_no_thing_no_task():
    hull = "## landmark H1\n\n- what: house corner\n- x: 1 m\n- y: 2 m"
    assert words_of(day("2022-05-21", "ld", hull)) == []


@pytest.mark.parametrize("said", ["none", "n/a, left to the owner"])
def test_what_is_said_not_to_be_there_needs_nothing(said):
    assert words_of(day("2022-05-21", "ld", f"## equipment GE-1\n\n- type: {said}")) == []


@pytest.mark.parametrize(
    ("block", "tasks"),
    [
        ("## valve V-1\n\n- type: flap\n- on run: D-1", ["check-valve-test"]),
        ("## valve V-1\n\n- type: overpressure\n- on run: A", ["overpressure-valve-check"]),
        ("## valve V-1\n\n- type: ball\n- on run: D-1", ["valve-cycle"]),
        ("## run V-1\n\n- carries: condensate", ["drain-flush"]),
        ("## run V-1\n\n- carries: supply air", []),
        ("## equipment V-1\n\n- type: air unit\n- hand operation: none", ["air-unit-run"]),
        (
            "## equipment V-1\n\n- type: air unit\n- hand operation: crank",
            ["air-unit-run", "hand-crank-turn"],
        ),
        ("## equipment V-1\n\n- type: generator", ["generator-run"]),
        ("## equipment V-1\n\n- type: door", ["door-seals"]),
        ("## equipment V-1\n\n- type: lighting", []),
        (
            "## drain V-1\n\n- serves: A\n- at station: 2\n- discharges: gravel\n- trap: none",
            ["drain-clearing"],
        ),
        (
            "## drain V-1\n\n- serves: A\n- at station: 2\n- discharges: gravel\n- trap: bottle",
            ["drain-clearing", "trap-fill"],
        ),
        ("## way out V-1\n\n- hull: A\n- opens: inward", ["way-out-walk"]),
    ],
)
def test_a_thing_gets_the_tasks_of_its_kind(block, tasks):
    found = words_of(day("2022-05-21", "ld", block))
    assert sorted(word for word, about in found if about == "V-1") == tasks


def test_a_sump_with_its_pump_is_tested_once():
    sump = "## equipment SP-1\n\n- type: sump\n- hull: B"
    pump = "## equipment PU-1\n\n- type: pump\n- hull: B"
    assert words_of(day("2022-05-21", "ld", sump)) == [("sump-pour-test", "SP-1")]
    assert words_of(day("2022-05-21", "ld", sump, pump)) == [("sump-pour-test", "PU-1")]
    other = pump.replace("hull: B", "hull: A")
    assert len(words_of(day("2022-05-21", "ld", sump, other))) == 2


@pytest.mark.parametrize("kept", ["", "- type: not recorded\n"])
def test_a_valve_of_unknown_kind_is_not_forgotten(kept):
    block = f"## valve V-1\n\n- on run: AIR-IN\n- size: 100 mm\n{kept}"
    found = one("say-what-it-is", "V-1", day("2022-05-21", "ld", block))
    said = "type not recorded; it may need check-valve-test, overpressure-valve-check, valve-cycle"
    assert found.doubt == said
    assert found.due == date(2022, 11, 21)  # the soonest of them: six months
    assert found.repeats is None


def test_forgetting_what_a_thing_is_never_makes_it_due_later():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    lost = day("2022-06-01", "ld", "## valve CV-1\n\n- type: not recorded")
    before = one("check-valve-test", "CV-1", built, today="2022-12-01")
    after = one("say-what-it-is", "CV-1", built, lost, today="2022-12-01")
    assert after.due <= before.due
    assert after.overdue_days >= before.overdue_days > 0


def test_two_who_differ_over_what_it_is_leave_it_in_doubt():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    other = day("2022-05-21", "ck", "## valve CV-1\n\n- type: ball")
    found = one("say-what-it-is", "CV-1", built, other, unseen={1: 0})
    assert found.doubt.startswith("type not settled; it may need check-valve-test, valve-cycle")


def test_stored_water_is_changed_after_six_months_and_food_at_its_date():
    """Water filled at home: US health advice, six months."""
    sheet = day("2022-05-21", "ow", WATER)
    assert one("stored-water", "S-1", sheet).due == date(2022, 11, 21)
    contents = one("contents-check", "S-1", sheet)
    assert (contents.due, contents.ruling.whose) == (date(2023, 1, 31), "expiry")
    assert contents.ruling.source == "beans, S-1/2"


def test_a_store_of_no_water_has_no_water_to_change():
    dry = WATER.replace("| 1 water | drinking water, drums | 8 | 20 L | not recorded |\n", "")
    assert words_of(day("2022-05-21", "ow", dry)) == [("contents-check", "S-1")]


def test_expired_food_stays_due_until_the_list_says_otherwise():
    built = day("2022-05-21", "ow", WATER)
    done = day("2023-02-10", "ow", served("S-1", "contents-check", "- result: passed"))
    found = one("contents-check", "S-1", built, done, today="2023-02-11")
    assert found.due == date(2023, 1, 31)
    new = day(
        "2023-02-12", "ow", "## store S-1\n\n| item | expires |\n|---|---|\n| 2 | 2026-01-31 |"
    )
    found = one("contents-check", "S-1", built, done, new, today="2023-02-13")
    assert found.due == date(2024, 2, 10)


def test_a_technicians_list_has_nothing_of_the_owners():
    out = "## way out SH-1\n\n- hull: A\n- opens: inward\n- name: old shaft"
    site = "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: x east"
    sheets = (day("2022-05-21", "ld", site, CHECK_VALVE, out), day("2022-05-21", "ow", WATER))
    told = words_of(*sheets, reader="technician")
    assert told == [("check-valve-test", "CV-1"), ("device-inspection", "fern-bank")]
    assert {about for _, about in words_of(*sheets)} == {"CV-1", "SH-1", "S-1", "fern-bank"}


def test_what_a_technician_may_not_see_changes_no_day_of_theirs():
    sheets = [day("2022-05-21", "ld", CHECK_VALVE), day("2022-05-21", "ow", WATER)]
    with_store = due(view_of(*sheets, reader="technician"), today=iso("2023-01-01"))
    without = due(view_of(sheets[0], reader="technician"), today=iso("2023-01-01"))
    assert [(d.due, d.about, d.notes) for d in with_store] == [
        (d.due, d.about, d.notes) for d in without
    ]


@pytest.mark.parametrize("reader", ["trade", "responder"])
def test_who_is_shown_no_services_is_told_no_days(reader):
    with pytest.raises(CannotTell, match=reader):
        due(view_of(day("2022-05-21", "ld", CHECK_VALVE), reader=reader), today=iso("2022-06-01"))


def test_asked_up_to_a_day_the_rest_is_left_out():
    sheet = day("2022-05-21", "ld", CHECK_VALVE, CRANK)
    assert words_of(sheet, until=date(2022, 11, 18)) == []
    assert words_of(sheet, until=date(2022, 11, 19)) == [("check-valve-test", "CV-1")]


def test_a_role_gets_what_it_may_do():
    valve = "## valve DV-1\n\n- type: ball\n- on run: D-1"
    sheet = day("2022-05-21", "ld", CHECK_VALVE, valve)
    assert words_of(sheet, role="plumber") == [("valve-cycle", "DV-1")]
    with pytest.raises(ValueError, match="uncle"):
        words_of(sheet, role="uncle")


def test_the_soonest_is_first():
    found = words_of(day("2022-05-21", "ld", CHECK_VALVE, CRANK, FILTER, WATER))
    assert found[0] == ("check-valve-test", "CV-1")
    view = view_of(day("2022-05-21", "ld", CRANK, FILTER))
    dates = [each.due for each in due(view, today=iso("2022-06-01"))]
    assert dates == sorted(dates)


def test_a_service_by_a_word_no_task_has_is_not_lost():
    built = day("2022-05-21", "ld", CHECK_VALVE)
    odd = day(
        "2022-09-01",
        "te",
        served("CV-1", "wiggle the flap", "- result: passed"),
        served("CV-1", "valve-cycle", "- result: passed"),
        served("CV-1", "check-valve-test", "- result: passed"),
    )
    found = services_for_nothing(view_of(built, odd), today=iso("2022-10-01"))
    assert [h.words("task") for h in found] == ["wiggle the flap", "valve-cycle"]


def test_days_to_come_are_counted_from_the_first_and_not_from_one_another():
    """By hand: monthly from 31 January 2023; the check value 2023-03-31, not 03-28."""
    alarm = "## equipment AL-1\n\n- type: alarm\n- installed: 2023-01-31"
    found = one("alarm-test", "AL-1", day("2023-01-31", "te", alarm), today="2023-02-01")
    assert occurrences(found, date(2023, 6, 1)) == (
        date(2023, 2, 28),
        date(2023, 3, 31),
        date(2023, 4, 30),
        date(2023, 5, 31),
    )


def test_a_day_in_the_future_is_not_counted_from():
    wrong = CHECK_VALVE.replace("2022-05-19", "2202-05-19")
    found = one("check-valve-test", "CV-1", day("2022-05-21", "ld", wrong))
    assert (found.counted_from.why, found.due) == ("first recorded", date(2022, 11, 21))
    assert any("installed: 2202-05-19" in note for note in found.notes)


STORES = """## equipment FS-1

- type: filter set
- installed: 2022-01-10
- maker's interval: 4 months
- sealed until: 2022-04-01
"""
DOOR = """## opening OP-1

- hull: A
- face: near
- name: shelter door
- width: 0.8 m
- height: 1.9 m
"""
LOSSES = [
    *[(STORES, key) for key in ("type", "installed", "maker's interval", "sealed until")],
    *[(CHECK_VALVE, key) for key in ("type", "installed", "on run")],
    *[(ALARM, key) for key in ("made", "installed", "type")],
    ("## run D-1\n\n- carries: condensate", "carries"),
    ("## equipment SP-1\n\n- type: sump\n- hull: B", "hull"),
    ("## equipment AU-1\n\n- type: air unit\n- hand operation: crank", "hand operation"),
    (
        "## drain DL-1\n\n- serves: D-1\n- at station: 2\n- discharges: gravel\n- trap: bottle",
        "trap",
    ),
    (DOOR, "name"),
]


@pytest.mark.parametrize("how", ["changed", "mended"])
@pytest.mark.parametrize(("block", "key"), LOSSES)
def test_replacing_what_is_known_by_not_recorded_makes_nothing_due_later(block, key, how):
    built = day("2022-05-23", "ld", block)
    head = block.strip().splitlines()[0]
    mend = "\n- mends: ld-1\n- because: nobody knows" if how == "mended" else ""
    lost = day("2022-06-01", "ld", f"{head}\n\n- {key}: not recorded{mend}")
    before = due(view_of(built), today=iso("2022-06-02"))
    after = due(view_of(built, lost), today=iso("2022-06-02"))
    assert before
    for each in before:
        same = [other.due for other in after if other.task.word == each.task.word]
        doubtful = [other.due for other in after if other.doubt]
        assert min(same + doubtful) <= each.due, each.task.word


def test_a_lost_value_counts_as_last_said_and_not_as_first_said():
    first = day("2022-05-23", "ld", STORES)
    renewed = day("2022-05-30", "ld", "## equipment FS-1\n\n- sealed until: 2022-08-01")
    lost = day("2022-06-01", "ld", "## equipment FS-1\n\n- sealed until: not recorded")
    done = day("2022-06-02", "te", served("FS-1", "filter-change", "- result: passed"))
    found = one("filter-change", "FS-1", first, renewed, lost, done, today="2022-06-03")
    assert found.due == date(2022, 8, 1)


def test_of_two_days_it_may_have_been_put_in_the_earlier_counts():
    other = day("2022-05-21", "ck", "## valve CV-1\n\n- installed: 2022-05-20")
    found = one("check-valve-test", "CV-1", day("2022-05-21", "ld", CHECK_VALVE), other)
    assert found.due == date(2022, 11, 20), "ck had seen what ld wrote, and changed it"
    found = one(
        "check-valve-test", "CV-1", day("2022-05-21", "ld", CHECK_VALVE), other, unseen={1: 0}
    )
    assert found.due == date(2022, 11, 19)


def test_the_oldest_water_of_a_store_counts():
    more = "## store S-1\n\n| item | what | expires |\n|---|---|---|\n| 0 new | water | none |"
    found = one(
        "stored-water",
        "S-1",
        *(day("2022-05-21", "ow", WATER), day("2022-09-01", "ow", more)),
        today="2022-09-02",
    )
    assert found.due == date(2022, 11, 21)


def test_a_benchmark_is_said_to_be_one():
    found = one(
        "generator-run", "GE-1", day("2022-05-21", "ld", "## equipment GE-1\n\n- type: generator")
    )
    assert "not required for a home shelter" in found.ruling.source


def test_a_failure_found_late_does_not_hide_that_it_was_missed():
    failed = day("2023-01-09", "te", served("CV-1", "check-valve-test", "- result: failed"))
    built = day("2022-05-21", "ld", CHECK_VALVE)
    found = one("check-valve-test", "CV-1", built, failed, today="2023-01-10")
    assert (found.due, found.ruling.whose) == (date(2022, 11, 19), "ours")
    assert found.repeats is None
    assert occurrences(found, date(2024, 1, 1)) == (date(2022, 11, 19),)


def test_a_service_on_no_day_at_all_counts_for_nothing():
    done = day("2022-10-01", "te", served("CV-1", "check-valve-test", "- result: passed"))
    entries = entries_of(day("2022-05-21", "ld", CHECK_VALVE), done)
    odd = tuple(
        replace(e, content=replace(e.content, on="someday")) if e.number == "te-1" else e
        for e in entries
    )
    assert due(look(entries), today=iso("2022-12-01"))[0].due == date(2023, 4, 1)
    assert due(look(odd), today=iso("2022-12-01"))[0].due == date(2022, 11, 19)
