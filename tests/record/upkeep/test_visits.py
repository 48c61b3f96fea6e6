"""Upkeep gathered into the fewest visits, on days that people can keep."""

from datetime import date, timedelta
from itertools import combinations
from types import SimpleNamespace

from hypothesis import given, settings
from hypothesis import strategies as st

from record.upkeep import due
from record.upkeep.visit_words import form, words
from record.upkeep.visits import Window, fewest, visits
from tests.record.building import day, view_of
from tests.record.figures.ground import SITE

FIRST = date(2031, 1, 1)
PLAN = """
## valve CV-1

- type: check
- installed: 2031-01-20

## valve OV-1

- type: overpressure
- installed: 2031-02-25

## way out SH-1

- name: shaft
"""


def window(opens, length, about="CV-1"):
    first = FIRST + timedelta(days=opens)
    one = SimpleNamespace(about=about, task=SimpleNamespace(outside=False))
    return Window(one=one, opens=first, due=first + timedelta(days=length))


spans = st.lists(st.tuples(st.integers(0, 14), st.integers(0, 6)), min_size=1, max_size=7)


@given(spans)
@settings(max_examples=60, deadline=None)
def test_no_choice_of_days_needs_fewer_visits(each):
    """By trying every choice of days, fewest first."""
    windows = [window(*one) for one in each]
    days = sorted({one.due + timedelta(days=step) for one in windows for step in range(-6, 1)})
    least = next(
        count
        for count in range(1, len(windows) + 1)
        if any(
            all(any(one.has(on) for on in chosen) for one in windows)
            for chosen in combinations(days, count)
        )
    )
    found = fewest(windows)
    assert len(found) == least
    met = [one for visit in found for one in visit.windows]
    assert sorted(map(id, met)) == sorted(map(id, windows))  # each once
    assert all(one.has(visit.on) for visit in found for one in visit.windows)


def planned(*later, site=SITE, today="2031-03-01", until="2033-03-01", **asked):
    view = view_of(day("2031-03-01", "of", site, PLAN), *later)
    on, last = date.fromisoformat(today), date.fromisoformat(until)
    return view, visits(view, due(view, today=on, until=last, **asked), today=on, until=last)


def test_every_visit_is_a_weekday_within_the_windows_of_its_tasks():
    _, found = planned()
    assert len(found) >= 4
    for visit in found:
        assert all(one.has(visit.on) for one in visit.windows)
        closed_in = (visit.closes - visit.opens).days < 2
        assert visit.on.weekday() < 5 or closed_in, visit.on


def test_what_is_overdue_is_met_today_and_only_once():
    """CV-1 every six months from 20 January 2031: by June 2032 two times were missed."""
    _, found = planned(today="2032-06-01", until="2032-06-30")
    late = [one for one in found[0].windows if one.one.about == "CV-1"]
    assert found[0].on == date(2032, 6, 1) and len(late) == 1


def test_work_outside_is_done_before_deep_winter():
    """
    The way out was first recorded on 1 March, within the days whose mean is under 0 °C: those from
    24 November to 17 March (arccos(6.5 / 11.5) = 0.970 rad, 56.4 days about 20 January).
    """
    _, found = planned(until="2032-03-15")
    (walk,) = [one for visit in found for one in visit.windows if one.one.about == "SH-1"]
    assert walk.wintry and walk.due == date(2032, 3, 1)  # 60 days before it are winter too
    said = day("2031-12-20", "ow", "## serviced SH-1\n\n- task: way-out-walk\n- result: passed\n")
    _, found = planned(said, today="2032-09-01", until="2032-12-31")
    (walk,) = [one for visit in found for one in visit.windows if one.one.about == "SH-1"]
    assert walk.due == date(2032, 11, 23) and not walk.wintry


def test_where_the_climate_is_not_recorded_winter_moves_nothing():
    bare = SITE.replace("- coldest day: 20 January\n", "")
    said = day("2031-12-20", "ow", "## serviced SH-1\n\n- task: way-out-walk\n- result: passed\n")
    _, found = planned(said, site=bare, today="2032-09-01", until="2032-12-31")
    (walk,) = [one for visit in found for one in visit.windows if one.one.about == "SH-1"]
    assert walk.due == date(2032, 12, 20)


def test_visits_are_told_with_their_days_and_as_data():
    view, found = planned(until="2031-12-31")
    told = "\n".join(words(found, view=view, today=FIRST, until=date(2031, 12, 31)))
    assert f"any day from {found[0].opens} to {found[0].closes}" in told
    assert form(found[0])["tasks"][0].keys() == {"task", "about", "opens", "due", "who"}


def test_only_what_a_role_may_do_is_planned_for_it():
    _, found = planned(role="technician")
    assert found and all("technician" in w.one.who for visit in found for w in visit.windows)
