"""The record → the cut across a hull and its layers."""

import re

import pytest

from manual.drawings.cut import Fill, Mark
from manual.drawings.shapes import box_of
from manual.plans.cut_layers import hull_layers
from manual.plans.hull_cut import hull_cut
from manual.plans.pictures import picture
from record.readers import look
from tests.manual.books import MARK_UP, entries
from tests.record.building import day

# Hull A of the small shelter: 6.00 × 2.40 × 2.20 m inside, 6 mm plate, floor plate at 46.00, its
# near left corner at (10, 10), bearing 270°: along is 10 - x, across is y - 10.
GROUND = (
    "## hull A\n\n- ground level: 50.00 m\n- design cover: 1.20 m\n- design cover by: engineer"
    "\n- walking floor: 46.35 m\n- floats in open pit at: 46.40 m"
)
COVER = """
## cover measured A

| point | x [m] | y [m] | cover [m] | surface | how |
|---|---|---|---|---|---|
| C1 | 8.00 | 11.00 | 1.790 ± 10 mm | turf | steel rod |
| C2 | 6.00 | 11.00 | 1.750 | turf | steel rod |
"""
AGAIN = "## cover measured A\n\n- point: C2\n- x: 6.00 m\n- y: 11.00 m\n- cover: 1.60 m\n- how: rod"
PANEL = """
## panel A-L1

- hull: A
- face: left
- from near: 0.00 m
- bottom: 46.35 m
- width: 1.20 m
- height: 1.80 m
- board: cement board
- thickness: 12 mm
- packing: furring
- packing thickness: 90 mm
"""
DIP = "## dip pipe DP-1\n\n- x: 12.00 m\n- y: 9.00 m\n- alarm level: 47.95 m"
READ = "## reading taken DP-1\n\n- what: water level\n- reading: {} m"
SIDE = """
## run D-1

- carries: condensate
- outside diameter: 54 mm
- inside diameter: 50 mm

| station | x | y | level | ground | how |
|---|---|---|---|---|---|
| 1 | 7.00 m | 10.00 m | invert 46.80 m ± 5 mm | 49.80 m | staff |
| 2 | 7.00 m | 2.00 m | invert 46.60 m | 49.00 m | staff |
"""
ZONE = "## reserved zone R-1\n\n- hull: A\n- face: left\n- width: 1.20 m\n- height: 1.20 m"


def cut(*blocks, reader="owner", sheets=()):
    return hull_cut(look(entries(*blocks, sheets=sheets), reader), "A")


def call(found, start):
    return next(each for each in found.calls if each.head.startswith(start))


def levels(found):
    return {round(level.level_m, 3): (level.mark, " ".join(level.words)) for level in found.levels}


def test_the_steel_the_room_and_the_floor_are_where_their_measures_put_them():
    found = cut(GROUND)
    boxes = {area.fill: box_of(area.ring_m) for area in found.areas}
    assert boxes[Fill.STEEL] == pytest.approx((-0.006, 45.994, 2.406, 48.206))
    assert boxes[Fill.ROOM] == pytest.approx((0.0, 46.0, 2.4, 48.2))
    assert boxes[Fill.VOID] == pytest.approx((0.0, 46.0, 2.4, 46.35))
    assert boxes[Fill.EARTH][3] == 50.0


def test_levels_are_marked_with_how_deep_they_lie():
    """Top of steel 46.00 + 2.20 + 0.006 = 48.206, 1.794 down; least cover up to 49.406."""
    told = levels(cut(GROUND, DIP))
    assert told[50.0][0] is Mark.GROUND
    assert "top of the steel 1.794 m (5' 10 5/8\") down" in told[48.206][1]
    assert told[49.406] == (
        Mark.LIMIT,
        "49.406 m 162' 1 1/8\" least cover 1.200 m (3' 11 1/4\"), by engineer",
    )
    assert told[46.4][0] is Mark.WATER and told[47.95][0] is Mark.WATER


def test_water_is_marked_where_it_was_read_last_and_where_it_stood_highest():
    later = day("2031-06-01", "te", READ.format("46.10"))
    told = levels(cut(DIP, READ.format("46.90"), sheets=(later,)))
    assert "groundwater 2031-06-01, newest" in told[46.1][1]
    assert "groundwater 2031-05-16, highest" in told[46.9][1]


