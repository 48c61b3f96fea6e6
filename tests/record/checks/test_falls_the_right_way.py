"""Which way each length of a run falls, from whole sheets."""

import shlex

import pytest

from record.checks import drain_at_low_point, falls_enough
from record.checks import falls_the_right_way as rule
from tests.record.building import day
from tests.record.checks.ground import TRENCH, against, changed, readiness, the_one

BARE = TRENCH.replace(" ± 3 mm", "")
LEVELS = {"1": "98.400", "2": "98.300", "3": "98.150"}
STATIONS = TRENCH[TRENCH.index("| station |") : TRENCH.index("![wide")]
# Case 3.8: five shots with a backfall of 25 mm between 6 and 9 m, hidden by an average of 1 %.
BACKFALL = """| station | x [m] | y [m] | invert [m] | how |
|---|---|---|---|---|
| 1 head | 0.00 | 0.00 | 10.000 ± 3 mm | staff, BM1 |
| 2 | 3.00 | 0.00 | 9.940 ± 3 mm | staff, BM1 |
| 3 dip | 6.00 | 0.00 | 9.900 ± 3 mm | staff, BM1 |
| 4 hump | 9.00 | 0.00 | 9.925 ± 3 mm | staff, BM1 |
| 5 hull A | 12.00 | 0.00 | 9.880 ± 3 mm | staff, BM1 |

"""
CASE = changed(
    TRENCH,
    (STATIONS, BACKFALL),
    ("- falls to: 3", "- falls to: 5"),
    ("- at station: 3\n- discharges", "- at station: 1\n- discharges"),
)

# A pipe of the demo's kind: (27, 2) to (24, 6) is 5.00 m (3-4-5), on to (16.4, 6) is 7.60 m.
BEND_BLUNDER = changed(
    TRENCH,
    (
        STATIONS,
        """| station | x [m] | y [m] | invert [m] | how |
|---|---|---|---|---|
| 1 terminal foot | 27.00 | 2.00 | 47.850 ± 3 mm | staff on the crown, BM1 |
| 2 bend | 24.00 | 6.00 | 47.906 ± 3 mm | staff on the crown, BM1 |
| 3 hull B | 16.40 | 6.00 | 47.598 ± 3 mm | staff on the crown, BM1 |

""",
    ),
    ("- falls to: 3", "- falls to: hull B"),
)


def test_a_steady_fall_of_two_in_a_hundred_is_not_held():
    """Case 3.7: 98.400 to 98.150 in 12.5 m."""
    assert against(rule, TRENCH) == []


def test_a_backfall_that_an_average_hides_is_found():
    """Case 3.8: falls of 2.000, 1.333, -0.833 and 1.500 %; only the third is wrong."""
    found = the_one(rule, CASE)
    assert found.says == (
        "3 dip to 4 hump, 3.00 m: backfall of 25 mm (0.83 %), where it should fall to 5 hull A"
    )
    assert (found.sure, found.stops) == ("certain", True)
    slopes = [line.split("%")[0].split()[-1] for line in found.shows[1:]]
    assert slopes == ["2.000", "1.333", "-0.833", "1.500"]


def test_levels_that_nobody_said_how_sure_they_are_are_mended_by_what_is_to_be_typed():
    """Each counts as ± 300 mm, and 0.300 x sqrt(2) = 0.424 m hides a drop of 100 mm. Shooting them
    again would change nothing; saying how sure they are does."""
    unsure = BARE.replace("staff, BM1", "the usual way")
    found = the_one(rule, unsure)
    assert "a drop of 100 mm ± 424.3 mm, so which way cannot be told" in found.says
    typed = [line for line in found.clears if line.startswith("asburied amend")]
    assert len(typed) == 3 and '"invert=98.300 m ± 5 mm"' in typed[1]
    mends = []
    for line in typed:
        _, _, number, said, _, because, _, writer = shlex.split(line)
        assert writer == "ld"
        station = next(n for n, level in LEVELS.items() if level in said)
        mends.append(
            f"## run AIR-IN\n\n- mends: {number}\n- because: {because}\n\n"
            f"| station | invert |\n|---|---|\n| {station} | {said.partition('=')[2]} |"
        )
    assert against(rule, unsure, day("2031-05-14", "ld", *mends, part="mends")) == []


@pytest.mark.parametrize("how", ["laser", "rotary laser, BM1", "transit"])
def test_a_laser_or_a_transit_is_as_sure_as_a_staff(how: str):
    assert against(rule, BARE.replace("staff, BM1", how)) == []


