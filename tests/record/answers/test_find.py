"""Where to dig: tapes by Pythagoras, the side by looking at the plan, what is lost left out."""

import json
import math
import re
from itertools import combinations

import numpy as np
import pytest

from record.answers import NotFound, json_form
from record.answers.find import find
from record.answers.find_words import find_words
from record.answers.refused import CannotAnswer
from tests.record.answers.shelter import block, hull
from tests.record.building import day, view_of
from tests.record.place.measuring import DAY, landmark, pipe, site, ties

MARKS = {"H1": (10.00, 20.00), "H2": (22.00, 20.00), "W1": (30.50, 14.00), "G1": (4.20, 3.60)}
STANDING = [landmark(tag, *at) + "- state: standing\n" for tag, at in MARKS.items()]
BEND = (24.00, 6.00)
ROWS = (
    "1 foot | 27.00 | 2.00 | 47.850 ± 3 mm | 49.45 | staff | 20 mm",
    "2 bend | 24.00 | 6.00 | 47.750 ± 3 mm | 49.55 | staff | 20 mm",
)
COLUMNS = "x [m] | y [m] | invert [m] | ground [m] | how | position tolerance"
AIR_IN = pipe(*ROWS, columns=COLUMNS, fields="- carries: supply air\n- pipe length: 5.00 m\n")


def ask(tag="AIR-IN/2", *blocks, marks=STANDING, later=(), **asked):
    return find(view_of(site(*marks, *(blocks or (AIR_IN,))), *later, **asked), tag)


def spot(*words, **asked):
    (one,) = ask(*words, **asked).spots
    return one


def told(found):
    return " ".join(" ".join(find_words(found)).split())


def test_each_tape_is_as_long_as_pythagoras_says():
    pulled = spot().tapes
    for tape in (pulled.first, pulled.second, pulled.check):
        assert tape.length_m == pytest.approx(math.dist(MARKS[tape.landmark], BEND))
    assert len({pulled.first.landmark, pulled.second.landmark, pulled.check.landmark}) == 3


def widest_m(one, other):
    """Half the greatest width at 95 % of a fix by two tapes, by numpy: √χ²(0.95; 2) = 2.4477 times
    the root of the greater eigenvalue of (JᵀWJ)⁻¹; a tape is of class II, 0.3 + 0.2 mm a started
    metre, held to 20 mm and 1 mm a metre, its landmark known to 20 mm."""
    normal = np.zeros((2, 2))
    for mark in (one, other):
        way = np.array(BEND) - np.array(MARKS[mark])
        long = float(np.hypot(*way))
        tape = (0.3 + 0.2 * math.ceil(long)) / 1000
        tolerance = math.sqrt(tape**2 + (0.020 + 0.001 * long) ** 2 + 0.020**2)
        normal += np.outer(way, way) / long**2 * (1.959964 / tolerance) ** 2
    return 2.4477 * math.sqrt(1 / float(np.linalg.eigvalsh(normal)[0]))


def test_of_all_pairs_the_one_is_chosen_that_puts_the_point_down_best():
    pulled = spot().tapes
    pairs = {frozenset(pair): widest_m(*pair) for pair in combinations(MARKS, 2)}
    assert min(pairs, key=pairs.get) == {pulled.first.landmark, pulled.second.landmark}
    assert pulled.meets_within_m == pytest.approx(min(pairs.values()), rel=1e-3)


def test_a_person_with_two_tapes_is_told_which_side():
    """South of the house, between its corners: the corners H1, H2 lie on y 20, the bend on y 6."""
    pulled = spot(marks=STANDING[:2]).tapes
    assert {pulled.first.landmark, pulled.second.landmark} == {"H1", "H2"}
    assert pulled.side == "south"
    from_west = pulled.first.landmark == "H1"
    assert pulled.turn == ("right" if from_west else "left")
    assert pulled.check is None


