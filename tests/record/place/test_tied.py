"""Tape ties as they stand in day sheets: where they put a thing, and what they cannot settle."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from record.place.tied import tied_points
from tests.record.building import day, view_of
from tests.record.place.measuring import DAY, landmark, pipe, seen, site, ties

#: The landmarks and the bend of an invented site: H1, H2 house corners, W1 a well, G1 a pillar.
MARKS = {"H1": (10.00, 20.00), "H2": (22.00, 20.00), "W1": (30.50, 14.00), "G1": (4.20, 3.60)}
LANDMARKS = [landmark(tag, *at) for tag, at in MARKS.items()]
BEND = (("H2", 2, "14.142"), ("W1", 2, "10.308"), ("H1", 2, "19.799"))
AIR_IN = pipe("2 bend | staff", columns="how")


def points(*rows, tag="AIR-IN", marks=LANDMARKS, thing=AIR_IN, more=(), **form):
    return tied_points(seen(site(*marks, thing), day(DAY, "ld", ties(tag, *rows, **form)), *more))


def one(*rows, **form):
    [point] = points(*rows, **form)
    return point


def at(point, within=1e-3):
    return pytest.approx((point.fix.x_m, point.fix.y_m), abs=within)


def test_three_ties_put_the_bend_where_it_was_set_out():
    """Distances by Pythagoras from (24.00, 6.00): √(2² + 14²) = 14.142, √(6.5² + 8²) = 10.308,
    √(14² + 14²) = 19.799."""
    point = one(*BEND)
    assert (point.tag, point.fix.agreement) == ("AIR-IN/2", "agree")
    assert at(point) == (24.00, 6.00)
    assert point.says == ()


def test_two_digits_swapped_in_one_of_three_ties_are_seen_but_cannot_be_placed():
    """10.803 for 10.308; residuals of 0.10 to 0.16 by scipy."""
    point = one(BEND[0], ("W1", 2, "10.803"), BEND[2])
    assert point.fix.agreement == "disagree"
    assert "one is wrong, three cannot say which" in " ".join(point.says)
    off = sorted(map(abs, point.fix.residuals_m))
    assert (off[0], off[-1]) == (pytest.approx(0.10, abs=0.01), pytest.approx(0.16, abs=0.01))
    assert point.tolerance_m > point.fix.ellipse.semi_major_m + 0.15


def test_a_fourth_tie_names_the_wrong_one():
    """G1 by Pythagoras: √(19.8² + 2.4²) = 19.945."""
    point = one(BEND[0], ("W1", 2, "10.803"), BEND[2], ("G1", 2, "19.945"))
    [says] = point.says
    assert "without W1 10.803 m the rest agree" in says


def test_one_tie_leaves_a_ring():
    point = one(BEND[0])
    assert point.fixes == ()
    assert "it lies on a ring of 14.142 m round H2" in point.says[0]


def test_two_ties_without_a_side_leave_two_places_and_neither_is_chosen():
    """H1 and H2 both at y 20.00: the mirror of (24.00, 6.00) is (24.00, 34.00)."""
    point = one(BEND[0], BEND[2])
    assert point.fix is None and point.tolerance_m is None
    places = {(round(fix.x_m, 2), round(fix.y_m, 2)) for fix in point.fixes}
    assert places == {(24.00, 6.00), (24.00, 34.00)}
    assert "the side is not recorded" in " ".join(point.says)


SIDED = "landmark | point | distance [m] | side"


@pytest.mark.parametrize(("side", "y"), [("south of the house", 6.0), ("north of H2", 34.0)])
def test_the_side_settles_two_ties(side, y):
    point = one((*BEND[0], side), (*BEND[2], side), columns=SIDED)
    assert at(point) == (24.00, y)


def test_a_side_that_both_places_are_on_settles_nothing():
    """Both lie 2 m east of H2, for H1 and H2 are on one parallel."""
    point = one((*BEND[0], "east of H2"), (*BEND[2], "east"), columns=SIDED)
    assert len(point.fixes) == 2 and "does not tell which" in " ".join(point.says)


def test_sides_that_contradict_one_another_settle_nothing():
    point = one((*BEND[0], "south"), (*BEND[2], "north"), columns=SIDED)
    assert len(point.fixes) == 2


def test_ties_that_meet_nowhere_say_by_how_much():
    """H1 and H2 stand 12 m apart; 5 and 6 m leave 1 m between them."""
    point = one(("H1", 2, "5.000"), ("H2", 2, "6.000"))
    assert point.fixes == () and "miss each other by 1.000 m" in point.says[0]


def test_ties_that_meet_at_a_narrow_angle_are_told_as_weak():
    """At (16, 18) the corners are seen under 180° less 2 atan(2/6), so 143°; at (16, 19) 161°."""
    good = [("H1", 2, math.hypot(6, 2)), ("H2", 2, math.hypot(6, 2))]
    weak = [("H1", 2, math.hypot(6, 1)), ("H2", 2, math.hypot(6, 1))]
    told = [[(*row, "south") for row in rows] for rows in (good, weak)]
    assert one(*told[0], columns=SIDED).says == ()
    [says] = one(*told[1], columns=SIDED).says
    assert says.startswith("a weak fix, 161°") and "30° to 150°" in says


def test_a_slope_tie_is_taken_level_first():
    """By hand √(8.50² - 1.20²) = 8.41487."""
    columns = "landmark | point | distance [m] | difference of level [m]"
    point = one(("H2", 2, "8.50", "1.20"), columns=columns)
    assert point.ties[0].length_m == pytest.approx(8.41487, abs=1e-5)


def test_a_landmark_whose_place_is_not_recorded_is_left_out_and_said():
    marks = [*LANDMARKS, landmark("K1", 1, 1).replace("x: 1 m", "x: not recorded")]
    point = one(*BEND, ("K1", 2, "5.0"), marks=marks)
    assert at(point) == (24.00, 6.00)
    assert "the place of K1 is not recorded" in point.says[0]


def test_a_landmark_known_worse_counts_for_less_and_widens_the_place():
    """One tie ± 20 mm, its landmark ± 0 to 0.3 m: weights by root sum square, so the place leaves
    that tie and keeps to the other two."""

    def known(well_mm):
        tols = {tag: f" ± {well_mm if tag == 'W1' else 5} mm" for tag in MARKS}
        return [landmark(tag, *place, tol=tols[tag]) for tag, place in MARKS.items()]

    rows = (("H2", 2, "14.142"), ("W1", 2, "10.508"), ("H1", 2, "19.799"))
    sharp, wide = one(*rows, marks=known(5)), one(*rows, marks=known(300))
    away = [math.dist((24, 6), (each.fix.x_m, each.fix.y_m)) for each in (sharp, wide)]
    assert away[1] < away[0] / 4
    assert wide.ties[1].tolerance_m == pytest.approx(math.hypot(0.300, 0.020))


def test_a_point_is_matched_to_a_station_by_key_or_by_its_words():
    assert {points(("H2", name, "14.142"))[0].tag for name in ("2", "2 bend", "bend")} == {
        "AIR-IN/2"
    }


def test_the_only_point_of_a_thing_without_parts_is_the_thing():
    thing = "## valve V-1\n\n- type: gate\n- on run: AIR-IN\n"
    rows = [(mark, "spindle", metres) for mark, _, metres in BEND]
    assert one(*rows, tag="V-1", thing=f"{AIR_IN}\n{thing}").tag == "V-1"
    lid = [(mark, "lid", metres) for mark, _, metres in BEND]
    assert {p.tag for p in points(*rows, *lid, tag="V-1", thing=f"{AIR_IN}\n{thing}")} == {""}


FT = 0.3048
CORNERS = {"A": (0, 0), "B": (12, 0), "C": (12, 8), "D": (0, 8)}
HOUSE = (("A", "5.84 m"), ("B", "7.61 m"), ("C", "8.62 m"), ("D", "7.06 m"))


@pytest.mark.parametrize(
    ("marks", "taped", "places"),
    [
        # By hand: p = (36 - 64 + 100)/20 = 3.6, h = √(36 - 12.96) = 4.8; both sides.
        ({"A": (0, 0), "B": (10, 0)}, (("A", "6 m"), ("B", "8 m")), {(3.6, 4.8), (3.6, -4.8)}),
        # J. Mahun, Coordinate geometry, ch. E §2, in feet; the other root by hand.
        ({"J": (3511.69 * FT, 1419.51 * FT), "K": (2341.36 * FT, 2056.64 * FT)},
         (("J", "878.915 ft"), ("K", "738.15 ft")),
         {(3069.302 * FT, 2178.973 * FT), (2633.716 * FT, 1378.854 * FT)}),
        # J. Mahun, solution 160; the second distance worked out from those printed.
        ({"P1": (2000.000, 1000.000), "P2": (1811.082, 480.951)},
         (("P1", "573.754 m"), ("P2", "506.675 m")),
         {(1450.051, 836.445), (2316.155, 521.210)}),
        # scipy.optimize.least_squares 1.17.1: three that nearly meet, four corners of a house,
        # and the same with C read 0.30 m long.
        ({"A": (0, 0), "B": (10, 0), "C": (4, 9)},
         (("A", "7.23 m"), ("B", "5.64 m"), ("C", "5.40 m")), {(6.02388, 3.99638)}),
        (CORNERS, HOUSE, {(4.99666, 3.00009)}),
        (CORNERS, (*HOUSE[:2], ("C", "8.92 m"), HOUSE[3]), {(4.91121, 2.86445)}),
        ({"A": (0, 0), "B": (10, 0)}, (("A", "4 m"), ("B", "5 m")), set()),
    ],
)  # fmt: skip
def test_published_ties_come_out_of_the_record_where_they_should(marks, taped, places):
    rows = [(mark, 2, distance) for mark, distance in taped]
    columns = "landmark | point | distance"
    laid = [landmark(tag, f"{x:.6f}", f"{y:.6f}") for tag, (x, y) in marks.items()]
    found = one(*rows, marks=laid, columns=columns)
    got = sorted((fix.x_m, fix.y_m) for fix in found.fixes)
    assert len(got) == len(places)
    for each, expected in zip(got, sorted(places), strict=True):
        assert each == pytest.approx(expected, abs=1e-3)


def place(built, tag="AIR-IN", key="2"):
    part = built.thing(tag).part(key)
    return part.quantity("x"), part.quantity("y")


def test_a_station_without_a_place_is_put_where_its_ties_meet():
    built = seen(site(*LANDMARKS, AIR_IN), day(DAY, "ld", ties("AIR-IN", *BEND)))
    x, y = place(built)
    assert (float(x.si), float(y.si)) == pytest.approx((24.00, 6.00), abs=1e-3)
    point = one(*BEND)
    assert float(x.tol) == pytest.approx(point.fix.ellipse.semi_major_m, abs=1e-4)
    [held, *_] = built.thing("AIR-IN").part("2").held("x")
    assert held.worked.startswith("tied to H2 14.142 m, W1 10.308 m, H1 19.799 m")


def test_a_place_that_was_written_stays():
    thing = pipe("2 bend | 24.50 | 6.00 | staff")
    built = seen(site(*LANDMARKS, thing), day(DAY, "ld", ties("AIR-IN", *BEND)))
    assert float(place(built)[0].si) == 24.50


def test_two_places_are_never_put_down_as_one():
    built = seen(site(*LANDMARKS, AIR_IN), day(DAY, "ld", ties("AIR-IN", BEND[0], BEND[2])))
    assert place(built) == (None, None)


OTHER = pipe("1 foot | staff", tag="D-1", columns="how")


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(sorted(MARKS)), st.integers(-300, 300), st.integers(-300, 300))
def test_mending_a_landmark_moves_everything_tied_to_it_and_nothing_else(mark, dx_mm, dy_mm):
    """D-1/1 at (6, -2) is tied to G1 and H1 only, the bend to H2, W1 and H1."""
    far = [("G1", 1, f"{math.hypot(1.8, 5.6):.4f}"), ("H1", 1, f"{math.hypot(4, 22):.4f}")]
    sheets = [
        site(*LANDMARKS, AIR_IN, OTHER),
        day(
            DAY, "ld", ties("AIR-IN", *BEND),
            ties("D-1", *[(*row, "east of the pillar") for row in far], columns=SIDED),
        ),
    ]  # fmt: skip
    number = 2 + list(MARKS).index(mark)  # ld-1 is the site
    x, y = MARKS[mark]
    mend = (
        f"## landmark {mark}\n\n- mends: ld-{number}\n- because: misread\n"
        f"- x: {x + dx_mm / 1000:.3f} m\n- y: {y + dy_mm / 1000:.3f} m\n"
    )
    before, after = seen(*sheets), seen(*sheets, day(DAY, "ck", mend))
    from_it = {"H2": "AIR-IN", "W1": "AIR-IN", "G1": "D-1"}.get(mark)
    moved = {tag for tag in before.things if before.things[tag] != after.things[tag]}
    assert moved == {mark, "AIR-IN", "D-1"} if from_it is None else {mark, from_it}


def test_a_landmark_that_was_moved_later_leaves_what_was_tied_before():
    later = day("2032-05-01", "ld", "## landmark H2\n\n- x: 25.00 m\n")
    sheets = (site(*LANDMARKS, AIR_IN), day(DAY, "ld", ties("AIR-IN", *BEND)))
    assert place(seen(*sheets, later)) == place(seen(*sheets))


def test_a_tied_corner_of_a_hull_is_not_taken_for_its_place():
    """x and y of a hull are those of its near, left corner; this is another."""
    rows = [(mark, "far right corner", metres) for mark, _, metres in BEND]
    hull = "## hull A\n\n- inside length: 9.00 m\n"
    built = seen(site(*LANDMARKS, hull), day(DAY, "ld", ties("A", *rows)))
    assert built.thing("A").si("x") is None


def test_behind_a_panel_a_tied_thing_says_what_it_was_tied_to():
    thing = "## valve V-1\n\n- type: gate\n- on run: AIR-IN\n"
    rows = [(mark, "spindle", metres) for mark, _, metres in BEND]
    view = view_of(site(*LANDMARKS, AIR_IN, thing), day(DAY, "ld", ties("V-1", *rows)))
    [shape] = [each for each in view.shapes if each.thing.tag == "V-1"]
    assert shape.basis.startswith("tied to H2 14.142 m") and shape.assumed


def test_a_mended_tie_puts_the_point_right():
    wrong = ties("AIR-IN", BEND[0], ("W1", 2, "10.803"), BEND[2])
    mend = "## position tied AIR-IN\n\n- mends: ld-10\n- because: swapped\n- distance: 10.308 m\n"
    built = seen(site(*LANDMARKS, AIR_IN), day(DAY, "ld", wrong), day(DAY, "ld", mend, part="b"))
    [point] = tied_points(built)
    assert point.fix.agreement == "agree" and at(point) == (24.00, 6.00)


coordinate = st.floats(-30, 30).map(lambda value: round(value, 2))


@settings(max_examples=60, deadline=None)
@given(
    st.tuples(coordinate, coordinate),
    st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=6, unique=True),
    st.lists(st.integers(-30, 30), min_size=6, max_size=6),
)
def test_no_place_fits_the_ties_better_by_another_program(point, marks, errors_mm):
    """scipy.optimize.least_squares from the fitted place and from the true one: neither finds a
    lesser sum of squares, and where ours is the only place it comes to the same."""
    lengths = [
        math.dist(point, mark) + mm / 1000 for mark, mm in zip(marks, errors_mm, strict=False)
    ]
    if min(lengths) < 0.5:
        return
    tags = [f"P{number}" for number in range(len(marks))]
    rows = [(tag, 2, f"{metres:.4f}") for tag, metres in zip(tags, lengths, strict=True)]
    found = one(*rows, marks=[landmark(t, *at) for t, at in zip(tags, marks, strict=True)])
    read = np.array([float(row[2]) for row in rows])

    def off(at):
        return np.hypot(*(np.array(marks) - at).T) - read

    best = min(
        (least_squares(off, start, xtol=1e-14, ftol=1e-14, gtol=1e-14) for start in
         (point, *((f.x_m, f.y_m) for f in found.fixes))), key=lambda each: each.cost,
    )  # fmt: skip
    ours = min(0.5 * float(np.sum(off((f.x_m, f.y_m)) ** 2)) for f in found.fixes)
    assert ours <= best.cost + 1e-9