def test_a_crown_booked_as_invert_shows_as_backfall_and_its_mend_clears_it():
    """47.850 to 47.906 rises 56 mm in 5.00 m, 1.12 %. With the bend at 47.750 the lengths drop
    100 mm in 5.00 m and 152 mm in 7.60 m: 2.000 % both."""
    found = the_one(rule, BEND_BLUNDER)
    assert "1 terminal foot to 2 bend, 5.00 m: backfall of 56 mm (1.12 %)" in found.says
    wrong = next(number for number in found.numbers if number == "ld-6")
    mend = day(
        "2031-05-14",
        "ld",
        f"## run AIR-IN\n\n- mends: {wrong}\n- because: crown shot\n\n"
        "| station | crown [m] |\n|---|---|\n| 2 bend | 47.906 ± 3 mm |",
        part="evening",
    )
    assert against(rule, BEND_BLUNDER, mend) == []
    steeper = mend + "\n## run AIR-IN\n\n- least fall: 3 %\n"
    table = the_one(falls_enough, BEND_BLUNDER, steeper).shows
    assert [line.split("%")[0].split()[-1] for line in table[1:]] == ["2.000", "2.000"]


def test_two_mends_that_differ_leave_the_bend_unlevelled():
    """Both tablets mend the bend without seeing the other: neither is taken, and it holds."""
    mends = [
        day(
            "2031-05-14",
            writer,
            f"## run AIR-IN\n\n- mends: ld-6\n- because: crown shot\n\n"
            f"| station | invert [m] |\n|---|---|\n| 2 bend | {level} ± 3 mm |",
            part="evening",
        )
        for writer, level in (("ld", "47.750"), ("ck", "47.754"))
    ]
    told = readiness(BEND_BLUNDER, *mends, unseen={3: 2})
    rules = {finding.rule for finding in told.findings if finding.stops}
    assert {"no two statements differ", "every station levelled"} <= rules


def test_a_pipe_that_falls_the_other_way_throughout_is_backfall_throughout():
    found = the_one(rule, changed(TRENCH, ("- falls to: 3", "- falls to: 1")))
    assert found.says.count("backfall") == 2
    assert "backfall of 100 mm (2.00 %), where it should fall to 1 terminal foot" in found.says


def test_a_run_may_fall_from_both_ends_to_its_middle():
    """98.400 and 98.450 both fall to the bend at 98.300."""
    middle = changed(TRENCH, ("- falls to: 3", "- falls to: bend"), ("98.150", "98.450"))
    assert against(rule, middle) == []


def test_a_drop_within_its_tolerance_cannot_be_told():
    """100 mm against ± 100 mm at both ends, 141 mm together; the second, 150 mm, is told."""
    vague = changed(
        TRENCH, ("98.400 ± 3 mm", "98.400 ± 100 mm"), ("98.300 ± 3 mm", "98.300 ± 100 mm")
    )
    found = the_one(rule, vague)
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert "1 terminal foot to 2 bend, 5.00 m: a drop of 100 mm ± 141.4 mm" in found.says
    assert "3 hull A" not in found.says


def test_a_level_whose_method_nobody_wrote_proves_no_fall():
    """Of a method not recorded 0.30 m is assumed, more than any drop here."""
    bare = TRENCH.replace(" ± 3 mm", "").replace("staff, BM1", "not recorded")
    assert the_one(rule, bare).sure == "cannot be told"


def test_where_nobody_wrote_which_way_it_falls_it_is_held():
    for said in ("not recorded", "the far ditch"):
        found = the_one(rule, changed(TRENCH, ("- falls to: 3", f"- falls to: {said}")))
        assert (found.sure, found.stops) == ("cannot be told", True)
        assert "1 terminal foot, 2 bend, 3 hull A" in found.says


def test_a_run_stated_not_to_fall_is_not_held_for_it_but_for_its_low_points():
    level = changed(CASE, ("- falls to: 5", "- falls to: n/a, laid as the engineer drew it"))
    assert against(rule, level) == []
    assert against(drain_at_low_point, level) != []


def test_a_conduit_may_lie_as_it_likes_and_a_pipe_of_unknown_use_may_not():
    assert against(rule, changed(CASE, ("carries: supply air", "carries: power"))) == []
    assert against(rule, changed(CASE, ("carries: supply air", "carries: not recorded"))) != []