def test_the_words_have_both_unit_systems():
    """14.142 m is 556.77 in: 46 ft 4 3/4 in to the nearest sixteenth."""
    words = told(ask(marks=STANDING[:2]))
    assert "pull 14.142 m (46' 4 3/4\")" in words
    assert "They meet south of the line" in words
    assert "no third landmark to check by" in words


def test_the_depth_is_told_from_the_surface_of_its_day():
    """Crown 47.750 + 0.156 = 47.906; 49.55 − 47.906 = 1.644. √(3² + 50²) = 50.1 mm."""
    deep = spot().depth
    assert deep.depth_m == pytest.approx(1.644)
    assert deep.surface_on == "2031-05-01"
    assert deep.tolerance_m == pytest.approx(0.0501, abs=1e-4)


def test_cover_measured_there_later_is_told_too():
    later = [day("2033-06-01", "ld", block("cover measured AIR-IN", point="2", cover="1.200 m",
                                           how="rod"))]  # fmt: skip
    assert spot(later=later).depth.measured_since == ("1.200 m measured 2033-06-01 (ld-10)",)


def test_the_circle_is_of_the_place_and_of_the_tapes_together():
    one = spot()
    assert one.within_m == pytest.approx(math.hypot(0.020, one.tapes.meets_within_m))
    assert one.position_tolerance_m == pytest.approx(0.020)


@pytest.mark.parametrize(
    "gone",
    [
        "## landmark W1\n\n- state: demolished\n",
        "## worked by others W1\n\n- what: well head demolished, pipe capped below ground\n",
    ],
)
def test_a_landmark_that_is_lost_is_not_offered(gone):
    later = [day("2033-10-19", "gc", gone)]
    found = ask(later=later)
    pulled = found.spots[0].tapes
    assert "W1" not in (pulled.first.landmark, pulled.second.landmark, pulled.check.landmark)
    assert len(found.lost) == 1 and found.lost[0].startswith("W1: ")
    before = ask(later=later, as_of="2033-10-18")
    assert before.lost == ()


def test_other_work_near_a_landmark_does_not_lose_it():
    later = [day("2033-10-19", "gc", "## worked by others W1\n\n- what: cover painted\n")]
    assert ask(later=later).lost == ()


def test_with_fewer_than_two_landmarks_it_says_so():
    found = ask(marks=STANDING[:1])
    assert found.spots[0].tapes is None
    assert "FEWER THAN TWO LANDMARKS ARE LEFT" in told(found)


def test_every_station_of_a_run_is_told_and_how_it_lies_between():
    found = ask("AIR-IN")
    assert [one.tag for one in found.spots] == ["AIR-IN/1", "AIR-IN/2"]
    assert found.between == ("1 to 2: straight, 5.00 m, no pipe to spare",)


def test_two_places_are_both_told():
    bare = pipe("2 bend | staff", columns="how")
    two = ties("AIR-IN", ("H2", 2, "14.142"), ("H1", 2, "19.799"))
    found = ask("AIR-IN/2", bare, two)
    assert {tuple(round(m, 2) for m in at) for at in found.spots[0].either} == {(24, 6), (24, 34)}
    assert told(found).count("It may be at") == 2


def test_a_place_not_recorded_is_not_nothing():
    words = told(ask("AIR-IN/2", pipe("2 bend | staff", columns="how")))
    assert "NOT RECORDED. That does not mean that it is not there." in words
    assert "expect it from the surface down" in words


INSIDE = block("fit-out FO-1", what="sleeve", hull="A", from_near="5.00 m", from_left="0.50 m",
               along="0.20 m", across="0.30 m", bottom="51.00 m", how="tape")  # fmt: skip


def test_a_thing_inside_is_measured_from_the_nearer_faces():
    """Hull A is 6.00 long and 3.00 wide with its floor at 50.00: from 5.00 to 5.20 along it is
    0.80 from the far end, from 0.50 to 0.80 across 0.50 from the left wall, and 1.00 up. No tape
    leads in from outside."""
    one = spot("FO-1", hull(), INSIDE)
    assert one.tapes is None
    assert {each.face: round(each.length_m, 3) for each in one.from_faces} == {
        "far": 0.80, "left": 0.50, "walking floor": 1.00,
    }  # fmt: skip
    said = told(ask("FO-1", hull(), INSIDE))
    assert "0.800 m (2' 7 1/2\") from the far end to its nearer edge" in said
    assert "its bottom 1.000 m (3' 3 3/8\") above the walking floor" in said


