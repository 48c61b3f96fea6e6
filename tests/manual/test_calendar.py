"""The upkeep calendar, read back by icalendar and by hand."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import rrulestr
from icalendar import Calendar

from manual.calendar import calendar, uid_of
from record.upkeep import due, occurrences
from tests.record.building import day, view_of

DENVER = ZoneInfo("America/Denver")
STAMP = datetime(2022, 5, 24, 21, 3, 11, tzinfo=UTC)
TODAY = date(2022, 5, 25)
BUILT = (
    day(
        "2022-05-24",
        "ld",
        "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: x east",
        "## valve CV-1\n\n- type: check\n- on run: AIR-IN\n- installed: 2022-05-19",
        "## equipment FS-1\n\n- type: filter set\n- name: Vörfilter ½ × 2, grüne Kiste — „oben“\n"
        "- installed: 2022-01-31\n- maker's interval: 1 month",
        "## equipment AU-1\n\n- type: air unit\n- hand operation: none\n"
        "- maker's interval: 90 days\n- in use from: 2022-05-01",
        "## equipment FS-2\n\n- type: filter set\n- installed: 2022-05-01\n"
        "- sealed until: 2023-08-15",
        "## equipment GE-1\n\n- type: generator\n- installed: 2022-05-31",
    ),
    day(
        "2022-05-24",
        "ow",
        "## way out SH-1\n\n- hull: A\n- name: the old larder\n- opens: inward",
        "## store S-1\n\n- name: under the bed\n\n| item | what | expires |\n|---|---|---|\n"
        "| 1 | drinking water | 2022-09-01 |",
    ),
)


def made(*, reader="owner", today=TODAY, edition=1, stamp=STAMP, sheets=BUILT, zone=DENVER):
    view = view_of(*sheets, reader=reader)
    dues = due(view, today=today)
    return view, dues, calendar(view, dues, edition=edition, stamp=stamp, zone=zone)


def events(data):
    return {str(event["uid"]): event for event in Calendar.from_ical(data).walk("VEVENT")}


def days_of(event, until):
    """Return an event's days up to ``until``, expanded by dateutil."""
    start = event["dtstart"].dt
    days = {start}
    if "rrule" in event:
        rule = rrulestr(event["rrule"].to_ical().decode(), dtstart=datetime(*start.timetuple()[:3]))
        days.update(one.date() for one in rule.between(datetime(1900, 1, 1), _noon(until)))
    if "rdate" in event:
        days.update(one.dt for one in event["rdate"].dts)
    return sorted(one for one in days if one <= until)


def _noon(one):
    return datetime(one.year, one.month, one.day, 12)


def test_every_due_is_an_event_on_its_day():
    view, dues, data = made()
    found = events(data)
    assert len(found) == len(dues) > 8
    for one in dues:
        event = found[uid_of(view.built.site, one)]
        assert event["dtstart"].dt == one.due
        assert event["dtstart"].params["VALUE"] == "DATE"
        assert one.about in event["summary"]


def test_the_days_after_it_are_those_the_list_counts():
    view, dues, data = made()
    found = events(data)
    until = date(2024, 1, 15)
    for one in dues:
        asked = {TODAY} if one.overdue_days else set()
        days = days_of(found[uid_of(view.built.site, one)], until)
        assert days == sorted(asked | set(occurrences(one, until))), one.about


def test_the_last_day_of_january_does_not_slip_or_skip():
    """RFC 5545, 3.3.10: a monthly rule leaves out months without a 31st; so days are written
    out. By hand: 31 January and one, two, three months."""
    view, dues, data = made()
    one = next(each for each in dues if each.about == "FS-1")
    event = events(data)[uid_of(view.built.site, one)]
    assert "rrule" not in event
    days = days_of(event, date(2022, 4, 30))
    assert days == [date(2022, 2, 28), date(2022, 3, 31), date(2022, 4, 30)]


