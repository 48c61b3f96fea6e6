"""The record → a way out, cut upright and from above."""

import re

import pytest

from manual.drawings.cut import Fill, Mark
from manual.drawings.shapes import box_of
from manual.plans.pictures import picture
from manual.plans.way_plan import way_plan
from manual.plans.way_section import way_section
from record.readers import look
from tests.manual.books import entries

# Hull A: along is 10 - x, across is y - 10; 6.00 m long, 2.40 wide, floor plate at 46.00 m. A shaft
# with its middle at x 3.60, y 11.20 is 6.40 along and 1.20 across: 6.00 to 6.80 and 0.80 to 1.60.
SHAFT = """
## way out SH-1

- name: shaft of sand
- hull: A
- face: far
- x: 3.60 m
- y: 11.20 m
- section along: 0.80 m
- section across: 0.80 m
- fill: dry sand
- fill from: 46.75 m
- fill to: 49.60 m
- top below grade: 0.40 m
- hatch width: 0.60 m
- hatch height: 0.70 m
- hatch sill: 46.75 m
- hatch from left: 0.90 m
- opens: lifts out into the room
- receives fill: RM-A
- keep clear: 2.00 m before the end wall
"""
ROOM = "## room RM-A\n\n- name: living room\n- hull: A\n- length: 6.00 m\n- width: 2.40 m"
GROUND = "## hull A\n\n- ground level: 50.00 m"
TOOLS = """
## store S-9

- hull: A

| item | what | count |
|---|---|---|
| 1 | wrecking bar | 1 |
| 2 | long shovel | 0 |
| 3 | tinned plums | 9 |
"""
DRILL = """
## procedure PR-9

- readers: owner, responder
- event: get out
- sign: the door stays shut
- signal word: danger
- danger: Running sand buries.

| step | do | touches |
|---|---|---|
| 1 | Stand to the right. | SH-1 |
"""


def section(*blocks, reader="owner"):
    return way_section(look(entries(*blocks), reader), "SH-1")


def areas(cut):
    return {area.fill: box_of(area.ring_m) for area in cut.areas}


def words(cut):
    return " ".join(w for call in cut.calls for w in (call.head, *call.words))


def test_shaft_and_hatch_stand_where_their_measures_put_them():
    found = areas(section(SHAFT, GROUND))
    assert found[Fill.FILLING] == pytest.approx((6.0, 46.75, 6.8, 49.6))
    assert found[Fill.OPENING] == pytest.approx((5.953, 46.75, 6.053, 47.45))
    assert found[Fill.ROOM][2] == pytest.approx(6.0)
    assert found[Fill.EARTH][3] == 50.0


def test_levels_are_told_once_where_two_are_alike():
    levels = {round(e.level_m, 3): e for e in section(SHAFT, GROUND).levels}
    assert levels[50.0].mark is Mark.GROUND
    assert levels[49.6].words[:4] == (
        "49.600 m",
        "162' 8 3/4\"",
        "top of the shaft",
        "top of the fill",
    )
    assert levels[46.75].words[2:4] == ("bottom of the fill", "sill of the hatch")
    assert levels[46.75].words[4].startswith("3.250 m (10' 7 15/16\")")  # 50.00 - 46.75


def test_the_arrow_goes_the_way_the_hatch_is_said_to_open():
    (inward,) = section(SHAFT, GROUND).arrows
    assert inward.end_m[0] < inward.start_m[0] == pytest.approx(6.003)
    (outward,) = section(SHAFT.replace("into the room", "outward"), GROUND).arrows
    assert outward.end_m[0] > outward.start_m[0]
    assert section(SHAFT.replace("lifts out into the room", "turns"), GROUND).arrows == ()