def test_a_thing_of_no_stated_size_is_measured_to_the_edge_that_was_written():
    """How far its other edge is from the far end nobody can tell."""
    bare = INSIDE.replace("- along: 0.20 m\n", "")
    assert {each.face: each.length_m for each in spot("FO-1", hull(), bare).from_faces} == {
        "near": 5.00, "left": 0.50, "walking floor": pytest.approx(1.00),
    }  # fmt: skip


def test_a_dip_pipe_is_as_high_as_its_top():
    pipe_ = block("dip pipe DP-1", x="13.00 m", y="8.80 m", top="50.15 m")
    said = told(ask("DP-1", pipe_))
    assert "Its top is at 50.150 m" in said and "depth is NOT RECORDED" not in said


def test_a_hull_is_found_by_a_named_corner_and_is_as_deep_as_its_roof():
    """Inside 2.50 high on a floor at 50.00, plate 10 mm: roof 52.510; ground 54.00: 1.490."""
    there = hull(x="24.00 m ± 10 mm", y="6.00 m ± 10 mm", ground_level="54.00 m")
    said = told(ask("A", there))
    assert "the inside corner at its near end and left wall" in said
    assert "Its roof is 1.490 m (4' 10 11/16\") below the ground as it was on" in said
    assert "depth is NOT RECORDED" not in said
    bare = told(ask("A", there.replace("- ground level: 54.00 m", "")))
    assert "Its roof is at 52.510 m; how deep is not recorded." in bare


def valve(**place):
    return block("valve V-1", type="ball", on_run="AIR-IN", at_station="2", **place)


def test_a_valve_on_the_wall_inside_is_measured_from_the_wall_and_not_dug_for_at_its_station():
    """It names a station of its run, out in the ground, and stands 1.00 m from the far end."""
    one = spot("V-1", hull(), AIR_IN, valve(hull="A", from_near="5.00 m", from_left="0.12 m"))
    assert one.tapes is None and one.words == "valve, ball"
    assert {each.face: round(each.length_m, 2) for each in one.from_faces} == {
        "far": 1.00, "left": 0.12,
    }  # fmt: skip


def test_a_valve_with_no_place_but_its_station_is_looked_for_there_and_its_run_is_named():
    one = spot("V-1", AIR_IN, valve())
    assert (one.x_m, one.y_m) == BEND
    assert one.words == "valve, ball, no place of its own: at station 2 bend of AIR-IN, run"


def test_a_place_in_a_hull_that_has_none_itself_is_told_as_it_was_written():
    """Nobody wrote where on the grid hull A stands: its valve is still 2.00 m from its near end."""
    inside = block("run W-1", carries="drinking water") + "\n\n" + block(
        "valve V-1", type="ball", on_run="W-1", hull="A", from_near="2.00 m", from_left="0.05 m",
        level="centre 50.90 m",
    )  # fmt: skip
    adrift = ask("V-1", hull(x="not recorded"), inside)
    said = told(adrift)
    assert 'from near 2.000 m (6\' 6 3/4"), from left 0.050 m (1 15/16")' in said
    assert "where that is on the site grid cannot be told" in said
    assert "Its place is NOT RECORDED" not in said and "assumed" not in said
    assert "place" in adrift.spots[0].not_recorded
    assert "As it was written" not in told(ask("V-1", hull(), inside))


def test_a_withheld_thing_is_told_just_as_one_that_nobody_recorded():
    hidden = pipe(*ROWS, tag="X-77", columns=COLUMNS, fields="- readers: owner\n")
    view = view_of(site(*STANDING, AIR_IN, hidden), reader="technician")
    problems = []
    for tag in ("X-77", "X-78"):
        with pytest.raises(NotFound) as refused:
            find(view, tag)
        problems.append(str(refused.value).replace(tag, "?"))
    assert problems[0] == problems[1]


