"""Points tied to landmarks: what moving, losing or doubting a tie does to them."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from record.calc.tie_fit import ellipses, fit, turned_m
from record.calc.ties import NoSuchPoint, Tie, chance, fixes, horizontal_m, tape_tolerance_m

whole = st.integers(-40, 40)
places = st.tuples(whole, whole)
landmarks = st.lists(places, min_size=2, max_size=5, unique=True)
slips = st.lists(st.floats(-0.03, 0.03), min_size=5, max_size=5)
ROUND = [(0, 0), (30, 2), (28, 25), (-3, 27)]


def taped(point, marks, slips=(0.0,) * 9, tolerance_m=0.03):
    """Return the ties a tape would give from ``marks`` to ``point``, each with its slip."""
    lengths = [math.dist(point, mark) for mark in marks]
    return [
        Tie(*mark, length + slip, tolerance_m)
        for mark, length, slip in zip(marks, lengths, slips, strict=False)
    ]


def nearest(ties, point):
    return min(fixes(ties), key=lambda one: math.dist((one.x_m, one.y_m), point))


@given(places, landmarks)
def test_a_point_that_was_taped_from_comes_back(point, marks):
    assume(point not in marks and not _in_line(point, marks))
    fix = nearest(taped(point, marks), point)
    assert (fix.x_m, fix.y_m) == pytest.approx(point, abs=1e-5)
    assert fix.residuals_m == pytest.approx([0] * len(marks), abs=1e-6)


def _in_line(point, marks):
    ways = [math.atan2(y - point[1], x - point[0]) for x, y in marks]
    return all(abs(math.sin(way - ways[0])) < 0.2 for way in ways)


@given(st.tuples(st.integers(8, 20), st.integers(8, 20)), slips, whole, whole, st.floats(0, 6.28))
def test_moving_and_turning_all_landmarks_moves_the_point_with_them(point, slips, dx, dy, turn):
    def moved(x, y):
        cos, sin = math.cos(turn), math.sin(turn)
        return cos * x - sin * y + dx, sin * x + cos * y + dy

    ties = taped(point, ROUND, slips)
    there = [Tie(*moved(one.x_m, one.y_m), one.length_m, one.tolerance_m) for one in ties]
    [before], [after] = fixes(ties), fixes(there)
    assert (after.x_m, after.y_m) == pytest.approx(moved(before.x_m, before.y_m), abs=1e-6)
    assert after.residuals_m == pytest.approx(before.residuals_m, abs=1e-6)
    assert after.ellipse.semi_major_m == pytest.approx(before.ellipse.semi_major_m, rel=1e-5)
    assert after.suspects == before.suspects


@given(st.tuples(st.integers(8, 20), st.integers(8, 20)), slips, st.floats(0, 6.28))
def test_no_place_beside_it_fits_better(point, slips, way):
    ties = taped(point, ROUND, slips)
    [fix] = fixes(ties)
    beside = (fix.x_m + 1e-4 * math.cos(way), fix.y_m + 1e-4 * math.sin(way))
    others = [tie.length_m - math.dist(beside, (tie.x_m, tie.y_m)) for tie in ties]
    assert math.hypot(*others) > math.hypot(*fix.residuals_m)


@given(st.tuples(st.integers(8, 20), st.integers(8, 20)), slips, st.floats(1, 9))
def test_a_looser_tape_never_makes_a_point_surer(point, slips, looser):
    ties = taped(point, ROUND, slips)
    [tight] = fixes(ties)
    [loose] = fixes([replace(one, tolerance_m=one.tolerance_m * looser) for one in ties])
    assert loose.ellipse.semi_minor_m >= tight.ellipse.semi_minor_m * (1 - 1e-9)
    assert loose.chance >= tight.chance - 1e-9


@given(st.integers(0, 3))
def test_losing_a_tolerance_leaves_nothing_to_agree_with(place):
    ties = taped((12, 9), ROUND, (0, 0.4, 0, 0))
    assert fixes(ties)[0].agreement == "disagree"
    ties[place] = replace(ties[place], tolerance_m=None)
    [fix] = fixes(ties)
    assert (fix.agreement, fix.suspects, fix.ellipse) == ("cannot be told", (), None)


@given(st.integers(-30, 30), st.integers(3, 30))
def test_landmarks_along_one_wall_leave_two_places_until_the_side_is_told(x, y):
    wall = taped((x, y), [(0, 0), (10, 0), (25, 0)])
    one, other = sorted(fixes(wall), key=lambda fix: fix.y_m)
    assert (one.y_m, other.y_m) == pytest.approx((-y, y), abs=1e-4)
    assert fixes(wall, "left")[0].y_m == pytest.approx(y, abs=1e-4)
    assert fixes(wall, "right")[0].y_m == pytest.approx(-y, abs=1e-4)


@pytest.mark.parametrize("tolerance_m", [None, 0.03])
def test_a_wall_that_is_hardly_bent_leaves_two_places_too(tolerance_m):
    """Of landmarks out of line by 5 mm, the mirror fits within a centimetre."""
    wall = taped((8, 9), [(0, 0), (10, 0.005), (25, 0)], tolerance_m=tolerance_m)
    assert sorted(round(one.y_m) for one in fixes(wall)) == [-9, 9]
    bent = taped((8, 9), [(0, 0), (10, 3), (25, 0)], tolerance_m=tolerance_m)
    assert [round(one.y_m) for one in fixes(bent)] == [9]


def test_ties_all_in_one_line_say_nothing_across_it():
    [fix] = fixes([Tie(0, 0, 4, 0.02), Tie(10, 0, 6, 0.02), Tie(20, 0, 16, 0.02)])
    assert (fix.x_m, fix.y_m) == pytest.approx((4, 0))
    assert fix.weak
    assert (fix.ellipse, fix.ellipse_from_residuals) == (None, None)


def test_two_wrong_ties_of_five_are_not_pinned_on_one():
    ties = taped((12, 9), [*ROUND, (14, -20)], (0.5, 0, 0, 0.6, 0))
    [fix] = fixes(ties)
    assert (fix.agreement, fix.suspects) == ("disagree", ())


def test_the_best_angle_of_several_ties_is_the_one_told():
    """From the origin, by hand: landmarks at 0°, 10° and 70° are at most 70° apart."""
    ways = [math.radians(one) for one in (0, 10, 70)]
    [fix] = fixes(taped((0, 0), [(9 * math.cos(way), 9 * math.sin(way)) for way in ways]))
    assert fix.angle_deg == pytest.approx(70)


@pytest.mark.parametrize("start", [(1.0, -1.0), (8.0, 7.0), (9.0, 8.9)])
def test_ties_from_one_quarter_are_fitted_from_a_bad_start(start):
    """From the last a whole step lands where the fit is worse than before it. The second three are
    so nearly in line that a step that takes x and y apart does not arrive."""
    for marks in [(10, 8), (14, 6), (9, 9)], [(10, 9.5), (12, 12.3), (9, 9.8)]:
        fitted = fit(taped((0, 0), marks), start)
        assert (fitted.x_m, fitted.y_m) == pytest.approx((0, 0), abs=1e-9)


def test_an_ellipse_lies_across_the_ties_that_hold_it():
    """Ties along x and nearly along x hold x well and y badly."""
    ties = taped((0, 0), [(10, 0), (10, 4), (-10, 1)])
    one, _ = ellipses(ties, fit(ties, (0.0, 0.0)))
    assert one.semi_major_m > 3 * one.semi_minor_m
    assert one.turned_deg == pytest.approx(90, abs=15)


def test_a_side_the_ties_contradict_is_refused():
    with pytest.raises(NoSuchPoint, match="right"):
        fixes(taped((12, 9), ROUND), "right")


@pytest.mark.parametrize(
    ("ties", "words"),
    [
        ([Tie(0, 0, 5)], "has 1"),
        ([Tie(0, 0, 5), Tie(math.nan, 0, 5)], "tie 2: its landmark"),
        ([Tie(0, 0, 5), Tie(6, 0, 0)], "tie 2: a length"),
        ([Tie(0, 0, math.inf), Tie(6, 0, 5)], "tie 1: a length"),
        ([Tie(0, 0, 5, 0.0), Tie(6, 0, 5)], "tie 1: a tolerance"),
        ([Tie(0, 0, 5, math.inf), Tie(6, 0, 5)], "tie 1: a tolerance"),
        ([Tie(math.inf, math.inf, 5), Tie(6, 0, 5)], "tie 1: its landmark"),
        ([Tie(0, 0, 5), Tie(6, 0, 5), Tie(0, 0, 5.1)], "ties 1 and 3 are from one landmark"),
    ],
)
def test_ties_that_are_none_are_refused_by_number(ties, words):
    with pytest.raises(ValueError, match=words):
        fixes(ties)


def test_other_numbers_that_are_none_are_refused():
    for wrong in (
        lambda: fixes([Tie(0, 0, 5), Tie(6, 0, 5)], "north"),
        lambda: horizontal_m(1.0, 1.0),
        lambda: horizontal_m(math.nan, 0.0),
        lambda: horizontal_m(math.inf, 0.0),
        lambda: tape_tolerance_m(math.inf, "II", 0),
        lambda: tape_tolerance_m(10, "IV", 0),
        lambda: tape_tolerance_m(0, "II", 0),
        lambda: tape_tolerance_m(10, "II", -0.001),
        lambda: chance(1.0, 0),
        lambda: chance(-1.0, 2),
    ):
        with pytest.raises(ValueError):
            wrong()


def test_a_point_is_so_far_to_the_left_of_the_line_between_two_landmarks():
    """From (1, 2) to (4, 6) is 5 m along (3, 4)/5; (1, 7) lies (3 × 5 − 4 × 0)/5 = 3 to its left,
    and (5, 4), by (3 × 2 − 4 × 4)/5, 2 to its right."""
    one, other = Tie(1, 2, 1), Tie(4, 6, 1)
    assert turned_m(one, other, 1, 7) == pytest.approx(3)
    assert turned_m(one, other, 5, 4) == pytest.approx(-2)


@pytest.mark.parametrize("way", [0, 60, 100])
def test_two_ties_sixty_degrees_apart_leave_the_point_long_across_their_middle(way):
    """Their middle is at 30°, so it is long at 120°, by √((1 + cos 60°)/(1 − cos 60°)) = √3 to
    one; all turned with them."""
    ways = [math.radians(way), math.radians(way + 60)]
    ties = taped((5, 7), [(5 + 9 * math.cos(w), 7 + 9 * math.sin(w)) for w in ways])
    one, _ = ellipses(ties, fit(ties, (5.0, 7.0)))
    assert one.turned_deg == pytest.approx((way + 120) % 180)
    assert one.semi_major_m / one.semi_minor_m == pytest.approx(math.sqrt(3))


def test_ties_along_a_slanted_line_say_nothing_across_it():
    """Three marks on a line of 3 in 4, where no number is a round one."""
    marks = [(0.1, 0.2), (3.1, 4.2), (9.1, 12.2)]
    ties = taped((6.1, 8.2), marks, tolerance_m=0.02)
    assert ellipses(ties, fit(ties, (6.1, 8.2))) == (None, None)


@pytest.mark.parametrize(("ways", "best"), [((0, 80, 181), 80), ((170, -170), 20)])
def test_the_angle_nearest_to_square_is_told_wherever_the_point_lies(ways, best):
    """0° to 80° is nearer to 90 than 80° to 181°; 170° to −170° is 20°, over the half turn."""
    marks = [(5 + 9 * math.cos(w), 7 + 9 * math.sin(w)) for w in map(math.radians, ways)]
    fix = nearest(taped((5, 7), marks), (5, 7))
    assert fix.angle_deg == pytest.approx(best)


@pytest.mark.parametrize(("bent_m", "left"), [(0.05, 2), (0.15, 1)])
def test_without_tolerances_a_mirror_is_kept_while_it_fits_within_five_centimetres(bent_m, left):
    """The middle of three marks out of line: the mirror is off by 1.95 times that at the middle
    mark (18/9.2), shared out over three ties some 0.74 times: 0.04 and 0.11 m."""
    wall = taped((8, 9), [(0, 0), (10, bent_m), (25, 0)], tolerance_m=None)
    assert len(fixes(wall)) == left


@pytest.mark.parametrize(("tolerance_m", "named"), [(0.05, (0, 1, 2)), (0.02, (0, 1))])
def test_of_three_ties_one_explains_it_if_the_other_two_meet_within_the_looser(tolerance_m, named):
    """Tapes of 4.985 m from marks 10 m apart miss by 30 mm: within ±50, not within ±20. The third
    is half a metre too long; it meets either of them."""
    ties = [Tie(0, 0, 4.985, tolerance_m), Tie(10, 0, 4.985, 0.02), Tie(5, 20, 20.5, 0.02)]
    [fix] = [one for one in fixes(ties) if one.y_m < 0.5][:1]
    assert (fix.agreement, fix.suspects) == ("disagree", named)
