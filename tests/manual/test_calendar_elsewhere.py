"""The calendar as other people's programs read it: recurring-ical-events and khal."""

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from record.upkeep import occurrences
from tests.manual.test_calendar import BUILT, STAMP, TODAY, events, made, uid_of
from tests.record.building import day

UNTIL = date(2032, 5, 31)
WRITTEN_OUT = date(2024, 5, 25)  # what no rule can say is written out for two years
KHAL = """
[calendars]
[[upkeep]]
path = {here}/upkeep
color = white
[sqlite]
path = {here}/khal.db
[locale]
local_timezone = UTC
default_timezone = UTC
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
"""


def test_ten_years_of_days_are_the_same_elsewhere():
    import recurring_ical_events
    from icalendar import Calendar

    view, dues, data = made()
    found = {}
    for event in recurring_ical_events.of(Calendar.from_ical(data)).between(
        date(2000, 1, 1), UNTIL
    ):
        found.setdefault(str(event["uid"]), set()).add(event["dtstart"].dt)
    for one in dues:
        got = {day for day in found[uid_of(view.built.site, one)] if day >= one.due}
        if one.overdue_days:
            got -= {TODAY}  # a missed one is shown on the day of asking too
        last = UNTIL if "rrule" in events(data)[uid_of(view.built.site, one)] else WRITTEN_OUT
        assert {day for day in got if day < last} == {
            day for day in occurrences(one, UNTIL) if day < last
        }


@pytest.fixture
def khal(tmp_path):
    """Run khal on a calendar of its own, and return what it prints."""
    (tmp_path / "config").write_text(KHAL.format(here=tmp_path), encoding="utf-8")
    (tmp_path / "upkeep").mkdir()

    def run(*words):
        done = subprocess.run(
            [Path(sys.executable).parent / "khal", "-c", str(tmp_path / "config"), *words],
            env={**os.environ, "HOME": str(tmp_path), "LC_ALL": "C.UTF-8", "COLUMNS": "200"},
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    def take(data):
        (tmp_path / "upkeep.ics").write_bytes(data)
        run("import", "--batch", "-a", "upkeep", str(tmp_path / "upkeep.ics"))
        return sorted((tmp_path / "upkeep").glob("*.ics"))

    return run, take


def test_a_calendar_is_taken_and_a_later_edition_moves_its_events_and_doubles_none(khal):
    run, take = khal
    _, dues, data = made()
    assert len(take(data)) == len(dues)
    first = run("list", "2022-11-19", "1d", "--format", "{title}")
    assert "CV-1: Clean and test the check valve" in first
    done = "## serviced CV-1\n\n- task: check-valve-test\n- result: passed"
    later = (*BUILT, day("2022-07-01", "ow", done))
    _, dues, data = made(sheets=later, today=date(2022, 7, 2), edition=2, stamp=STAMP)
    assert len(take(data)) == len(dues)
    assert "CV-1" not in run("list", "2022-11-19", "1d", "--format", "{title}")
    assert run("list", "2023-01-01", "1d", "--format", "{title}").count("CV-1") == 1


def test_ten_years_of_days_are_the_same_in_a_browsers_library(tmp_path):
    """ical.js, which `.ci/prepare` puts beside the virtual environment's packages."""
    library = Path(sys.prefix) / "judges" / "node_modules" / "ical.js" / "dist" / "ical.js"
    view, dues, data = made()
    (tmp_path / "upkeep.ics").write_bytes(data)
    words = ["node", Path(__file__).with_name("expand.mjs"), library, tmp_path / "upkeep.ics"]
    done = subprocess.run(
        [*map(str, words), UNTIL.isoformat()], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    found = {}
    for line in done.stdout.splitlines():
        uid, day = line.split()
        found.setdefault(uid, set()).add(date.fromisoformat(day))
    for one in dues:
        uid = uid_of(view.built.site, one)
        got = found[uid] - ({TODAY} if one.overdue_days else set())
        last = UNTIL if "rrule" in events(data)[uid] else WRITTEN_OUT
        assert {day for day in got if day < last} == {
            day for day in occurrences(one, UNTIL) if day < last
        }
