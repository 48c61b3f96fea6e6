"""Tape ties against published intersections, and against arithmetic shown beside each check."""

import math
from dataclasses import replace

import pytest

from record.calc.ties import NoSuchPoint, Tie, chance, fixes, horizontal_m, tape_tolerance_m

H1, H2, W1, G1 = (10.00, 20.00), (22.00, 20.00), (30.50, 14.00), (4.20, 3.60)
BEND = [Tie(*H2, 14.142, 0.02), Tie(*W1, 10.308, 0.02), Tie(*H1, 19.799, 0.02)]
FOURTH = Tie(*G1, 19.945, 0.02)


def corners(far_m=8.62, tolerances_m=(None, None, None, None)):
    """Return ties from the corners of a house 12 by 8."""
    places = [(0, 0, 5.84), (12, 0, 7.61), (12, 8, far_m), (0, 8, 7.06)]
    return [Tie(*one, given) for one, given in zip(places, tolerances_m, strict=True)]


def at(fix, within=1e-4):
    return pytest.approx((fix.x_m, fix.y_m), abs=within)


def test_ties_of_six_and_eight_over_ten_meet_square():
    """By hand: p = (36 - 64 + 100)/20 = 3.6, h = √(36 - 12.96) = 4.8."""
    left, right = fixes([Tie(0, 0, 6), Tie(10, 0, 8)])
    assert at(left, 1e-9) == (3.6, 4.8)
    assert at(right, 1e-9) == (3.6, -4.8)
    assert left.angle_deg == pytest.approx(90)
    assert fixes([Tie(0, 0, 6), Tie(10, 0, 8)], "left") == (left,)
    assert fixes([Tie(0, 0, 6), Tie(10, 0, 8)], "right") == (right,)


def test_a_published_intersection_of_two_distances_in_feet():
    """J. Mahun, Coordinate geometry, ch. E §2: J, K and both distances; T by going forward from J
    along the bearing given there. East is x, north y; the other root by hand."""
    one, other = fixes([Tie(3511.69, 1419.51, 878.915), Tie(2341.36, 2056.64, 738.15)])
    assert {round(one.y_m, 2), round(other.y_m, 2)} == {2178.97, 1378.85}
    found = one if one.y_m > 2000 else other
    assert at(found, 0.002) == (3069.302, 2178.973)


def test_a_second_published_intersection_of_two_distances():
    """J. Mahun, Coordinate geometry, solution 160: its point 2, LR and first distance; the second
    is worked out from those."""
    both = fixes([Tie(2000.000, 1000.000, 573.754), Tie(1811.082, 480.951, 506.675)])
    [found] = [one for one in both if one.x_m < 1700]
    [mirror] = [one for one in both if one.x_m > 1700]
    assert at(found, 0.001) == (1450.051, 836.445)
    assert at(mirror, 0.001) == (2316.155, 521.210)


def test_three_ties_that_nearly_meet():
    """Point and residuals by scipy.optimize.least_squares 1.17.1."""
    [fix] = fixes([Tie(0, 0, 7.23), Tie(10, 0, 5.64), Tie(4, 9, 5.40)])
    assert at(fix, 1e-5) == (6.02388, 3.99638)
    assert fix.residuals_m == pytest.approx((0.00102, 0.00257, 0.00257), abs=1e-5)
    assert fix.s0 == pytest.approx(0.00377, abs=1e-5)


def test_four_ties_from_the_corners_of_a_house():
    """Point, residuals and standard deviations by scipy.optimize.least_squares 1.17.1. The ellipse
    is √(2F) of them, F(0.95; 2, 2) = 19.00 from the usual table: 6.1644."""
    [fix] = fixes(corners())
    assert at(fix, 1e-5) == (4.99666, 3.00009)
    assert fix.residuals_m == pytest.approx((0.01186, -0.00888, 0.01501, -0.00864), abs=1e-5)
    assert fix.s0 == pytest.approx(0.01612, abs=1e-5)
    ellipse = fix.ellipse_from_residuals
    assert ellipse.semi_minor_m == pytest.approx(6.1644 * 0.0097, abs=0.0004)
    assert ellipse.semi_major_m == pytest.approx(6.1644 * 0.0144, abs=0.0004)
    assert ellipse.turned_deg == pytest.approx(90, abs=5)  # the wider is that of y
    assert fix.ellipse is None


