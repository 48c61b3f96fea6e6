"""Reserved zones on a panel, and panels reserved for no said reason."""

import pytest

from record.answers import behind, behind_words
from tests.record.answers.shelter import SITE, block, hull, numbers, panel, sheet, shelter
from tests.record.building import view_of

PLACE = {"from_near": "2.00 m", "bottom": "50.50 m", "width": "1.20 m", "height": "0.60 m"}


def zone(face="left", hull_tag="A", **changed):
    fields = {"hull": hull_tag, "face": face, "hazard": "ask the owner", **PLACE, **changed}
    return block("reserved zone R-1", **fields)


def test_a_zone_is_told_in_the_hull_and_on_the_panel():
    """On the right wall the panel's left edge is at a 3.20: a 2.40 to 2.80 is 0.80 to 0.40."""
    answer = behind(
        shelter(panel("right"), zone("right", from_near="2.40 m", width="0.40 m")), "P-1"
    )
    (found,) = answer.zones
    assert answer.reserved
    assert numbers(found.from_near) == (2.4, 2.8)
    assert numbers(found.level) == (50.5, 51.1)
    assert numbers(found.across) == (0.4, 0.8)
    assert numbers(found.upward) == (0.0, 0.6)
    assert found.from_left is None


def words(zone_block):
    return " ".join(" ".join(behind_words(behind(shelter(panel(), zone_block), "P-1"))).split())


def test_of_a_zone_that_goes_past_the_edges_only_what_is_on_the_panel_is_measured_there():
    """P-1 is 1.20 m wide from 2.00 along, 1.00 m high from 50.50: of 1.50 to 2.40 along and
    50.10 to 50.90 high, 0.00 to 0.40 across and 0.00 to 0.40 up are on it."""
    beyond = zone(from_near="1.50 m", width="0.90 m", bottom="50.10 m", height="0.80 m")
    told = words(beyond)
    assert 'on this panel 0.000 m (0") to 0.400 m (1\' 3 3/4") across' in told
    assert 'across, 0.000 m (0") to 0.400 m (1\' 3 3/4") up' in told and " -" not in told
    whole = zone(from_near="0.00 m", width="6.00 m", bottom="50.00 m", height="2.50 m")
    assert "; on this panel all of it. ask the owner" in words(whole)


def test_a_zone_on_the_floor_runs_along_and_across():
    floor = zone("floor", from_left="0.50 m", bottom=None, from_near="2.20 m")
    (found,) = behind(shelter(panel("floor"), floor), "P-1").zones
    assert numbers(found.from_near) == (2.2, 3.4)
    assert numbers(found.from_left) == (0.5, 1.1)
    assert found.level is None
    assert numbers(found.across) == (0.2, 1.4)


@pytest.mark.parametrize(
    "changed", [{"from_near": "3.20 m"}, {"bottom": "51.50 m"}, {"face": "right"}]
)
def test_a_zone_that_touches_an_edge_or_is_on_another_face_is_not_on_the_panel(changed):
    answer = behind(shelter(panel(), zone(**changed)), "P-1")
    assert answer.zones == () and not answer.reserved


def test_a_zone_whose_edge_is_the_panels_edge_to_the_last_digit_is_not_on_it():
    """Binary halves and quarters, so that nothing is rounded: 2.00 + 1.00 = 3.00."""
    narrow = panel(width="1.00 m")
    assert not behind(shelter(narrow, zone(from_near="3.00 m")), "P-1").reserved
    assert not behind(shelter(narrow, zone(from_near="1.00 m", width="1.00 m")), "P-1").reserved


@pytest.mark.parametrize(
    "changed",
    [{"width": "not recorded"}, {"from_near": "not recorded"}, {"face": "not recorded"}],
)
def test_a_zone_with_a_measure_nobody_wrote_down_is_on_all_of_the_face(changed):
    fields = {**PLACE, "hull": "A", "face": "left", "hazard": "ask", **changed}
    (found,) = behind(shelter(panel(), block("reserved zone R-1", **fields)), "P-1").zones
    assert found.across is None


@pytest.mark.parametrize(("reader", "reserved"), [("technician", True), ("owner", False)])
def test_a_panel_that_cannot_be_placed_is_reserved_for_all_but_the_owner(reader, reserved):
    view = shelter(panel(width="not recorded"), reader=reader)
    assert behind(view, "P-1").reserved is reserved


def hidden(reader="technician", **changed):
    store = {
        "name": "box",
        "hull": "A",
        "from_near": "2.40 m ± 10 mm",
        "from_left": "-1.40 m",
        "bottom": "50.70 m ± 10 mm",
        "along": "0.40 m",
        "across": "0.09 m",
        "height": "0.40 m",
        **changed,
    }
    return view_of(sheet(SITE, hull(), panel(), block("store S-1", **store)), reader=reader)


def test_how_deep_a_withheld_thing_lies_is_not_felt_out_by_asking_less_and_less_deep():
    """The store ends 1.40 − 0.09 = 1.31 before the plate's inside: 1.412 from the room face."""
    assert not behind(hidden(), "P-1").reserved
    answers = {behind(hidden(), "P-1", reach_m=reach).reserved for reach in (1.01, 1.3, 1.5, 2.0)}
    assert answers == {True}
    near = {"from_left": "-0.80 m"}
    answers = {behind(hidden(**near), "P-1", reach_m=reach).reserved for reach in (0.05, 0.5, 1.0)}
    assert answers == {True}


def test_where_a_withheld_thing_lies_on_the_panel_is_not_felt_out_by_asking_point_by_point():
    view = hidden(from_left="0.00 m")
    said = {
        (behind(view, "P-1", at=(u, v)).reserved, len(behind(view, "P-1", at=(u, v)).items))
        for u in (0.0, 0.6, 1.2)
        for v in (0.0, 0.5, 1.0)
    }
    assert said == {(True, 0)}


def test_a_panel_reserved_for_no_said_reason_says_to_ask_and_no_more():
    words = " ".join(behind_words(behind(hidden(from_left="0.00 m"), "P-1")))
    assert "RESERVED. Do not open or drill this panel" in words
    assert "S-1" not in words and "store" not in words
