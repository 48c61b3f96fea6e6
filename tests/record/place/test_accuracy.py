"""How sure a place is, from the crew's own words."""

import pytest

from record.place.accuracy import BASES, METHODS, accuracy
from record.place.runs import stations
from record.place.shots import levels
from tests.record.answers.shelter import SITE, fit_out, hull, run, sheet
from tests.record.building import day, view_of
from tests.record.place.measuring import DAY, book, mark, pipe, seen, site


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


def test_a_phones_gps_is_no_surveyors():
    """A phone under open sky within 4.9 m (gps.gov, GPS Accuracy; from memory): 5 m is taken."""
    assert of_station("none", "GPS on the phone").horizontal_m == 5.0
    assert of_station("none", "RTK GPS").horizontal_m == 0.03


#: IFC 4.3, PEnum_UncertaintyBasis of Pset_Uncertainty (the names as they stand in its schema).
IFC = {
    "ASSESSMENT",
    "ESTIMATE",
    "INTERPRETATION",
    "MEASUREMENT",
    "OBSERVATION",
    "NOTKNOWN",
    "USERDEFINED",
    "NOTDEFINED",
}


def test_every_basis_is_one_that_the_open_standard_has():
    assert set(BASES.values()) <= IFC and len(set(BASES.values())) == len(BASES)
    assert {basis for *_, basis in METHODS} <= set(BASES)


@pytest.mark.parametrize(
    ("how", "basis"),
    [
        ("staff, BM1", "measured"),
        ("seen in the trench, not taped", "observed"),
        ("judged from the photo", "assessed"),
        ("taken off the drawing", "interpreted"),
        ("by eye", "estimated"),
        ("not recorded", "not known"),
    ],
)
def test_what_a_place_rests_on_is_told_from_the_crews_words(how, basis):
    assert of_station("20 mm", how).basis == basis


def test_a_benchmarks_tolerance_adds_against_others_and_cancels_between_its_own():
    """BM2 says no tolerance: 25 mm. Its book: one set-up, never closed, so 100 mm of its own.
    Both crowns then are ± 125 mm on the datum and ± 100 mm against each other."""
    rows = (("BM2", 1.5, None, None, 20), ("AIR-IN 1 crown", None, 2.0, None, 20),
            ("AIR-IN 2 crown", None, 2.1, None, 20), ("peg", None, None, 1.0, 20))  # fmt: skip
    stations_of = pipe("1 a | 0.00 | 0.00 | staff", "2 b | 5.00 | 0.00 | staff")
    built = seen(
        site(mark("BM2", "50.000 m", "levelled"), stations_of), day(DAY, "ld", book(*rows))
    )
    placed = stations(built.thing("AIR-IN"), {})
    assert [one.accuracy.vertical_m for one in placed] == pytest.approx([0.125, 0.125])
    assert [one.tolerance_m for one in levels(placed)] == pytest.approx([0.100, 0.100])


def test_levels_of_two_benchmarks_keep_the_tolerance_of_both():
    one = (("BM2", 1.5, None, None, 20), ("AIR-IN 1 crown", None, 2.0, None, 20),
           ("peg", None, None, 1.0, 20))  # fmt: skip
    other = (("BM3", 1.5, None, None, 20), ("AIR-IN 2 crown", None, 2.1, None, 20),
             ("peg", None, None, 1.0, 20))  # fmt: skip
    marks = [mark(tag, "50.000 m", "levelled") for tag in ("BM2", "BM3")]
    stations_of = pipe("1 a | 0.00 | 0.00 | staff", "2 b | 5.00 | 0.00 | staff")
    built = seen(site(*marks, stations_of), day(DAY, "ld", book(*one), book(*other)))
    placed = stations(built.thing("AIR-IN"), {})
    assert [one.tolerance_m for one in levels(placed)] == pytest.approx([0.125, 0.125])