def test_the_heap_is_drawn_as_worked_and_what_is_to_be_kept_clear_is_told():
    """The sum is held to its source by its own tests; here, that its figures are what is drawn."""
    from record.figures.of_sand import of_sand

    view = look(entries(SHAFT, GROUND, ROOM))
    worked = next(w for w in of_sand(view) if w.name == "heap")
    out, high = worked.number("damp: runs out"), worked.number("damp: stands high")
    cut = way_section(view, "SH-1")
    left, low, right, top = areas(cut)[Fill.HEAP]
    assert (right - left, top - low) == pytest.approx((out, high))
    assert "keep clear: 2.00 m before the end wall" in words(cut)
    assert Fill.HEAP not in areas(section(SHAFT, GROUND))
    assert "how far is not worked" in words(section(SHAFT, GROUND))


def test_a_way_out_with_nothing_in_it_has_no_fill_and_no_warning_of_it():
    fill = r"- (fill|fill from|fill to|receives fill|keep clear): .*\n"
    empty = section(re.sub(fill, "", SHAFT) + "- fill: none\n", GROUND)
    assert Fill.SHAFT in areas(empty) and Fill.FILLING not in areas(empty)
    assert not any("DANGER" in note for note in empty.notes)
    unknown = section(re.sub(fill, "", SHAFT), GROUND)
    assert Fill.UNKNOWN in areas(unknown)
    assert any("DANGER" in note for note in unknown.notes)


@pytest.mark.parametrize(
    ("lines", "gap"),
    [
        (r"- (x|y): .*\n", "x and y of the shaft"),
        (r"- section along: .*\n", "its section"),
        (r"- top below grade: .*\n", "how far its top is below grade"),
        (r"- hatch sill: .*\n", "sill of the hatch"),
    ],
)
def test_what_is_not_recorded_is_told_and_drawn_broken_or_not_at_all(lines, gap):
    cut = section(re.sub(lines, "", SHAFT), GROUND)
    assert any(note.startswith("Not recorded") and gap in note for note in cut.notes)


def test_from_above_the_hatch_is_as_far_from_the_left_wall_as_was_taped():
    cut = way_plan(look(entries(SHAFT, GROUND)), "SH-1")
    found = areas(cut)
    assert found[Fill.OPENING] == pytest.approx((5.953, -1.5, 6.053, -0.9))
    assert found[Fill.FILLING] == pytest.approx((6.0, -1.6, 6.8, -0.8))
    assert "its edge 0.900 m (2' 11 7/16\") from left" in words(cut)
    bare = re.sub(r"- (x|y): .*\n", "", SHAFT)
    assert way_plan(look(entries(bare, GROUND)), "SH-1") is None


def test_tools_are_told_from_the_stores_to_the_owner_alone():
    mine = " ".join(section(SHAFT, GROUND, TOOLS).notes)
    assert "wrecking bar, 1 (S-9)" in mine and "no entry says that they are kept for this" in mine
    assert "shovel" not in mine and "plums" not in mine
    assert "What is kept to open it: not recorded." in section(SHAFT, GROUND).notes
    theirs = picture(look(entries(SHAFT, GROUND, TOOLS), "responder"), "way out SH-1")
    assert not re.search("wrecking|S-9|kept to open", theirs)
    assert "dry sand" in theirs and "Further entries may exist" in theirs


def test_drills_that_touch_it_are_named():
    assert "Drills that touch it: PR-9." in section(SHAFT, GROUND, DRILL).notes
    assert "Drill for it: not recorded." in section(SHAFT, GROUND).notes


def test_who_may_not_know_of_it_has_no_such_thing_to_draw():
    from manual.plans.pictures import PictureFault

    view = look(entries(SHAFT, GROUND), "technician")
    with pytest.raises(PictureFault, match='no "SH-1" to draw'):
        picture(view, "way out SH-1")


@pytest.mark.parametrize("face", ["near", "left", "right", "ceiling", "floor"])
def test_it_is_drawn_from_every_face(legible, face):
    from manual.drawings.cut_drawing import cut_drawing

    cut = section(SHAFT.replace("face: far", f"face: {face}"), GROUND)
    legible(cut_drawing(cut))
    assert Fill.OPENING in areas(cut)