def test_the_least_of_the_newest_covers_is_called_out_with_its_day_and_tolerance():
    found = cut(GROUND, COVER)
    least = call(found, "Least cover measured, C2")
    assert least.words[0].startswith("1.750 m (5' 8 7/8\")")
    assert "tolerance not recorded" in least.words
    assert least.at_m == pytest.approx((1.0, 48.206 + 1.75))
    assert {round(rise.to_m - rise.from_m, 3) for rise in found.rises} == {1.79, 1.75}
    newer = cut(GROUND, COVER, sheets=(day("2032-05-16", "te", AGAIN),))
    assert "2032-05-16" in " ".join(call(newer, "Least cover measured, C2").words)
    known = cut(GROUND, COVER.replace("| C2 | 6.00 | 11.00 | 1.750", "| C2 | 6.00 | 11.00 | 1.90"))
    told = " ".join(call(known, "Least cover measured, C1").words)
    assert "± 10 mm" in told and "not recorded" not in told


def test_what_is_not_recorded_is_said_and_not_drawn():
    found = cut()
    assert call(found, "Cover: not recorded")
    assert any(note.startswith("Finished ground over it: not recorded") for note in found.notes)
    assert not any(level.mark is Mark.GROUND for level in found.levels)


def test_a_pipe_through_a_wall_is_told_with_its_depth_to_top_and_invert():
    """Crown 46.80 + 0.025 + 0.027 = 46.852; ground 49.80: 2.948 and 3.000 down. 10 - 7 = 3."""
    found = cut(GROUND, SIDE)
    words = call(found, "D-1").words
    assert words[0] == "through the left wall, 3.000 m (9' 10 1/8\") from near"
    assert words[1] == "top 46.852 m (153' 8 9/16\"), 2.948 m (9' 8 1/16\") down"
    assert words[2] == "invert 46.800 m (153' 6 1/2\"), 3.000 m (9' 10 1/8\") down"
    assert words[3] == "at station 1, ± 5 mm (3/16 in)"
    ring = next(a.ring_m for a in found.areas if a.fill is Fill.PIPE and a.whole)
    left, _, right, _ = box_of(ring)
    assert left < -0.5 and right < 0.1


def test_a_pipe_through_an_end_wall_is_a_ring_and_one_far_off_is_not_there():
    ends = [a for a in cut().areas if a.fill is Fill.PIPE]
    assert len(ends) == 1  # AIR-IN, which ends at the near wall, at (10, 10)
    left, low, right, high = box_of(ends[0].ring_m)
    assert right - left == pytest.approx(0.16) and high - low == pytest.approx(0.16)
    # One that leaves askew is a ring too: beyond the end it is not beside the right wall.
    out = SIDE.replace("7.00 m | 10.00 m", "4.00 m | 11.00 m").replace(
        "7.00 m | 2.00 m", "1.00 m | 15.00 m"
    )
    skew = next(c for c in cut(out).calls if c.head.startswith("D-1"))
    assert skew.words[0].startswith("through the far wall, 1.000 m")
    rings = [box_of(a.ring_m) for a in cut(out).areas if a.fill is Fill.PIPE]
    assert any(b[2] - b[0] == pytest.approx(0.054) for b in rings)
    far = SIDE.replace("7.00 m | 10.00 m", "7.00 m | 5.00 m")
    assert not any(each.head.startswith("D-1") for each in cut(far).calls)


def test_a_pipe_without_levels_may_be_anywhere_and_is_said_to():
    bare = re.sub(r"invert \S+ m( ± 5 mm)?", "not recorded", SIDE)
    assert any("D-1. They may be anywhere." in note for note in cut(bare).notes)


def test_layers_are_told_from_the_earth_to_the_room():
    strips = hull_layers(look(entries(PANEL)), "A").strips
    wall = strips[0]
    assert wall.title == "From the earth to the room: left (1 panel)"
    assert [layer.words.partition(":")[0] for layer in wall.layers] == [
        "earth",
        "outside build-up of A",
        "shell plate of A, steel",
        "packing, furring",
        "board, cement board",
    ]
    assert wall.layers[1].fill is Fill.UNKNOWN
    assert "102 mm" not in wall.layers[3].words and "90 mm" in wall.layers[3].words


