"""Finding what is hidden: two ties and a check outside, panel edges inside."""

import re

from manual.asks.schedules import faces_told
from manual.asks.where import behind_boards, in_the_ground, spots_told
from manual.build import bind
from record.readers import look
from tests.manual.books import Page, body_of, entries
from tests.record.building import day

CANARY = "quetzalcoatlus"
MARK = "## landmark {tag}\n\n- what: house corner {tag}\n- x: {x} m\n- y: {y} m\n- state: {state}\n"
#: From (10, 10), where CV-1 sits on the pipe: 3-4-5 triangles of 5, 10 and 13 m (5-12-13).
MARKS = tuple(
    MARK.format(tag=tag, x=x, y=y, state="standing")
    for tag, x, y in (("H1", 13, 14), ("H2", 4, 18), ("H3", 5, 22))
)
COVERED = day(
    "2031-05-18",
    "ld",
    "## covering F-1\n\n- what: backfill\n- hides: AIR-IN, CV-1",
    "## covered F-1\n\n- tags: AIR-IN, CV-1",
)
BOARD = """
## room R1

- name: living room
- hull: A

## panel A-L1

- room: R1
- hull: A
- face: left
- from near: 1.00 m
- bottom: 46.20 m
- width: 1.20 m
- height: 1.80 m
- thickness: 12 mm
- packing thickness: 90 mm
- comes off: lift it out
"""
STORE = """
## store S-9

- name: {words}
- looks like: {words}
- hull: A
- from near: 1.40 m
- from left: 0.00 m
- bottom: 46.60 m
- along: 0.30 m
- across: 0.09 m
- height: 0.30 m
"""
INSIDE = """
## valve {tag}

- type: ball
- hull: A
- from near: {near} m
- from left: 0.05 m
- level: centre 47.00 m
- size: 40 mm
- looks like: red lever
"""


def view(*blocks, reader="owner", sheets=()):
    return look(entries(*blocks, sheets=sheets), reader)


def test_a_valve_in_the_ground_has_two_ties_and_a_third_to_check_them():
    (spot,) = spots_told(view(*MARKS), "CV-1")
    lengths = {re.match(r"(H\d) ([\d.]+) m", tie).groups() for tie in (*spot.ties, spot.check)}
    assert lengths == {("H1", "5.000"), ("H2", "10.000"), ("H3", "13.000")}
    assert not any("tie" in gap for gap in spot.gaps)


def test_a_landmark_that_is_lost_is_never_a_tie_and_the_check_is_then_a_gap():
    gone = MARK.format(tag="H3", x=5, y=22, state="demolished")
    (spot,) = spots_told(view(*MARKS[:2], gone), "CV-1")
    assert not any("H3" in tie for tie in (*spot.ties, spot.check))
    assert spot.check == "" and any("A third tie" in gap for gap in spot.gaps)


def test_with_no_landmark_the_ties_are_a_gap_to_be_filled_by_hand():
    (spot,) = spots_told(view(), "CV-1")
    assert spot.ties == () and any("Two ties" in gap for gap in spot.gaps)
    assert "CV-1: Two ties from landmarks" in Page(body_of(entries(sheets=(COVERED,)))).text


def test_what_stands_inside_is_measured_from_its_faces_and_taped_from_nowhere():
    found = view(*MARKS, INSIDE.format(tag="DV-1", near="1.40"))
    assert spots_told(found, "DV-1") == ()
    body = Page(body_of(entries(*MARKS, INSIDE.format(tag="DV-1", near="1.40")))).text
    assert re.search(r"hull A: 1\.400 m \([^)]*\) from the near face", body)


def test_how_deep_a_pipe_lies_is_told_with_the_day_of_its_ground():
    # A wall of (160 - 152)/2 = 4 mm: the crown is 152 + 4 mm over the invert of 48.00 m, and
    # 49.00 - 48.156 = 0.844 m below the ground.
    thick = "## run AIR-IN\n\n- inside diameter: 152 mm"
    (run,) = [one for one in in_the_ground(view(thick, *MARKS)) if one.tag == "AIR-IN"]
    assert run.spots[0].depth.startswith("crown 0.844 m")
    assert "below the ground of 2031-05-14" in run.spots[0].depth


def test_what_is_in_the_open_is_not_told_as_hidden():
    assert "CV-1" not in {one.tag for one in in_the_ground(view(*MARKS))}
    assert "CV-1" in {one.tag for one in in_the_ground(view(*MARKS, sheets=(COVERED,)))}


def test_what_is_behind_a_board_is_told_from_the_edges_of_the_board_and_nothing_beside_it():
    # 1.40 m from the near face is 0.40 m from the left edge of a board that starts at 1.00 m.
    found = view(
        BOARD, INSIDE.format(tag="DV-1", near="1.40"), INSIDE.format(tag="DV-2", near="4.0")
    )
    behind = behind_boards(found, tuple(faces_told(found)))
    assert set(behind) == {"DV-1"}
    (edge,) = behind["DV-1"]
    assert (edge.panel, edge.looks) == ("A-L1", ("red lever",))
    assert edge.across == "0.38 to 0.42"  # 40 mm wide


def test_a_hidden_thing_that_a_reader_may_not_see_is_in_no_byte_of_the_chapter():
    store = day("2031-05-19", "ow", STORE.format(words=CANARY))
    found = entries(BOARD, *MARKS, sheets=(store,))
    assert "S-9" in behind_boards(look(found, "owner"), tuple(faces_told(look(found, "owner"))))
    theirs = body_of(found, "technician")
    assert CANARY not in theirs and "S-9" not in theirs


def test_the_chapter_tells_every_run_and_how_to_tape_it():
    body = body_of(entries(*MARKS, sheets=(COVERED,)))
    chapter = re.search(r'<section class="chapter finding">.*?</section>', body, re.DOTALL)[0]
    assert "Put a peg there" in chapter
    assert {"AIR-IN, run", "CV-1, valve"} <= set(re.findall(r"<h3[^>]*>(.*?)</h3>", chapter))
    assert bind(entries(), "owner").view.built.thing("AIR-IN")