def test_what_lies_nowhere_is_refused_in_words():
    with pytest.raises(CannotAnswer, match="not in one spot"):
        ask("fern-bank")


def test_before_any_digging_the_recorded_tolerance_of_the_site_is_said():
    rule = "## site fern-bank\n\n- dig tolerance: 24 in\n- dig tolerance from: local rule\n"
    found = ask(later=[day(DAY, "ld", rule)])
    words = told(found)
    assert "Within 24 in of any mark or recorded line, either side, by hand only" in words
    assert "by hand only within 24 in of it, which is wider" in words
    assert found.dig_tolerance_m == pytest.approx(0.6096)
    assert "is not recorded here: ask the locating service" in told(ask())


def test_it_never_says_that_a_place_is_clear():
    words = told(ask())
    assert "not a clearance to dig" in words
    assert not re.search(r"clear to dig|safe to dig|nothing (else )?(is )?(there|here)", words)


def test_its_json_is_plain():
    form = json_form(ask())
    json.dumps(form, allow_nan=False)
    assert form["spots"][0]["tapes"]["first"]["length_m"] > 0


def test_the_tapes_lead_back_to_the_point_from_either_side():
    """Two circles meet twice; the one on the side that was told is the point that was asked for."""
    pulled = spot().tapes
    (ax, ay), (bx, by) = MARKS[pulled.first.landmark], MARKS[pulled.second.landmark]
    apart = math.hypot(bx - ax, by - ay)
    along = (pulled.first.length_m**2 - pulled.second.length_m**2 + apart**2) / (2 * apart)
    off = math.sqrt(pulled.first.length_m**2 - along**2)
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    turn = 1 if pulled.turn == "left" else -1
    x, y = ax + along * ux - turn * off * uy, ay + along * uy + turn * off * ux
    assert (x, y) == pytest.approx(BEND)


def test_a_run_without_a_station_may_lie_anywhere():
    bare = "## run AIR-IN\n\n- material: clay\n"
    assert "No station of it is recorded: it may lie anywhere" in told(ask("AIR-IN", bare))


def test_when_the_well_is_gone_a_post_that_was_set_for_it_is_offered():
    """K1 at (28.00, 9.00) is √(4² + 3²) = 5.000 from the bend; seen from there it lies at 36.9°
    and H2 at 98.1°: 61.3° between them on the two shortest tapes, 5.000 and 14.142."""
    later = [
        day("2033-10-19", "gc", "## landmark W1\n\n- state: demolished\n"),
        day("2033-10-19", "ld", landmark("K1", "28.00", "9.00") + "- state: standing\n"),
    ]
    pulled = spot(later=later).tapes
    lengths = {each.landmark: each.length_m for each in (pulled.first, pulled.second, pulled.check)}
    assert lengths["K1"] == pytest.approx(5.000)
    assert "W1" not in lengths


def test_what_is_withheld_changes_no_letter_of_the_answer():
    """The same record with and without a hidden run beside, and a hidden tie of the bend."""
    hidden = pipe(*ROWS, tag="X-77", columns=COLUMNS, fields="- readers: owner\n")
    tie = (
        "## position tied AIR-IN\n\n- readers: owner\n- landmark: H1\n- point: 2\n- distance: 9 m\n"
    )
    secret = day("2031-06-01", "ow", hidden, tie)
    later = [secret]
    assert ask("AIR-IN", reader="technician") == ask("AIR-IN", later=later, reader="technician")
    bare = pipe("2 bend | staff", columns="how")
    taped = day(DAY, "ld", ties("AIR-IN", ("H2", 2, "14.142"), ("W1", 2, "10.308")))
    asked = [
        ask("AIR-IN", bare, later=[taped, *more], reader="technician") for more in ([], [secret])
    ]
    assert asked[0] == asked[1]
