"""Packing behind boards at a seam; 1/4 in is 6.35 mm."""

import pytest

from record.checks import packing_clears_the_weld as rule
from tests.record.checks.ground import SEAM, against, changed, the_one

BOARD = """
## panel A-L1

- hull: A
- face: left
- from near: 4.00 m
- bottom: 96.50 m
- width: 1.20 m
- height: 2.40 m
- thickness: 12 mm
- packing thickness: 7 mm
"""
LINED = changed(
    SEAM,
    (
        "- hull: A\n- build-up: BU",
        "- hull: A\n- face: left\n- from near: 4.40 m\n- bottom: 96.50 m\n- width: 0.80 m\n"
        "- height: 1.90 m\n- weld height: 7 mm\n- build-up: BU",
    ),
    ("what: backfill", "what: lining"),
)


def test_packing_as_thick_as_the_weld_is_right():
    assert against(rule, LINED + BOARD) == []


def test_packing_a_millimetre_thinner_stops_the_board():
    found = the_one(rule, LINED + changed(BOARD, ("thickness: 7 mm", "thickness: 6 mm")))
    assert (found.about, found.stops, found.sure) == ("A-L1", True, "certain")
    assert "the weld of SM behind it stands 7" in found.says.replace("0.007 m", "7")


def test_a_board_elsewhere_is_let_be():
    thin = changed(BOARD, ("thickness: 7 mm", "thickness: none"), ("near: 4.00", "near: 6.00"))
    assert against(rule, LINED + thin) == []


@pytest.mark.parametrize(("packing", "told"), [("7 mm", 0), ("6 mm", 1)])
def test_a_weld_nobody_measured_is_held_as_a_quarter_inch(packing, told):
    unsaid = changed(LINED, ("weld height: 7 mm", "weld height: not recorded"))
    board = changed(BOARD, ("packing thickness: 7 mm", f"packing thickness: {packing}"))
    found = against(rule, unsaid + board)
    assert len(found) == told
    assert all(one.sure == "cannot be told" and one.stops for one in found)


def test_packing_nobody_measured_cannot_be_told():
    unsaid = changed(BOARD, ("packing thickness: 7 mm", "packing thickness: not recorded"))
    assert the_one(rule, LINED + unsaid).sure == "cannot be told"


def test_earth_rides_on_no_weld():
    filled = changed(LINED, ("what: lining", "what: backfill"))
    assert against(rule, filled + changed(BOARD, ("thickness: 7 mm", "thickness: 1 mm"))) == []


@pytest.mark.parametrize(
    ("blocks", "old"), [(LINED, "- from near: 4.40 m"), (BOARD, "- from near: 4.00 m")]
)
def test_where_a_place_is_not_recorded_a_thin_board_may_lie_over_the_weld(blocks, old):
    unsaid = changed(blocks, (old, "- from near: not recorded"))
    board = unsaid if blocks is BOARD else BOARD
    seam = unsaid if blocks is LINED else LINED
    assert against(rule, seam + board) == []
    found = the_one(rule, seam + changed(board, ("thickness: 7 mm", "thickness: 6 mm")))
    assert (found.sure, found.stops) == ("cannot be told", True)