def test_better_ties_count_for_more():
    """scipy.optimize.least_squares 1.17.1, weighted 0.01, 0.03, 0.03, 0.01."""
    [fix] = fixes(corners(tolerances_m=(0.01, 0.03, 0.03, 0.01)))
    assert at(fix, 1e-5) == (4.99967, 3.01351)


def test_a_tie_thirty_centimetres_long_is_named_by_the_other_three():
    """scipy.optimize.least_squares 1.17.1: s0 is ten times larger, and the residual of the tie
    opposite nearly as large as its own, so residuals alone are no proof of which."""
    [fix] = fixes(corners(8.92))
    assert at(fix, 1e-5) == (4.91121, 2.86445)
    assert fix.s0 == pytest.approx(0.166, abs=0.0005)
    assert max(map(abs, fix.residuals_m)) == pytest.approx(0.166, abs=0.0005)
    assert fix.residuals_m[0] == pytest.approx(0.154, abs=0.0005)
    assert fix.agreement == "cannot be told"
    [held] = fixes(corners(8.92, (0.04,) * 4))
    assert (held.agreement, held.suspects) == ("disagree", (2,))
    [right] = fixes(corners(8.62, (0.04,) * 4))
    assert (right.agreement, right.suspects) == ("agree", ())


@pytest.mark.parametrize(
    ("ties", "wrong"),
    [
        ([Tie(0, 0, 7.23), Tie(10, 0, 5.64), Tie(4, 9, 5.40)], (6.02317, 3.99598)),
        (corners(), (4.99898, 3.00274)),
    ],
)
def test_taking_one_circle_from_the_others_is_not_the_least_squares_answer(ties, wrong):
    """The linear short cut, worked out apart, is 0.8 to 3.5 mm off."""
    [fix] = fixes(ties)
    assert 0.0007 < math.dist((fix.x_m, fix.y_m), wrong) < 0.0036


def test_ties_that_touch_meet_once_and_short_ones_nowhere():
    """By hand: 4 + 6 = 10; 4 + 5 is 1 short; 15 - 4 is 1 more than 10."""
    [fix] = fixes([Tie(0, 0, 4, 0.01), Tie(10, 0, 6, 0.01)])
    assert at(fix) == (4, 0)
    assert fix.weak
    assert fix.ellipse is None
    for short in ([Tie(0, 0, 4), Tie(10, 0, 5)], [Tie(0, 0, 4), Tie(10, 0, 15)]):
        with pytest.raises(NoSuchPoint, match=r"miss each other by 1\.000 m"):
            fixes(short)


def test_a_tie_taped_down_a_slope():
    """By hand: √(8.50² - 1.20²) = √70.81 = 8.41487."""
    assert horizontal_m(8.50, 1.20) == pytest.approx(8.41487, abs=1e-5)
    assert horizontal_m(8.50, -1.20) == horizontal_m(8.50, 1.20)


@pytest.mark.parametrize(
    ("accuracy_class", "length_m", "worst_mm"),
    [
        ("I", 10.0, 1.1),
        ("II", 10.0, 2.3),
        ("III", 10.0, 4.6),
        ("II", 10.01, 2.5),
        ("III", 29, 12.2),
    ],
)
def test_the_worst_a_tape_may_be(accuracy_class, length_m, worst_mm):
    """Directive 2014/32/EU, MI-008: a + bL, L up to the next whole metre; 0.6 + 0.4 × 29 = 12.2."""
    assert tape_tolerance_m(length_m, accuracy_class, 0) == pytest.approx(worst_mm / 1000)


def test_holding_the_tape_adds_to_what_the_tape_is_out_by():
    """By hand: class III at 8.5 m is 0.6 + 0.4 × 9 = 4.2 mm; √(4.2² + 5.6²) = 7.0."""
    assert tape_tolerance_m(8.5, "III", 0.0056) == pytest.approx(0.007)


@pytest.mark.parametrize(
    ("freedom", "square"), [(1, 3.841), (2, 5.991), (3, 7.815), (4, 9.488), (5, 11.070)]
)
def test_one_in_twenty_of_the_usual_table(freedom, square):
    """The 95 % column of the χ² table (from memory)."""
    assert chance(square, freedom) == pytest.approx(0.05, abs=2e-5)


