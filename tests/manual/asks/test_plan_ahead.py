"""Upkeep looked ahead in the manual: months, years, visits, seasons."""

from datetime import date

from manual.asks.plan_ahead import season_words, strips, ten_years, visits_ahead, year_ahead
from record.upkeep import due, occurrences
from tests.record.building import day, view_of
from tests.record.figures.ground import OWNERS, PLAN

TODAY = date(2031, 6, 15)
FERN_BANK = view_of(PLAN, OWNERS)
DUES = due(FERN_BANK, today=TODAY)


def row(table, title):
    (found,) = [one for one in table.rows if one.title == title]
    return dict(zip(table.columns, found.cells, strict=True))


def test_the_year_counts_in_each_month_what_falls_due_in_it():
    year = year_ahead(DUES, TODAY)
    assert year.columns[0] == "Jun" and year.columns[-1] == "May" and len(year.columns) == 12
    for one in year.rows:
        mine = [each for each in DUES if each.title == one.title]
        days = [on for each in mine for on in occurrences(each, date(2032, 5, 31))]
        assert sum(int(cell or 0) for cell in one.cells) == len(days)


def test_ten_years_name_the_months_and_leave_out_what_comes_every_month():
    """First written down in May, and looked at once a year."""
    decade = ten_years(DUES, TODAY)
    assert decade.columns == tuple(map(str, range(2031, 2041)))
    assert row(decade, "Check the overpressure valve")["2033"] == "May"
    assert all(one.title != "Test the alarm" for one in decade.rows)


def test_what_is_late_is_counted_late_and_not_again_before_it_comes_round():
    late = due(FERN_BANK, today=date(2033, 1, 1))
    year = year_ahead(late, date(2033, 1, 1))
    (valves,) = [one for one in year.rows if one.title == "Check the overpressure valve"]
    mine = [one for one in late if one.title == valves.title]
    assert valves.late == len(mine) and valves.cells[0] == str(len(mine))
    assert valves.cells[1:4] == ("", "", "")


def test_a_visit_names_each_task_once_with_all_that_it_is_of():
    for visit in visits_ahead(FERN_BANK, DUES, TODAY):
        titles = [title for title, _ in visit.told]
        assert len(titles) == len(set(titles))
        assert visit.opens <= visit.on <= visit.closes


def test_the_strip_is_wet_where_the_dew_point_is_over_the_ground():
    (strip,) = strips(FERN_BANK)
    assert [name for name, *_, wet in strip.months if wet] == ["Jun", "Jul"]
    assert strip.months[5] == ("Jun", "7.0 °C (44.6 °F)", "7.0 °C (44.6 °F)", True)
    assert "of-1" in strip.entries


def test_when_a_season_begins_is_told_or_what_is_missing_to_know_it():
    told = "\n".join(season_words(FERN_BANK))
    assert "About 1 June the air begins to wet AIR-IN" in told
    assert "About 28 October days come down to a mean of 5 °C" in told
    bare = view_of(day("2031-05-01", "of", "## run AIR-IN\n\n- carries: supply air\n"))
    assert "The frost season is not known" in "\n".join(season_words(bare))
