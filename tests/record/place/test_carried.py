"""A hull that was lifted and set down again takes along what was measured in it, from that day.

Hull A (see shelter) is stated anew on 2040-09-01: lifted 0.20 m, set 1.50 m farther east and 0.70 m
north, and turned a quarter, so that it looks south: its left wall is to the east.
"""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind, behind_words, json_form
from record.answers.show import show
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import view_of

MOVED = {"x": "101.50 m", "y": "200.70 m", "floor_level": "50.20 m", "bearing": "180°"}
VALVE = {"type": "gate", "on_run": "W-1", "size": "160 mm", "hull": "A", "from_near": "2.60 m"}
VALVE |= {"from_left": "0.00 m", "level": "centre 51.00 m ± 5 mm", "reached_by": "the panel"}
POST = {"what": "post", "x": "100.00 m", "y": "210.00 m", "bottom": "50.00 m", "along": "0.10 m"}
POST |= {"across": "0.10 m", "height": "1.00 m", "how": "tape"}
STATIONS = [("1", "100", "205", "49 ± 5 mm", "10 mm"), ("2", "104", "205", "49 ± 5 mm", "10 mm")]
SEAL = {"hull": "A", "face": "left", "from_near": "2.50 m", "level": "51.10 m", "size": "60 mm"}
SEAL |= {"passes": "pipe", "spare": "no", "sleeve": "none", "sealed_inside": "mastic"}
SEAL |= {"sealed_outside": "mastic", "how": "tape"}


def built(**changed):
    return sheet(
        SITE,
        hull(walking_floor="50.30 m", **changed),
        panel(),
        fit_out(),
        block("valve V-1", **VALVE),
        block("penetration PN-1", **SEAL),
        block("fit-out FO-2", **POST),
        run(stations=STATIONS),
    )


def move(day="2040-09-01", **said):
    return sheet(block("hull A", **(said or MOVED)), date=day)


def told(view):
    """
    Return what of the hull is behind the panel, less what it rests on and how it was worked.

    What stays in the ground may come near the panel as the hull moves up to it.
    """
    of_a_hull = {shape.thing.tag for shape in view.shapes if shape.hull}
    items = [one for one in behind(view, "P-1").items if one.tag in of_a_hull]
    return [(i.tag, i.across_may_reach, i.upward_may_reach, i.depth_may_reach) for i in items]


def assert_same(before, after):
    for (tag, *spans), (same, *others) in zip(told(before), told(after), strict=True):
        assert tag == same
        for span, other in zip(spans, others, strict=True):
            assert (span.from_m, span.to_m) == pytest.approx((other.from_m, other.to_m))


def of(view, tag):
    (found,) = [shape for shape in view.shapes if shape.thing.tag == tag]
    return found


def test_what_is_in_the_hull_is_behind_its_panel_as_before():
    before, after = view_of(built()), view_of(built(), move())
    assert {item[0] for item in told(before)} >= {"FO-1", "V-1", "PN-1"}
    assert_same(before, after)


def test_from_that_day_it_is_where_the_hull_is():
    """FO-1 starts 2.30 m along, on the left wall, 0.80 m over the floor: at x 101.50, y 200.70 −
    2.30, level 51.00. The walking floor was 0.30 m over the floor plate and is so still."""
    view = view_of(built(), move())
    low = of(view, "FO-1").form.low
    assert view.hulls["A"].to_site(*low) == pytest.approx((101.50, 198.40, 51.00))
    assert view.hulls["A"].walking_floor_m == pytest.approx(50.50)
    assert view.built.things["V-1"].si("level") == Decimal("51.20")


def test_before_that_day_it_is_where_it_was():
    """Looking east: 2.30 m along is x 102.30, the left wall is at y 200, and 0.80 m up is 50.80."""
    past = view_of(built(), move(), as_of="2040-08-31")
    low = of(past, "FO-1").form.low
    assert past.hulls["A"].to_site(*low) == pytest.approx((102.30, 200.00, 50.80))
    never = view_of(built(), as_of="2040-08-31")
    assert behind_words(behind(past, "P-1")) == behind_words(behind(never, "P-1"))
    assert json_form(behind(past, "P-1")) == json_form(behind(never, "P-1"))


def test_what_stands_on_the_grid_stays():
    before, after = view_of(built()), view_of(built(), move())
    for tag in ("FO-2", "W-1"):
        assert of(before, tag).form == of(after, tag).form


def test_a_level_taken_since_the_move_is_not_carried():
    again = sheet(block("fit-out FO-1", bottom="50.90 m ± 8 mm"), date="2040-09-02")
    assert view_of(built(), move(), again).built.things["FO-1"].si("bottom") == Decimal("50.90")


def test_a_mended_floor_level_carries_nothing():
    """It was never at 50.00: the stop was at 50.80 on the datum, now 0.60 m over the floor."""
    mend = block("hull A", mends="ld-2", because="misread", floor_level="50.20 m ± 5 mm")
    view = view_of(built(), sheet(mend, date="2040-09-01"))
    assert view.built.things["FO-1"].si("bottom") == Decimal("50.80")
    assert of(view, "FO-1").form.low[2] == pytest.approx(0.60)


def test_a_carried_level_says_so_and_rests_on_what_moved_the_hull():
    view = view_of(built(), move())
    held = view.built.things["FO-1"].held("bottom")
    assert {each.worked for each in held} == {"taken before A was lifted 0.200 m"}
    assert [each.entry.content.about for each in held] == ["FO-1", "A"]
    assert "bottom" not in view.built.things["FO-1"].unsettled()
    assert show(view, "FO-1")


millimetres = st.integers(-3000, 3000)


@settings(max_examples=25, deadline=None)
@given(east=millimetres, north=millimetres, up=millimetres, bearing=st.integers(0, 359))
def test_moving_a_hull_moves_everything_in_it_and_nothing_else(east, north, up, bearing):
    moved = {
        "x": f"{100 + east / 1000:.3f} m ± 10 mm",
        "y": f"{200 + north / 1000:.3f} m ± 10 mm",
        "floor_level": f"{50 + up / 1000:.3f} m ± 5 mm",
        "bearing": f"{bearing}° ± 0.001°",
    }
    before, after = view_of(built()), view_of(built(), move(**moved))
    assert_same(before, after)
    for one, two in zip(before.shapes, after.shapes, strict=True):
        assert (one.thing.tag, one.hull) == (two.thing.tag, two.hull)
        if one.hull:
            assert one.form.low == pytest.approx(two.form.low)
            assert one.form.high == pytest.approx(two.form.high)
        else:
            assert one.form == two.form
