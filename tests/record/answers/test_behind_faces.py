"""Where things lie behind panels on all six faces, worked by hand from the hull's frame.

a runs from the near end, l from the left wall, level up from 50.00. The plate's inside is at
0.102 m from the room face (12 mm board + 90 mm packing), and d grows away from the room.
"""

import pytest

from record.answers import behind
from tests.record.answers.shelter import fit_out, hull, numbers, panel, run, sheet, shelter
from tests.record.building import view_of

# A box 0.20 × 0.10 m, 0.05 m deep, that touches the plate of each face: its near, left and
# bottom edge, its size along, across and up, and where it then is across and up the panel.
BOXES = {
    # u = a − 2.00; v = level − 50.50; d = 0.102 − l
    "left": (("2.30", "0.00", "50.80"), ("0.20", "0.05", "0.10"), (0.30, 0.50), (0.30, 0.40)),
    # origin at a = 3.20: u = 3.20 − a, so 2.30..2.50 is 0.90..0.70; d = l − 3.00 + 0.102
    "right": (("2.30", "2.95", "50.80"), ("0.20", "0.05", "0.10"), (0.70, 0.90), (0.30, 0.40)),
    # origin at l = 1.70: u = 1.70 − l, so 0.60..0.80 is 1.10..0.90; d = 0.102 − a
    "near": (("0.00", "0.60", "50.80"), ("0.05", "0.20", "0.10"), (0.90, 1.10), (0.30, 0.40)),
    # u = l − 0.50; d = a − 6.00 + 0.102
    "far": (("5.95", "0.60", "50.80"), ("0.05", "0.20", "0.10"), (0.10, 0.30), (0.30, 0.40)),
    # u = a − 2.00; v = l − 0.50; d = 0.102 − h, h = level − 50.00
    "floor": (("2.30", "0.80", "50.00"), ("0.20", "0.10", "0.05"), (0.30, 0.50), (0.30, 0.40)),
    # as the floor; d = h − 2.50 + 0.102
    "ceiling": (("2.30", "0.80", "52.45"), ("0.20", "0.10", "0.05"), (0.30, 0.50), (0.30, 0.40)),
}


def boxed(face):
    (near, left, bottom), (along, across, height), _, _ = BOXES[face]
    return fit_out(
        from_near=f"{near} m ± 5 mm",
        from_left=f"{left} m",
        bottom=f"{bottom} m ± 8 mm",
        along=f"{along} m",
        across=f"{across} m",
        height=f"{height} m",
    )


@pytest.mark.parametrize("face", BOXES)
def test_a_box_against_the_plate_is_52_to_102_mm_behind_the_room_face(face):
    """0.102 − 0.05 = 0.052; the plate's inside is at 0.102."""
    (item,) = behind(shelter(panel(face), boxed(face)), "P-1").items
    _, _, across, upward = BOXES[face]
    assert numbers(item.across) == across
    assert numbers(item.upward) == upward
    assert numbers(item.depth) == (0.052, 0.102)


@pytest.mark.parametrize("face", BOXES)
def test_tolerances_across_and_up_reach_out_on_the_axes_they_belong_to(face):
    """5 mm in plan, 8 mm in level. Walls: across and deep are plan, up is level. Floor and
    ceiling: across and up are plan, deep is level; so 0.052 − 0.008 = 0.044 to 0.110 there,
    and 0.052 − 0.005 = 0.047 to 0.107 behind walls."""
    (item,) = behind(shelter(panel(face), boxed(face)), "P-1").items
    (_, _, (u0, u1), (v0, v1)) = BOXES[face]
    flat = face in ("floor", "ceiling")
    up, deep = (0.005, (0.044, 0.110)) if flat else (0.008, (0.047, 0.107))
    assert numbers(item.across_may_reach) == (round(u0 - 0.005, 4), round(u1 + 0.005, 4))
    assert numbers(item.upward_may_reach) == (round(v0 - up, 4), round(v1 + up, 4))
    assert numbers(item.depth_may_reach) == deep


def test_a_sloping_pipe_on_the_site_grid_is_told_at_both_of_its_ends():
    """The pipe runs south to the left wall at x 102.60: a = 2.60, so u = 0.60 ± 0.08 (radius).
    y 201.00 is l = −1.00, d = 1.102; y 200.00 is d = 0.102. Levels 51.20 and 51.10 are v 0.70
    and 0.60, so 0.52 to 0.78 with the radius; depth 0.022 to 1.182. Position 20 mm and the
    hull's 10 mm together are √(20² + 10²) = 22.4 mm; level √(3² + 5²) = 5.8 mm. No more
    pipe than that: it is straight."""
    pipe = run(
        stations=[
            ("1", "102.60", "201.00", "51.20 ± 3 mm", "20 mm"),
            ("2", "102.60", "200.00", "51.10 ± 3 mm", "20 mm"),
        ],
        pipe_length="1.00 m",
    )
    (item,) = behind(shelter(panel(), pipe), "P-1").items
    assert numbers(item.across) == (0.52, 0.68)
    assert numbers(item.upward) == (0.52, 0.78)
    assert numbers(item.depth) == (0.022, 1.182)
    assert numbers(item.across_may_reach) == (0.4976, 0.7024)
    assert numbers(item.upward_may_reach) == (0.5142, 0.7858)
    assert item.interpolated and not item.assumed and item.axis is not None