def test_four_ties_have_two_to_spare():
    """By hand: four residuals of one σ are χ² = 4, of 2 degrees of freedom e^-2 = 0.1353."""
    ring = [Tie(*one, 9.03, 0.0588) for one in [(9, 0), (0, 9), (-9, 0), (0, -9)]]
    [fix] = fixes(ring)
    assert fix.chance == pytest.approx(0.1353, abs=2e-4)
    assert fix.s0 == pytest.approx(math.sqrt(2), rel=1e-4)


@pytest.mark.parametrize(("ties", "f95"), [(3, 199.5), (4, 19.00), (5, 9.552), (6, 6.944)])
def test_the_ellipse_from_residuals_is_as_wide_as_the_table_says(ties, f95):
    """F(0.95; 2, n - 2) by the usual table (from memory). Landmarks evenly around make
    JᵀJ = n/2 both ways, so a half axis is s0 √(2F) √(2/n)."""
    ways = [math.tau * number / ties for number in range(ties)]
    ring = [Tie(9 * math.cos(way), 9 * math.sin(way), 9.03) for way in ways]
    [fix] = fixes(ring)
    worked = fix.s0 * math.sqrt(2 * f95) * math.sqrt(2 / ties)
    assert fix.s0 == pytest.approx(0.03 * math.sqrt(ties / (ties - 2)))
    assert fix.ellipse_from_residuals.semi_major_m == pytest.approx(worked, rel=3e-4)
    assert fix.ellipse_from_residuals.semi_minor_m == pytest.approx(worked, rel=3e-4)


@pytest.mark.parametrize(
    ("angle", "weak"), [(20, True), (29, True), (31, False), (90, False), (149, False), (151, True)]
)
def test_two_ties_are_as_good_as_the_angle_they_meet_at(angle, weak):
    """σ_P = σ √2/sin θ, the usual rule for equal ties; 30° and 150° are common practice, no source.
    The ellipse is 2.4477 σ by half axis, a tolerance 1.96 σ."""
    way = math.radians(angle)
    pair = [Tie(8, 0, 8, 0.0196), Tie(8 * math.cos(way), 8 * math.sin(way), 8, 0.0196)]
    [fix] = [one for one in fixes(pair) if math.hypot(one.x_m, one.y_m) < 1e-6]
    assert fix.angle_deg == pytest.approx(angle)
    assert fix.weak is weak
    sigma = math.hypot(fix.ellipse.semi_major_m, fix.ellipse.semi_minor_m) / 2.4477
    assert sigma == pytest.approx(0.01 * math.sqrt(2) / math.sin(way), rel=1e-4)


def test_a_bend_tied_to_a_house_and_a_well():
    """By hand, from (24, 6): √(2² + 14²) = 14.142, √(6.5² + 8²) = 10.308, √(14² + 14²) = 19.799."""
    [fix] = fixes(BEND)
    assert at(fix, 0.0005) == (24.00, 6.00)
    assert max(map(abs, fix.residuals_m)) < 0.0005
    assert (fix.agreement, fix.weak, fix.suspects) == ("agree", False, ())
    assert fixes(BEND[:2], "right")[0].x_m == pytest.approx(24, abs=0.001)


def test_a_mistyped_tie_shows_in_three_and_is_named_by_a_fourth():
    """10.803 for 10.308: of three, worked out apart, residuals are 0.10 to 0.16 and any one left
    out lets the others meet. A fourth, √(19.8² + 2.4²) = 19.945, names it."""
    mistyped = [BEND[0], replace(BEND[1], length_m=10.803), BEND[2]]
    [fix] = fixes(mistyped)
    assert [round(abs(one), 2) for one in fix.residuals_m] == [0.16, 0.10, 0.12]
    assert (fix.agreement, fix.suspects) == ("disagree", (0, 1, 2))
    [named] = fixes([*mistyped, FOURTH])
    assert (named.agreement, named.suspects) == ("disagree", (1,))


@pytest.mark.parametrize("wrong", range(4))
def test_whichever_of_four_ties_is_wrong_is_the_one_named(wrong):
    ties = [*BEND, FOURTH]
    ties[wrong] = replace(ties[wrong], length_m=ties[wrong].length_m - 0.30)
    [fix] = fixes(ties)
    assert fix.suspects == (wrong,)