def test_a_hull_without_panels_says_that_its_lining_is_not_recorded():
    strips = hull_layers(look(entries()), "A").strips
    assert strips[0].layers[-1].words == "lining: no panel is recorded"
    assert strips[-1].layers[0].words == "fill round it and under it: not recorded"


SEAM = """
## build-up BU-1

- side: outside

| layer | material | coats | thickness |
|---|---|---|---|
| 1 | hot tar | 1 | 2.5 mm |
| 2 | wrap | 1 | n/a, half-lapped |
"""
WELD = "## seam SM-1\n\n- joins: link to A\n- hull: A\n- build-up: BU-1"


def test_every_layer_on_a_weld_is_told_the_outermost_first():
    strip = next(
        s
        for s in hull_layers(look(entries(SEAM, WELD)), "A").strips
        if s.title.startswith("Outside of SM-1 (link to A)")
    )
    said = [layer.words for layer in strip.layers]
    assert said[1] == "wrap, coats 1: n/a, half-lapped"
    assert said[2].startswith("hot tar, coats 1: 2.50 mm")


def test_a_store_is_the_owners_and_reserves_the_whole_face_for_all_others():
    """S-1 of the small shelter stands on the floor plate from 46.00 to 46.20."""
    mine, theirs = cut(GROUND), cut(GROUND, reader="technician")
    assert call(mine, "S-1 larder under the cot")
    assert any(area.fill is Fill.STORE for area in mine.areas)
    assert not any("S-1" in each.head for each in theirs.calls)
    assert not any(area.fill is Fill.STORE for area in theirs.areas)
    assert call(theirs, "RESERVED: floor")
    assert not any(each.head.startswith("RESERVED") for each in mine.calls)
    assert any("not shown in this copy" in note for note in theirs.notes)


def test_where_a_withheld_thing_lies_changes_no_byte_of_the_cut():
    from tests.manual.books import BUILT, KEPT
    from tests.record.building import view_of

    def seen(kept):
        view = view_of(BUILT, kept, day("2031-05-16", "ld", GROUND), reader="technician")
        return picture(view, "cross-section A") + picture(view, "layers A")

    moved = KEPT.replace("from near: 1.00 m", "from near: 3.70 m").replace("0.50 m", "0.60 m")
    assert moved != KEPT and seen(moved) == seen(KEPT)


def test_a_zone_keeps_the_whole_face_for_everybody():
    assert call(cut(ZONE), "RESERVED: left")
    assert any(area.fill is Fill.RESERVED for area in cut(ZONE).areas)


def test_names_that_look_like_mark_up_are_letters():
    html = picture(look(entries(f"## hull A\n\n- name: {MARK_UP}")), "cross-section A")
    assert "<script" not in html and "&lt;script&gt;" in html


def test_a_round_hull_is_a_ring_with_a_floor():
    from tests.record.place.test_round_hulls import seen as round_one

    found = hull_cut(round_one(floor_above_bottom="0.25 m"), "A")
    room = next(area.ring_m for area in found.areas if area.fill is Fill.ROOM)
    left, low, right, high = box_of(room)
    assert right - left == pytest.approx(2.5, abs=0.01) == high - low
    void = box_of(next(area.ring_m for area in found.areas if area.fill is Fill.VOID))
    assert void[3] == pytest.approx(low + 0.25, abs=0.01)
    assert found.widths[0].words.startswith("inside diameter 2.5")
    unknown = hull_cut(round_one(floor_above_bottom="not recorded"), "A")
    assert "Walking floor: not recorded." in unknown.notes


def test_a_hull_that_lacks_a_measure_is_a_gap():
    view = look(entries("## hull Z\n\n- inside length: 2.00 m\n- how: tape"))
    assert picture(view, "cross-section Z").startswith('<p class="gap">')
    assert picture(view, "layers Z").startswith('<p class="gap">')
