"""The seasons that upkeep comes before: how each is found, and what it makes due."""

import re
from datetime import date

import pytest

from record.upkeep import due, occurrences
from record.upkeep.catalogue import BadTask, read_task
from record.upkeep.seasons import CONDENSING, FROST, seasons
from tests.record.building import day, view_of
from tests.record.figures.ground import CLIMATE, OWNERS, PLAN, SITE

FERN_BANK = view_of(PLAN, OWNERS)
DRAIN = """
## drain D-9

- serves: AIR-IN
"""


def built(*blocks, site=SITE, later=()):
    return view_of(day("2031-05-01", "of", site, *blocks), *later)


def the(word, view):
    return [one for one in seasons(view).known if one.word == word]


def one(view, task, today="2031-06-15"):
    (found,) = [
        each
        for each in due(view, today=date.fromisoformat(today))
        if (each.task.word, each.about) == (task, "D-9")
    ]
    return found


def changed(text, old, new):
    assert old in text
    return text.replace(old, new)


def test_the_intake_begins_to_sweat_in_june():
    """
    The air of June, 15 °C and 60 %, has its dew point at 7.3 °C (psychrometric table); the ground
    at the pipe is at 6.7 °C by the wave. In May it is 3.5 °C against 4.3 °C: dry.
    """
    (found,) = the(CONDENSING, FERN_BANK)
    assert (found.month, found.day) == (6, 1) and "wet AIR-IN" in found.begins
    assert {"of-1", "of-3"} <= {entry.number for entry in found.entries}


def test_frost_is_looked_for_when_days_come_down_to_five_degrees():
    """arccos(1.5 / 11.5) = 1.440 rad, 83.65 days before 20 January: 28 October."""
    (found,) = the(FROST, FERN_BANK)
    assert (found.month, found.day) == (10, 28) and "common practice, no source" in found.source


def test_a_first_frost_from_the_place_goes_before_one_that_is_worked():
    told = f"{SITE}- first frost: October 3\n- first frost from: weather office\n"
    (found,) = the(FROST, built(site=told))
    assert (found.month, found.day) == (10, 3) and "weather office" in found.source
    unread = built(site=f"{SITE}- first frost: early\n")
    assert the(FROST, unread) == []
    assert dict(seasons(unread).missing)[FROST].endswith('"early" is no day of the year')


def test_in_the_south_frost_comes_in_their_autumn():
    (found,) = the(FROST, built(site=changed(SITE, "20 January", "20 July")))
    assert (found.month, found.day) == (4, 27)  # 83.65 days before 20 July


def test_where_it_never_freezes_there_is_no_such_season():
    assert the(FROST, built(site=changed(SITE, "temperature: 6.5", "temperature: 26.5"))) == []


def test_what_is_not_recorded_of_the_climate_is_named_at_the_task():
    without = changed(SITE, "- coldest day: 20 January\n", "")
    view = view_of(changed(changed(PLAN, SITE.strip(), without.strip()), CLIMATE.strip(), ""))
    assert seasons(view).known == ()
    drain = view_of(day("2031-05-01", "of", without, DRAIN))
    notes = one(drain, "drain-clearing").notes
    assert any("frost season: first frost not recorded" in note for note in notes)


def test_of_a_climate_nobody_recorded_a_task_names_one_piece_and_counts_the_others():
    """A list of ten things under each task hid the day it is due; all of them are named once."""
    bare = changed(SITE, "- mean temperature: 6.5 °C\n", "")
    for field in ("amplitude", "coldest day"):
        bare = re.sub(rf"- {field}: .*\n", "", bare)
    view = view_of(day("2031-05-01", "of", bare, DRAIN))
    (note,) = [n for n in one(view, "drain-clearing").notes if "frost season" in n]
    assert "mean temperature of fern-bank: not recorded, and 2 more" in note
    assert "coldest day" in dict(seasons(view).missing)[FROST] and "coldest day" not in note


def test_a_drain_is_due_on_the_eve_of_frost_though_its_year_is_not_over():
    found = one(built(DRAIN), "drain-clearing")
    assert found.due == date(2031, 10, 27) and found.ruling.whose == "season"
    assert [rule.due for rule in found.rules] == [date(2031, 10, 27), date(2032, 5, 1)]


@pytest.mark.parametrize(
    ("served", "then"),
    [
        ("2031-09-15", date(2031, 10, 27)),  # six weeks and a day before: too early to count
        ("2031-09-16", date(2032, 9, 16)),  # counts for this frost; its year rules next
        ("2031-10-25", date(2032, 10, 25)),
        ("2031-11-20", date(2032, 10, 27)),
    ],
)
def test_what_was_done_within_six_weeks_before_counts_for_the_season(served, then):
    """Six weeks before 28 October 2031 is 16 September, the first day that counts."""
    done = day(served, "ow", "## serviced D-9\n\n- task: drain-clearing\n- result: passed\n")
    assert one(built(DRAIN, later=(done,)), "drain-clearing", today="2031-12-31").due == then


def test_a_missed_season_stays_overdue_and_is_one_task():
    found = one(built(DRAIN), "drain-clearing", today="2033-01-01")
    assert found.due == date(2031, 10, 27) and found.overdue_days == 432


def test_both_seasons_come_again_every_year():
    found = one(view_of(PLAN + DRAIN), "drain-clearing", today="2031-05-02")
    assert found.due == date(2031, 10, 27)  # what is new in May needs no clearing in June
    assert occurrences(found, date(2033, 12, 31)) == (
        date(2031, 10, 27),
        date(2032, 5, 31),
        date(2032, 10, 27),
        date(2033, 5, 31),
        date(2033, 10, 27),
    )


def test_a_task_names_known_seasons_and_how_long_before_they_count():
    for said, fault in (
        ('seasons = ["rain"]\nweeks_before = 6\n', '"rain" is not a season'),
        ('seasons = ["frost"]\n', "seasons go with weeks_before"),
        ("weeks_before = 6\n", "seasons go with weeks_before"),
        ('seasons = ["frost"]\nweeks_before = 27\n', "from 1 to 26"),
    ):
        with pytest.raises(BadTask, match=fault):
            read_task("look.toml", TASK + said + '\n[[fits]]\nkind = "drain"\n')
    assert read_task("look.toml", TASK + '\n[[fits]]\nkind = "drain"\n').seasons == ()


TASK = """word = "look"
title = "Look"
why = "because"
signal = "notice"
caution = "mind"
steps = ["look"]
passes = "seen"
record = "what"
ticks = ["a", "b", "c", "d"]
reading = "none"
who = ["owner"]
tools = ["eyes"]
months = 12
source = "common practice, no source"
"""
