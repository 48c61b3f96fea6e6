"""What a technician is told of the demo's third board on the left wall, before and after day 8.

The answers are those written down beside the demo's plan, and not taken from the program.
"""

from pathlib import Path

import pytest

from record.accounts.proof_words import doubts
from record.answers import behind, behind_words, json_form
from record.facts.looks import LOOKS
from record.readers import look
from tests.record.building import entries_of

SHEETS = Path(__file__).parents[2] / "demo" / "sheets"


@pytest.fixture(scope="module")
def entries():
    lines = (SHEETS / "written.txt").read_text(encoding="utf-8").splitlines()
    names = [line.split()[0] for line in lines if line.strip() and not line.startswith("#")]
    return entries_of(*((SHEETS / name).read_text(encoding="utf-8") for name in names))


@pytest.fixture(scope="module")
def told(entries):
    return behind(look(entries, "technician"), "A-L3")


def test_board_foam_and_steel_are_12_90_and_6_mm(told):
    thick = [layer.thickness_m for layer in told.layers[:3]]
    assert thick == pytest.approx([0.012, 0.090, 0.006])
    assert [layer.to_m for layer in told.layers[:3]] == pytest.approx([0.012, 0.102, 0.108])


def test_the_board_is_reserved_up_to_level_47_75(told):
    (zone,) = told.zones
    assert told.reserved
    assert (zone.from_near.from_m, zone.from_near.to_m) == pytest.approx((2.40, 3.60))
    assert (zone.level.from_m, zone.level.to_m) == pytest.approx((46.55, 47.75))


def test_no_word_of_the_wall_box_reaches_a_technician(told):
    said = " ".join(behind_words(told)) + str(json_form(told))
    for secret in ("S-3", "LIN-S3", "wall box", "brass", "store", "papers"):
        assert secret not in said


def test_the_electricians_hole_is_told_beside_its_board(told):
    """2022-06-14: a 3.45, level 47.25, 40 mm deep."""
    holes = [past for past in told.past if past.kind == "worked by others"]
    assert [past.on for past in holes] == ["2022-06-14"]
    assert "depth: 0.040 m" in holes[0].words


def test_the_owner_is_told_of_the_box_12_to_102_mm_behind_the_board(entries):
    """12 mm of board; the box is 90 mm deep and stands on the plate, 102 mm in: 12 to 102 mm.
    a 2.75 to 3.25 is 0.35 to 0.85 across; level 46.95 to 47.35 is 0.40 to 0.80 up."""
    (item,) = behind(look(entries), "A-L3").items
    assert item.tag == "S-3"
    assert (item.across.from_m, item.across.to_m) == pytest.approx((0.35, 0.85))
    assert (item.upward.from_m, item.upward.to_m) == pytest.approx((0.40, 0.80))
    assert (item.depth.from_m, item.depth.to_m) == pytest.approx((0.012, 0.102))


def test_what_is_void_is_said_alike_of_some_things_and_of_all(entries):
    """Asked of a few tags only, each test at them is said to be void in the words of all tests."""
    view = look(entries)
    every = doubts(view)
    assert every
    for tags in ({"A"}, {"AIR-IN", "D-1"}, {"SM-2"}, {"A", "B", "A-L3", "RM-A"}):
        some = doubts(view, tags)
        tests = {one.entry.hash for one in view.built.happened(*LOOKS) if one.concerns() & tags}
        assert {of: said for of, said in every.items() if of in tests} == {
            of: said for of, said in some.items() if of in tests
        }
