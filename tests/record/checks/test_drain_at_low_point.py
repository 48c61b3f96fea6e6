"""Where water gathers in a run, and what takes it away."""

from record.checks import drain_at_low_point as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one
from tests.record.checks.test_falls_the_right_way import CASE


def carrying(what, text=CASE):
    return changed(text, ("carries: supply air", f"carries: {what}"))


def test_an_air_pipe_with_a_drain_at_its_low_end_is_not_held():
    assert against(rule, TRENCH) == []


def test_an_air_pipe_whose_drain_is_elsewhere_is_held():
    found = the_one(
        rule, changed(TRENCH, ("- at station: 3\n- discharges", "- at station: 2\n- discharges"))
    )
    assert (found.about, found.sure, found.stops) == ("AIR-IN", "certain", True)
    assert found.says == (
        "no drain is recorded at its low point, station 3 hull A (its drains, DL-1, are elsewhere)"
    )


def test_every_low_point_of_an_air_pipe_needs_its_own_drain():
    """Case 3.8: the sag at 6 m holds 25 mm of water from 4.125 to 9 m, 4.875 m (4.88); the low
    end at 12 m is the other low point. The one drain stands at neither."""
    found = against(rule, CASE)
    assert len(found) == 2
    sag = next(one for one in found if "3 dip" in one.says)
    assert "water would stand 25 mm deep over 4.88 m" in sag.says
    assert sag.stops


def test_a_drain_at_any_station_of_a_flat_bottom_will_do():
    flat = changed(
        TRENCH,
        ("98.150", "98.300"),
        ("98.300 ± 3 mm | 99.90 | staff, BM1 |\n| 3", "98.300 ± 3 mm | 99.90 | staff, BM1 |\n| 3"),
    )
    assert against(rule, flat) == []


def test_a_drain_pipe_empties_at_its_own_end_but_not_from_a_sag():
    [sag] = against(rule, carrying("drain water"))
    assert "station 3 dip" in sag.says
    steady = carrying("drain water", changed(TRENCH, ("- serves: AIR-IN", "- serves: none")))
    assert against(rule, steady) == []


def test_a_conduit_with_a_sag_is_to_be_looked_at():
    [sag] = against(rule, carrying("power"))
    assert not sag.stops


def test_a_pipe_of_unknown_use_is_held_as_an_air_pipe():
    assert len(against(rule, carrying("not recorded"))) == 2


def test_a_drain_that_lets_go_nobody_knows_where_is_held():
    where = ("discharges: gully in the plant room", "discharges: not recorded")
    found = the_one(rule, changed(TRENCH, where))
    assert (found.sure, found.stops) == ("cannot be told", True)
    assert "DL-1" in found.says
    assert the_one(rule, changed(TRENCH, (where[0], "discharges: none"))).stops


def test_a_drain_of_no_known_station_drains_nothing():
    nowhere = ("- at station: 3\n- discharges", "- at station: not recorded\n- discharges")
    assert the_one(rule, changed(TRENCH, nowhere)).stops