def test_a_second_hull_is_seen_through_the_frames_of_both():
    """B lies north of A, its near-left-floor corner at x 103.00, y 200.50, looking north (0°):
    its right wall is east. Inside 2.00 wide, plate 10 mm: outside x 102.99 to 105.01. On the left
    panel (u = x − 102.00) it starts at 0.99 across. Its near plate is at y 200.49, l = −0.49:
    d = 0.102 + 0.49 = 0.592. Both hulls are known to 10 mm: √(10² + 10²) = 14.1 mm."""
    other = hull(
        "B",
        x="103.00 m ± 10 mm",
        y="200.50 m ± 10 mm",
        bearing="0° ± 0.001°",
        inside_length="3.00 m",
        inside_width="2.00 m",
    )
    (item,) = behind(shelter(panel(), other), "P-1").items
    assert item.tag == "B"
    assert round(item.across.from_m, 4) == 0.99
    assert round(item.depth.from_m, 4) == 0.592
    assert round(item.depth_may_reach.from_m, 4) == 0.5779


def test_a_bearing_known_to_half_a_degree_moves_the_far_end_of_a_hull():
    """Farthest from the origin is 6.00 along and 3.00 across: √45 = 6.708 m; 0.5° of it is
    6.708 × 0.5 π / 180 = 58.5 mm. With the pipe's 20 mm and the hull's 10 mm:
    √(20² + 10² + 58.5²) = 62.7 mm."""
    pipe = run(
        stations=[
            ("1", "102.60", "201.00", "51.20 ± 3 mm", "20 mm"),
            ("2", "102.60", "200.00", "51.10 ± 3 mm", "20 mm"),
        ],
        pipe_length="1.00 m",
    )
    for bearing, assumed in (("90° ± 0.5°", False), ("90°", True)):
        view = view_of(sheet(SITE_OF, hull(bearing=bearing), panel(), pipe))
        (item,) = behind(view, "P-1").items
        assert round(item.tolerance_across_m, 4) == 0.0627
        assert item.assumed is assumed


SITE_OF = "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: peg"


def test_the_panels_own_hull_is_not_an_item():
    assert behind(shelter(panel()), "P-1").items == ()


def test_an_opening_in_the_same_face_is_an_item():
    """The opening starts at a 3.00: 1.00 across the panel; its top at 51.20 is 0.70 up."""
    door = (
        "## opening OP-1\n\n- hull: A\n- face: left\n- from near: 3.00 m ± 1 mm\n"
        "- bottom: 50.20 m ± 1 mm\n- width: 0.80 m\n- height: 1.00 m"
    )
    (item,) = behind(shelter(panel(), door), "P-1").items
    assert item.tag == "OP-1"
    # Cut at the panel's edges, and no nearer to them than its tolerance of 1 mm.
    assert numbers(item.across) == (1.0, 1.201)
    assert numbers(item.upward) == (-0.001, 0.7)
    assert numbers(item.depth) == (0.102, 0.112)  # the plate


def test_a_seam_brings_the_layers_of_its_build_up_as_deep_as_they_are_known():
    """Weld at a 2.40, build-up reaching 150 mm: 0.25 to 0.55 across. The plate's outside is at
    0.112; tar of 2.5 mm ends at 0.1145; primer has no thickness: past it no depth is known."""
    build_up = (
        "## build-up BU-1\n\n- side: outside\n\n"
        "| layer | material | coats | thickness |\n|---|---|---|---|\n"
        "| 1 clean | power tool | 1 | none |\n| 2 tar | hot tar | 1 | 2.5 mm |\n"
        "| 3 primer | primer | 1 | not recorded |\n| 4 foam | spray foam | 2 | 70 mm |"
    )
    seam = (
        "## seam SM-1\n\n- joins: two plates\n- hull: A\n- face: left\n- from near: 2.40 m ± 1 mm\n"
        "- bottom: 50.00 m ± 1 mm\n- width: 0 m\n- height: 2.50 m\n- build-up: BU-1\n"
        "- build-up reaches: 150 mm"
    )
    (item,) = behind(shelter(build_up, panel(), seam), "P-1").items
    assert numbers(item.across) == (0.25, 0.55)
    depths = [(layer.what, layer.from_m, layer.to_m) for layer in item.layers]
    assert [what for what, _, _ in depths] == ["hot tar", "primer", "spray foam"]
    assert depths[0][1:] == pytest.approx((0.112, 0.1145))
    assert depths[1][1] == pytest.approx(0.1145) and depths[1][2] is None
    assert depths[2][1:] == (None, None)


def test_nearest_comes_first_and_what_stands_before_the_board_comes_last():
    room = fit_out("FO-0", from_left="0.20 m ± 150 mm", across="0.05 m")  # d −0.148 to −0.098
    near = fit_out("FO-2", from_left="0.05 m")  # d 0.002 to 0.052
    deep = fit_out("FO-1")  # d 0.052 to 0.102
    view = shelter(panel(), room, deep, near)
    assert [item.tag for item in behind(view, "P-1").items] == ["FO-2", "FO-1", "FO-0"]


def test_a_point_lists_only_what_may_lie_within_100_mm_of_it():
    """The box is 0.30 to 0.50 across, ± 5 mm; its nearest side may be at 0.295. A point at
    0.20 reaches to 0.30 and meets it; one at 0.19 reaches to 0.29 and does not."""
    view = shelter(panel(), fit_out())
    (item,) = behind(view, "P-1", at=(0.20, 0.35)).items
    assert numbers(item.across)[0] == 0.30  # offsets stay those of the whole panel
    assert behind(view, "P-1", at=(0.19, 0.35)).items == ()


def test_what_lies_deeper_than_was_asked_is_left_out():
    """The box starts at 0.052, ± 5 mm: a reach of 0.046 falls short of 0.047."""
    view = shelter(panel(), fit_out())
    assert behind(view, "P-1", reach_m=0.046).items == ()
    assert len(behind(view, "P-1", reach_m=0.048).items) == 1
