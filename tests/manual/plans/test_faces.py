"""A whole wall, floor or ceiling: its panels and what is behind them, by the steel's edges."""

import numpy as np
import pytest

from manual.drawings.panel import Circle, Rectangle
from manual.drawings.panel_elevation import panel_elevation
from manual.plans.faces import FACES, bare_faces, face_elevation
from manual.plans.pictures import picture
from tests.manual.plans.test_elevations import HULL, PANEL, SITE, VALVE
from tests.record.building import day, view_of

FLOOR = "## hull B\n\n- walking floor: 46.30 m"
STORE = """
## store S-1

- hull: B
- from near: 2.60 m
- from left: 0.00 m
- bottom: 46.80 m
- along: 0.50 m
- across: 0.09 m
- height: 0.40 m
"""
DOOR = """
## opening OP-1

- hull: B
- face: near
- from left: 0.80 m
- bottom: 46.30 m
- width: 0.80 m
- height: 1.90 m
- leads to: link
"""


def seen(face, *blocks, reader="owner"):
    view = view_of(day("2031-05-14", "ld", SITE, HULL, *blocks), reader=reader)
    return face_elevation(view, "B", face)


@pytest.mark.parametrize(
    ("face", "size"),
    [
        ("left", (4.8, 2.2)),
        ("right", (4.8, 2.2)),
        ("near", (2.4, 2.2)),
        ("far", (2.4, 2.2)),
        ("floor", (4.8, 2.4)),
        ("ceiling", (4.8, 2.4)),
    ],
)
def test_every_face_is_drawn_as_large_as_it_is_panel_or_none(legible, face, size):
    drawn = seen(face)
    assert (drawn.width_m, drawn.height_m) == pytest.approx(size)
    assert any(note.startswith("No panel is recorded on it") for note in drawn.notes)
    legible(panel_elevation(drawn))


@pytest.mark.parametrize("face", FACES)
def test_no_face_is_drawn_as_in_a_mirror(face):
    """To the right and up on paper, crossed, point at whoever stands in the room: geometry alone,
    on the site's grid, east, north and up. Of hull B, bearing 180°, the left wall is east."""
    frame = view_of(day("2031-05-14", "ld", SITE, HULL)).hulls["B"]
    corner, *ends = (np.array(frame.to_site(*at)) for at in ((0, 0, 0), *map(tuple, np.eye(3))))
    along, across, height = (end - corner for end in ends)
    right, up, out = {
        "left": (along, height, -across),
        "right": (-along, height, across),
        "near": (-across, height, -along),
        "far": (across, height, along),
        "floor": (along, across, -height),
        "ceiling": (along, across, height),
    }[face]
    on_paper = -up if seen(face).downward else up
    assert np.cross(right, on_paper) @ -out == pytest.approx(1.0)


def test_a_wall_is_measured_up_from_the_walking_floor():
    """The floor plate is at 46.10, the walking floor at 46.30: the wall is 0.20 m less high."""
    assert seen("left", FLOOR).height_m == pytest.approx(2.0)
    assert seen("floor", FLOOR).height_m == pytest.approx(2.4)


def test_a_thing_is_as_far_along_the_wall_as_along_the_hull():
    """A valve 3.30 m from near at level 47.35, floor plate 46.10: 3.30 along and 1.25 up."""
    drawn = seen("left", PANEL, VALVE)
    (valve,) = [t for t in drawn.things if t.tag == "DV-1"]
    shape = valve.shape
    middle = (
        (shape.u_m, shape.v_m)
        if isinstance(shape, Circle)
        else ((shape.u0_m + shape.u1_m) / 2, (shape.v0_m + shape.v1_m) / 2)
    )
    assert middle == pytest.approx((3.3, 1.25), abs=0.001)
    assert [(s.tag, s.from_u_m, s.to_u_m) for s in drawn.panels] == [
        ("B-L3", pytest.approx(2.4), pytest.approx(3.6))
    ]


def test_what_two_panels_hide_is_drawn_once():
    second = PANEL.replace("B-L3", "B-L4").replace("from near: 2.40", "from near: 3.60")
    across = STORE.replace("from near: 2.60", "from near: 3.40")
    assert [t.tag for t in seen("left", PANEL, second, across).things] == ["S-1"]


def test_a_face_without_panels_shows_what_lies_behind_its_plate():
    drawn = seen("left", STORE.replace("from left: 0.00", "from left: -0.20"))
    assert [t.tag for t in drawn.things] == ["S-1"]
    shape = drawn.things[0].shape
    assert isinstance(shape, Rectangle)
    ends = (shape.u0_m, shape.v0_m, shape.u1_m, shape.v1_m)
    assert ends == pytest.approx((2.6, 0.7, 3.1, 1.1))


def test_a_store_reserves_its_whole_panel_for_those_who_may_not_know(legible):
    drawn = seen("left", PANEL, STORE, reader="technician")
    assert [t.tag for t in drawn.things] == []
    (region,) = drawn.reserved
    ends = (region.area.u0_m, region.area.v0_m, region.area.u1_m, region.area.v1_m)
    assert ends == pytest.approx((2.4, 0.0, 3.6, 2.2))
    legible(panel_elevation(drawn))
    bare = seen("left", STORE, reader="technician")
    (whole,) = bare.reserved
    assert (whole.area.u0_m, whole.area.u1_m) == pytest.approx((0.0, 4.8))
    moved = STORE.replace("2.60", "2.70")
    assert seen("left", PANEL, moved, reader="technician") == drawn


def test_an_opening_is_told_by_its_edges():
    """From the right wall 2.40 - 1.60 = 0.80 to 1.60; up from 46.10: 0.20 to 2.10."""
    note = next(n for n in seen("near", DOOR).notes if n.startswith("Opening OP-1"))
    assert "0.800 m (2' 7 1/2\") to 1.600 m" in note and "0.200 m" in note and "2.100 m" in note


def test_every_face_of_every_hull_is_somewhere_in_the_chapter():
    view = view_of(day("2031-05-14", "ld", SITE, HULL, PANEL))
    assert bare_faces(view) == tuple(("B", face) for face in FACES if face != "left")
    for face in FACES:
        assert "<svg" in picture(view, f"{face} face B")


def test_a_round_wall_says_where_it_is_told(legible):
    from tests.record.place.test_round_hulls import seen as round_one

    drawn = face_elevation(round_one(floor_above_bottom="0.25 m"), "A", "left")
    assert any(note.startswith("Round:") for note in drawn.notes)
    legible(panel_elevation(drawn))