def test_a_repetition_is_a_rule_where_a_rule_can_say_it():
    view, dues, data = made()
    found = {one.about: events(data)[uid_of(view.built.site, one)] for one in dues}
    assert found["CV-1"]["rrule"].to_ical() == b"FREQ=MONTHLY;INTERVAL=6"
    assert found["AU-1"]["rrule"].to_ical() == b"FREQ=DAILY;INTERVAL=90"
    assert found["SH-1"]["rrule"].to_ical() == b"FREQ=YEARLY;INTERVAL=1"


def test_lines_are_folded_as_the_standard_says():
    """RFC 5545, 3.1: lines end in CR LF and are at most 75 octets without it; a longer one goes
    on after CR LF and one blank, and no letter is cut in two."""
    _, _, data = made()
    assert data.endswith(b"\r\n")
    lines = data[:-2].split(b"\r\n")
    assert all(len(line) <= 75 for line in lines)
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    for line in lines:
        line.decode("utf-8")
    whole = data.replace(b"\r\n ", b"").decode("utf-8")
    assert "Vörfilter ½ × 2\\, grüne Kiste — „oben“" in whole
    assert any(len(line) > 75 for line in whole.split("\r\n"))
    names = {re.split("[:;]", line)[0] for line in whole[:-2].split("\r\n")}
    assert names == {
        *("BEGIN", "END", "VERSION", "PRODID", "CALSCALE", "NAME", "UID", "DTSTAMP", "SEQUENCE"),
        *("DTSTART", "RRULE", "RDATE", "SUMMARY", "DESCRIPTION", "CATEGORIES", "CLASS", "TRANSP"),
        *("ACTION", "TRIGGER"),
    }


def test_the_same_record_gives_the_same_bytes():
    assert made()[2] == made()[2]


def test_the_order_in_which_dues_are_handed_in_does_not_matter():
    view, dues, data = made()
    assert calendar(view, dues[::-1], edition=1, stamp=STAMP, zone=DENVER) == data


def test_the_stamp_is_the_records_and_in_utc():
    """RFC 5545, 3.8.7.2: DTSTAMP is in UTC. Denver is six hours behind in May."""
    local = datetime(2022, 5, 24, 15, 3, 11)
    assert made(stamp=local)[2] == made()[2]
    for event in events(made()[2]).values():
        assert event["dtstamp"].dt == STAMP


def test_a_later_edition_moves_the_same_events():
    """RFC 5545, 3.8.4.7 and 3.8.7.4: the same UID with a higher SEQUENCE takes the place."""
    done = day("2022-11-25", "te", "## serviced CV-1\n\n- task: check-valve-test\n- result: passed")
    first = events(made()[2])
    second = events(made(sheets=(*BUILT, done), edition=2, today=date(2022, 11, 26))[2])
    assert set(first) == set(second)
    moved = [uid for uid in first if first[uid]["summary"].startswith("CV-1")]
    assert [first[uid]["dtstart"].dt for uid in moved] == [date(2022, 11, 19)]
    assert [second[uid]["dtstart"].dt for uid in moved] == [date(2023, 5, 25)]
    assert {event["sequence"] for event in second.values()} == {2}


def test_two_sites_share_no_event():
    one = made()[1][0]
    assert uid_of("fern-bank", one) != uid_of("larch-end", one)


def test_it_reminds_a_week_before():
    for event in events(made()[2]).values():
        alarms = event.walk("VALARM")
        assert [alarm["trigger"].dt for alarm in alarms] == [timedelta(days=-7)]
        assert event["transp"] == "TRANSPARENT"


def test_the_card_warns_before_the_first_step_and_has_four_ticks_and_a_reading():
    _, dues, data = made()
    texts = [str(event["description"]) for event in events(data).values()]
    assert len(texts) == len(dues)
    for text in texts:
        warns = re.search(r"^(DANGER|WARNING|CAUTION|NOTICE): ", text, re.MULTILINE)
        assert 0 < warns.start() < text.index("\n1. ")
        assert text.count("\n[ ] ") == 4
        assert text.count("________") == 1
        assert "Passed if: " in text
        assert "Manual, edition 1: " in text


