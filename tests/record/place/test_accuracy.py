"""How sure a place is, from the crew's own words."""

import pytest

from record.place.accuracy import accuracy
from tests.record.answers.shelter import SITE, fit_out, hull, run, sheet
from tests.record.building import view_of


def of_station(across, how="total station", level="51.20"):
    pipe = run(stations=[("1", "102.60", "201.00", level, across)])
    pipe = pipe.replace("| total station |", f"| {how} |")
    view = view_of(sheet(SITE, hull(), pipe))
    return accuracy(view.built.things["W-1"].parts[0])


def test_a_stated_tolerance_goes_before_what_the_method_is_good_for():
    assert of_station("200 mm").horizontal_m == 0.2
    assert of_station("2 mm").horizontal_m == 0.002


def test_asked_for_a_tolerance_and_none_known_the_method_alone_promises_nothing():
    sure = of_station("not recorded")
    assert sure.horizontal_m == 0.30 and sure.assumed


@pytest.mark.parametrize(("how", "across"), [("by eye", 0.30), ("not recorded", 0.30)])
def test_by_eye_and_nobody_knows_how_are_both_300_mm(how, across):
    sure = of_station("none", how)
    assert sure.horizontal_m == across
    assert sure.assumed is (how == "not recorded")


def test_the_greater_of_two_stated_tolerances_in_plan_counts():
    box = fit_out(from_near="2.30 m ± 5 mm", from_left="0.00 m ± 40 mm")
    sure = accuracy(view_of(sheet(SITE, hull(), box)).built.things["FO-1"])
    assert (sure.horizontal_m, sure.vertical_m) == (0.040, 0.008)


def test_a_height_above_the_floor_brings_its_own_tolerance():
    box = fit_out(bottom=None, above_floor="0.50 m ± 30 mm")
    assert accuracy(view_of(sheet(SITE, hull(), box)).built.things["FO-1"]).vertical_m == 0.030
