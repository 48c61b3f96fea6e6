"""What a lost landmark costs: circles worked by numpy from the tapes that are left."""

import math
from itertools import combinations

import numpy as np
import pytest

from record.answers import NotFound, json_form
from record.answers.landmarks import landmarks, landmarks_words
from tests.record.answers.shelter import block
from tests.record.building import day, view_of
from tests.record.place.measuring import landmark, pipe, site

MARKS = {"H1": (10.00, 20.00), "H2": (22.00, 20.00), "W1": (30.50, 14.00), "G1": (4.20, 3.60)}
STANDING = [landmark(tag, *at) + "- state: standing\n" for tag, at in MARKS.items()]
THREE = [STANDING[0], STANDING[1], STANDING[3]]
BEND = (24.00, 6.00)
AIR_IN = pipe(
    "2 bend | 24.00 | 6.00 | staff | 20 mm", columns="x [m] | y [m] | how | position tolerance"
)


def ask(tag=None, *blocks, marks=STANDING, later=(), **asked):
    return landmarks(view_of(site(*marks, AIR_IN, *blocks), *later, **asked), tag)


def circle_m(*marks):
    """
    The radius at 95 % by numpy, as in the trade: each tape of class II, 0.3 + 0.2 mm a started
    metre, held to 20 mm and 1 mm a metre, its landmark known to 20 mm; √χ²(0.95; 2) = 2.4477 times
    the root of the greater eigenvalue of (JᵀWJ)⁻¹; with the bend's own 20 mm.
    """
    normal = np.zeros((2, 2))
    for mark in marks:
        way = np.array(BEND) - np.array(MARKS[mark])
        long = float(np.hypot(*way))
        tape = (0.3 + 0.2 * math.ceil(long)) / 1000
        tolerance = math.sqrt(tape**2 + (0.020 + 0.001 * long) ** 2 + 0.020**2)
        normal += np.outer(way, way) / long**2 * (1.959964 / tolerance) ** 2
    meets = 2.4477 * math.sqrt(1 / float(np.linalg.eigvalsh(normal)[0]))
    return math.hypot(0.020, meets)


def best(*standing):
    return min(combinations(standing, 2), key=lambda pair: circle_m(*pair))


@pytest.mark.parametrize("tag", ["H2", "G1"])
def test_the_circle_grows_to_that_of_the_best_two_tapes_that_are_left(tag):
    (without,) = ask(tag, marks=THREE).without
    (one,) = without.harder
    rest = [mark for mark in ("H1", "H2", "G1") if mark != tag]
    assert one.circle_with_m == pytest.approx(circle_m(*best("H1", "H2", "G1")), rel=1e-3)
    assert one.circle_without_m == pytest.approx(circle_m(*best(*rest)), rel=1e-3)
    assert set(one.tapes_without) == set(best(*rest)) and tag in one.tapes_with
    assert not without.lost and without.spots == 1


def test_a_circle_that_is_as_good_as_before_is_not_told_as_harder():
    """Without H2 the bend is taped from another pair, in a circle less than 5 mm wider."""
    rest = best("H1", "W1", "G1")
    assert 0 < circle_m(*rest) - circle_m(*best(*MARKS)) < 0.005
    assert ask("H2").without[0].harder == ()


def test_a_landmark_no_tape_needs_costs_nothing_while_a_check_is_left():
    """The best pair for the bend is H2 and G1; with H1 gone, W1 still checks them."""
    assert set(best(*MARKS)) == {"H2", "G1"}
    (without,) = ask("H1").without
    assert without.harder == ()
    assert "nothing would become harder to find, of 1 spots" in " ".join(landmarks_words(ask("H1")))


def test_with_two_left_there_is_no_third_to_check_by():
    (without,) = ask("W1", marks=[STANDING[0], STANDING[1], STANDING[2]]).without
    (one,) = without.harder
    assert one.checked_with and not one.checked_without
    words = " ".join(" ".join(landmarks_words(ask("W1", marks=STANDING[:3]))).split())
    assert "no third is left to check by" in words


def test_with_fewer_than_two_left_it_cannot_be_taped_at_all():
    found = ask("H2", marks=STANDING[:2])
    (one,) = found.without[0].harder
    assert one.circle_without_m is None
    assert "CANNOT BE TAPED" in " ".join(landmarks_words(found))


def test_what_a_lost_landmark_made_harder_is_told_unasked():
    """H2 is lost; before that day nothing is."""
    gone = [day("2033-10-19", "gc", "## landmark H2\n\n- state: demolished\n")]
    found = ask(later=gone, marks=THREE)
    (without,) = found.without
    assert (without.landmark, without.lost) == ("H2", True)
    assert [one.tag for one in without.harder] == ["AIR-IN/2"]
    states = {one.tag: one.stands for one in found.landmarks}
    assert states == {"H1": True, "H2": False, "G1": True}
    assert "became harder" in " ".join(landmarks_words(found))
    assert ask(later=gone, as_of="2033-10-18").without == ()


def test_a_second_loss_counts_from_what_the_first_one_left():
    """With G1 gone already the tapes before H2 goes are of H1, H2 and W1, then H1 and W1."""
    gone = [day("2033-10-19", "gc", "## landmark G1\n\n- state: demolished\n")]
    assert set(best(*MARKS)) != set(best("H1", "H2", "W1"))
    (without,) = ask("H2", later=gone).without
    (one,) = without.harder
    assert one.circle_with_m == pytest.approx(circle_m(*best("H1", "H2", "W1")), rel=1e-3)
    assert one.circle_without_m == pytest.approx(circle_m("H1", "W1"), rel=1e-3)


def test_things_with_a_place_of_their_own_are_counted_beside_stations():
    dip = block("dip pipe DP-1", x="13.00 m", y="8.80 m")
    assert {spot for one in ask(None, dip).landmarks for spot in one.best_for} == {
        "AIR-IN/2", "DP-1",
    }  # fmt: skip


def test_what_a_reader_may_not_see_is_neither_told_nor_counted():
    shaft = block("way out SH-1", hull="A", x="15.00 m", y="8.00 m", opens="from inside")
    hull = block("hull A", inside_length="6.00 m")
    for reader, spots in (("owner", 2), ("trade", 1)):
        found = ask("H2", hull, shaft, reader=reader)
        assert found.without[0].spots == spots
        text = str(json_form(found)) + " ".join(landmarks_words(found))
        assert ("SH-1" in text) is (reader == "owner")


def test_a_landmark_nobody_recorded_is_refused_with_those_like_it():
    with pytest.raises(NotFound) as refused:
        ask("W-1")
    assert "Did you mean W1" in str(refused.value)
