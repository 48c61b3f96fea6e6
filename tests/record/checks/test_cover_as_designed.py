"""Earth over hull A, 9.00 m by 2.70 m, from x = 12.50 m on and from y = 1.00 m down to -1.70 m."""

import pytest

from record.checks import cover_as_designed as rule
from tests.record.building import view_of
from tests.record.checks.ground import against, changed, sheets, the_one

POINTS = """
## hull A

- design cover: 1.20 m
- design cover by: engineer
- most cover: 1.50 m
- most cover by: engineer

## cover measured A

| point | x [m] | y [m] | cover [m] | how |
|---|---|---|---|---|
| C1 | 13.00 | 0.50 | 1.300 ± 5 mm | rod |
| C2 | 13.00 | -1.20 | 1.290 ± 5 mm | rod |
| C3 | 17.00 | -0.35 | 1.280 ± 5 mm | rod |
| C4 | 21.00 | 0.50 | 1.310 ± 5 mm | rod |
| C5 | 21.00 | -1.20 | 1.290 ± 5 mm | rod |

## covering FILL

- what: turf
- hides: A
"""


def test_five_points_all_within_the_range_are_right():
    assert against(rule, POINTS) == []


@pytest.mark.parametrize("depth", ["1.190", "1.510"])
def test_one_point_outside_the_range_stops_the_turf(depth):
    found = the_one(rule, changed(POINTS, ("1.280 ±", f"{depth} ±")))
    assert (found.about, found.stops, found.sure) == ("A", True, "certain")
    assert f"C3 {depth} m ± 5 mm" in found.says
    assert found.says.startswith("less" if depth < "1.2" else "more")


def test_one_within_its_own_doubt_of_the_limit_stops_and_is_not_certain():
    found = the_one(rule, changed(POINTS, ("1.280 ±", "1.197 ±")))
    assert (found.stops, found.sure) == (True, "cannot be told")
    assert against(rule, changed(POINTS, ("1.280 ±", "1.200 ±"))) == []


def test_a_point_measured_again_once_earth_was_added_counts_anew():
    again = "\n## cover measured A\n\n- point: C3\n- cover: 1.250 m\n- how: rod\n"
    assert against(rule, changed(POINTS, ("1.280 ±", "1.190 ±")) + again) == []


def test_points_at_one_end_alone_are_too_few():
    """The far end is at 12.50 + 9.00 = 21.50 m; from C3 at 17.00 m that is more than 3 m."""
    some = "\n".join(line for line in POINTS.splitlines() if not line.startswith(("| C4", "| C5")))
    found = the_one(rule, some)
    assert (found.stops, found.sure) == (True, "cannot be told")
    assert "3 measured: the spot 9.000 m" in found.says


def test_no_point_at_all_stops_the_turf():
    bare = POINTS[: POINTS.index("## cover measured")] + POINTS[POINTS.index("## covering") :]
    assert the_one(rule, bare).says == "no depth of earth over it is measured"


@pytest.mark.parametrize(
    ("old", "new", "stops"),
    [
        ("design cover: 1.20 m", "design cover: not recorded", True),
        ("1.280 ± 5 mm", "not recorded", True),
        ("most cover: 1.50 m", "most cover: not recorded", False),
    ],
)
def test_what_nobody_wrote_cannot_be_told(old, new, stops):
    found = against(rule, changed(POINTS, (old, new)))
    assert [one.stops for one in found][-1:] == [stops]
    assert {one.sure for one in found} == {"cannot be told"}


def test_a_hull_that_gets_no_earth_is_let_be():
    assert against(rule, changed(POINTS, ("cover: 1.20 m", "cover: n/a, stands free"))) == []


def test_before_the_last_covering_the_earth_is_not_all_there():
    assert (
        against(rule, changed(POINTS, ("1.280 ±", "0.300 ±"), ("what: turf", "what: foam"))) == []
    )


def test_at_hand_over_every_hull_is_asked():
    thin = changed(POINTS, ("1.280 ±", "1.190 ±"), ("what: turf", "what: foam"))
    [found] = rule.AT_HANDOVER.find(view_of(*sheets(thin)))
    assert (found.rule, found.about) == ("cover as designed", "A")


def test_points_that_nobody_placed_tell_of_no_spot():
    lost = POINTS
    for x, y in (("13.00", "0.50"), ("13.00", "-1.20"), ("17.00", "-0.35"), ("21.00", "0.50")):
        lost = lost.replace(f"| {x} | {y} |", "| not recorded | not recorded |")
    lost = lost.replace("| 21.00 | -1.20 |", "| not recorded | not recorded |")
    found = the_one(rule, lost)
    assert found.says == "where its depths were measured is not recorded"