def test_a_missed_one_is_seen_on_the_day_it_is_asked_on():
    view, dues, data = made(today=date(2023, 6, 10))
    one = next(each for each in dues if each.about == "CV-1")
    event = events(data)[uid_of(view.built.site, one)]
    assert event["dtstart"].dt == date(2022, 11, 19)
    assert date(2023, 6, 10) in days_of(event, date(2023, 6, 30))
    assert "MISSED: it was due on 2022-11-19." in event["description"]


def test_a_benchmark_is_not_made_a_duty():
    text = next(e["description"] for e in events(made()[2]).values() if "GE-1" in e["summary"])
    assert "A benchmark, not required for a home shelter." in text


def test_a_technicians_calendar_has_no_word_of_what_is_the_owners():
    _, dues, data = made(reader="technician")
    text = data.replace(b"\r\n ", b"").decode().casefold()
    words = ("sh-1", "larder", "under the bed", "way out", "ways out", "shaft", "hatch", "store")
    assert [word for word in (*words, "summary:s-1") if word in text] == []
    assert "fs-1" in text
    assert len(events(data)) == len(dues)
    assert b"larder" in made()[2].replace(b"\r\n ", b"")


def test_a_technicians_calendar_does_not_change_with_what_is_withheld():
    owners = BUILT[1].replace("larder", "cellar").replace("2022-09-01", "2029-01-01")
    with_other = made(reader="technician", sheets=(BUILT[0], owners))[2]
    assert with_other == made(reader="technician")[2]
    assert with_other == made(reader="technician", sheets=BUILT[:1])[2]


def test_the_owners_dues_are_refused_for_a_technician():
    _, owners, _ = made()
    view = view_of(*BUILT, reader="technician")
    with pytest.raises(ValueError, match="technician"):
        calendar(view, owners, edition=1, stamp=STAMP, zone=DENVER)


def test_a_due_twice_is_refused():
    view, dues, _ = made()
    with pytest.raises(ValueError, match="twice"):
        calendar(view, (*dues, dues[0]), edition=1, stamp=STAMP, zone=DENVER)


def test_what_is_the_owners_alone_is_confidential():
    """RFC 5545, 3.8.1.3: CLASS says who may be shown it."""
    found = {str(event["summary"]).split(":")[0]: event for event in events(made()[2]).values()}
    assert found["SH-1"]["class"] == found["S-1"]["class"] == "CONFIDENTIAL"
    assert found["CV-1"]["class"] == "PRIVATE"


def test_no_place_goes_into_a_calendar():
    sheet = day("2022-05-24", "ld", "## equipment DR-1\n\n- type: door\n- hull: A\n- x: 10.619 m")
    data = made(sheets=(sheet,))[2]
    assert b"10.619" not in data
    assert b"LOCATION" not in data
    assert b"GEO" not in data


def test_a_name_cannot_write_lines_of_its_own():
    """RFC 5545, 3.3.11: control characters do not stand in TEXT."""
    view, dues, _ = made()
    dues = (replace(dues[0], name="kind\x07\r\nBEGIN:VEVENT\u2028x"),)
    data = calendar(view, dues, edition=1, stamp=STAMP, zone=DENVER)
    assert len(events(data)) == 1
    assert data.count(b"\r\nBEGIN:VEVENT") == 1
    assert not re.search(rb"[\x00-\x09\x0b\x0c\x0e-\x1f]", data)
    assert "kind���BEGIN:VEVENT�x" in str(events(data).popitem()[1]["description"])


def test_a_site_with_nothing_in_it_gives_a_calendar_that_reads():
    view = view_of(day("2022-05-24", "ld", "## landmark H1\n\n- what: corner\n- x: 1 m\n- y: 1 m"))
    data = calendar(view, (), edition=1, stamp=STAMP, zone=DENVER)
    assert Calendar.from_ical(data).walk("VEVENT") == []
    assert data.startswith(b"BEGIN:VCALENDAR\r\n")
