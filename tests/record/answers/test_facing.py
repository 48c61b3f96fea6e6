"""A hull with no place on the site grid: what was measured inside it is told all the same."""

import pytest

from record.answers import behind, behind_words
from record.answers.fixings import fixings
from record.readers import look
from tests.record.answers.shelter import (
    SITE,
    block,
    fit_out,
    hull,
    panel,
    run,
    sheet,
    view_of,
)

LOST = ("x", "y", "bearing")
ON_GRID = [(1, 102.6, 203.0, "51.00 ± 3 mm", "20 mm"), (2, 102.6, 199.0, "51.00 ± 3 mm", "20 mm")]
SHAFT = block(
    "way out SH-1", hull="A", x="102.40 m", y="201.60 m", section_along="0.75 m",
    section_across="0.75 m", fill="sand", fill_from="50.00 m", fill_to="53.00 m", opens="none",
)  # fmt: skip


def site(*lost, more=(), **of_hull):
    gone = dict.fromkeys(lost, "not recorded")
    return view_of(sheet(SITE, hull(**of_hull, **gone), panel(), fit_out(), *more))


@pytest.mark.parametrize("lost", [("x",), ("bearing",), LOST], ids=" ".join)
def test_what_is_measured_from_its_own_walls_lies_where_it_would(lost):
    """A box 0.30 to 0.50 m across the panel, 0.30 to 0.40 m up it, wherever the hull is."""
    (there,), found = behind(site(), "P-1").items, behind(site(*lost), "P-1")
    assert found.items == (there,)
    assert found.not_measured == () and found.off_grid == tuple(f"A {name}" for name in lost)
    said = " ".join(" ".join(behind_words(found)).split())
    assert "Where hull A lies on the site grid" in said and "may lie behind this panel too" in said


def test_a_hull_turned_another_way_changes_nothing_of_it():
    one = behind(site("x", "y", bearing="90°"), "P-1").items
    assert one == behind(site("x", "y", bearing="217°"), "P-1").items != ()


def test_what_was_placed_on_the_grid_may_lie_behind_it():
    """A pipe through the left wall, by its stations on the grid: nobody knows which wall now."""
    more = (run(stations=ON_GRID),)
    assert "W-1" in {item.tag for item in behind(site(more=more), "P-1").items}
    lost = behind(site(*LOST, more=more), "P-1")
    assert {item.tag for item in lost.items} == {"FO-1"}
    (pipe,) = [each for each in lost.anywhere if each.tag == "W-1"]
    assert "placed on the site grid" in pipe.words


def test_what_belongs_to_the_hull_and_was_placed_on_the_grid_is_not_told_at_a_wrong_spot():
    """A shaft of hull A by x and y: it has a place in the hull only while the hull has one."""
    assert "SH-1" in {item.tag for item in behind(site(more=(SHAFT,)), "P-1", reach_m=3.0).items}
    lost = behind(site(*LOST, more=(SHAFT,)), "P-1", reach_m=3.0)
    assert "SH-1" not in {item.tag for item in lost.items}
    assert "SH-1" in {each.tag for each in lost.anywhere}


def test_another_hull_may_be_anywhere_and_stands_for_all_in_it():
    more = (hull("B", x="120.00 m"), fit_out("FO-2", hull="B"))
    tags = [each.tag for each in behind(site(*LOST, more=more), "P-1").anywhere]
    assert "B" in tags and "FO-2" not in tags and "A" not in tags


def test_no_place_for_a_hole_is_named_and_what_is_known_is_kept_out_of():
    answer = fixings(site(*LOST), "P-1", depth_m=0.06)
    assert answer.largest is None
    assert any("A x, A y, A bearing" in why for why in answer.unknown)
    (kept,) = [each for each in answer.keep_out if each.tag == "FO-1"]
    assert kept.across.from_m <= 0.30 and kept.across.to_m >= 0.50


def test_whoever_may_not_know_all_is_to_ask_first_and_is_told_what_they_may_know():
    """Nobody can tell where what is withheld lies to this hull: it is said of every panel."""
    secret = block("fit-out FO-9", readers="owner", what="safe", hull="A")
    known = block("run W-2", readers="owner, technician", carries="power")
    for more in ((known,), (known, secret)):
        entries = site(*LOST, more=more).built.entries
        assert behind(look(entries, "technician"), "P-1").reserved
        assert not behind(look(entries, "owner"), "P-1").reserved
