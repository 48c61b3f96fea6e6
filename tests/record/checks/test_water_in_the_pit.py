"""Earth goes round no hull that may be afloat.

Archimedes: 9.012 m × 2.712 m outside is 24.4405 m² of plan; 6,500 kg sink it 6500/24440.5 =
0.266 m. Its underside lies a plate under the floor, 96.500 - 0.006 = 96.494 m; so it begins to
float at 96.760 m. The same arithmetic with the demo's own hulls is in check-values, section 9.
"""

import pytest

from record.checks import water_in_the_pit as rule
from record.figures.flood import float_marks
from tests.record.building import day, view_of
from tests.record.checks.ground import SITE, against, changed, sheets, the_one

PIT = """
## hull A

- mass: 6500 kg

## dip pipe DP-1

- x: 3.00 m
- y: 3.00 m

## covering FILL

- what: backfill
- hides: A
- planned: 2031-05-15
"""
DIP = """
## reading taken DP-1

- at: 18:00
- what: water level
- reading: {} m
"""


def dipped(level):
    return PIT + DIP.format(level)


@pytest.mark.parametrize(("level", "stops"), [("96.75", False), ("96.77", True)])
def test_water_over_the_mark_stops_the_fill_and_just_below_it_does_not(level, stops):
    found = against(rule, dipped(level))
    assert bool(found) is stops
    for one in found:
        assert one.stops and one.about == "A" and one.sure == "certain"
        assert one.says.startswith("WATER AT OR OVER THE MARK: last dip DP-1 96.770 m")
        assert "begins to float with water at 96.760 m" in one.says


def test_the_newest_dip_counts_whatever_stood_before():
    assert against(rule, dipped("97.50") + DIP.format("96.20").replace("18:00", "19:00")) == []


def test_of_two_pipes_the_one_that_stands_higher_counts():
    second = "\n## dip pipe DP-2\n\n- x: 9 m\n- y: 9 m\n" + DIP.format("96.90").replace(
        "DP-1", "DP-2"
    )
    assert "DP-2 96.900 m" in the_one(rule, dipped("96.20") + second).says


@pytest.mark.parametrize(
    ("blocks", "said"),
    [
        (changed(dipped("96.20"), ("- mass: 6500 kg", "- mass: not recorded")), "NOT WORKED: mass"),
        (PIT, "no water level is recorded"),
    ],
)
def test_what_cannot_be_told_is_looked_at(blocks, said):
    found = the_one(rule, blocks)
    assert said in found.says
    assert (found.stops, found.sure) == (False, "cannot be told")


def test_a_mark_that_somebody_stated_lower_is_the_mark():
    """97.00 m is no help where 96.760 m was worked; 96.60 m is the engineer's, and lower."""
    for said, mark in (("97.00", 96.760), ("96.60", 96.60)):
        told = f"- mass: 6500 kg\n- floats in open pit at: {said} m"
        view = view_of(*sheets(changed(PIT, ("- mass: 6500 kg", told))))
        [found] = float_marks(view)
        assert found.mark_m == pytest.approx(mark, abs=5e-4)


def test_the_watch_ends_when_earth_beside_the_hull_is_recorded_as_on():
    view = view_of(*sheets(dipped("96.90")))
    assert [one.hull.tag for one in float_marks(view)] == ["A"]
    on = "\n## covered FILL\n\n- at: 19:00\n- extent: all round\n"
    assert float_marks(view_of(*sheets(dipped("96.90") + on))) == ()
    lining = dipped("96.90").replace("what: backfill", "what: lining") + on
    assert len(float_marks(view_of(*sheets(lining)))) == 1


def test_a_round_hull_asks_the_engineer_and_is_never_worked_as_a_box():
    rounded = SITE.replace("- inside width: 2.70 m", "- inside width: n/a, round")
    rounded = rounded.replace(
        "- inside height: 2.50 m", "- inside height: n/a, round\n- inside diameter: 2.5 m"
    )
    view = view_of(day("2031-05-13", "ld", rounded), day("2031-05-14", "ld", dipped("96.90")))
    [mark] = float_marks(view)
    assert mark.mark_m is None and "from the engineer" in mark.mark_words


def test_nothing_that_is_said_calls_it_safe():
    for level in ("96.20", "96.90"):
        view = view_of(*sheets(dipped(level)))
        said = " ".join(f"{m.mark_words} {m.water_words}" for m in float_marks(view)).casefold()
        assert "safe" not in said and "will not" not in said and "cannot float" not in said
