"""Frames of hulls and panels."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.place import HullFrame, face_frame, hull_frames
from record.place.frames import AXES
from tests.record.answers.shelter import SITE, hull, panel, sheet
from tests.record.building import view_of


def frame(**changed):
    view = view_of(sheet(SITE, hull(**changed), panel()))
    return hull_frames(view.built).get("A"), view.built.things["P-1"]


def test_bearing_is_clockwise_from_north_and_left_is_left_of_one_who_looks_to_the_far_end():
    """Looking east: far is +x, left is north, so the right wall is at smaller y."""
    found, _ = frame()
    assert found.to_site(6.0, 0.0, 0.0) == (106.0, 200.0, 50.0)
    assert found.to_site(0.0, 3.0, 0.0) == (100.0, 197.0, 50.0)


@given(
    bearing=st.floats(-360, 720),
    point=st.tuples(*[st.floats(-1e4, 1e4)] * 3),
)
def test_to_the_site_and_back_is_the_same_place(bearing, point):
    found = HullFrame("A", 6, 3, 2.5, 0.01, (100.0, 200.0, 50.0), bearing, 50.0, 0.01, 0.005)
    back = found.to_hull(found.to_site(*point))
    assert all(math.isclose(a, b, abs_tol=1e-6) for a, b in zip(back, point, strict=True))


@pytest.mark.parametrize("face", AXES)
def test_right_up_and_away_of_every_face_stand_square_to_each_other(face):
    for one in range(3):
        for other in range(3):
            dot = sum(a * b for a, b in zip(AXES[face][one], AXES[face][other], strict=True))
            assert dot == (1 if one == other else 0)


def test_the_greater_of_two_tolerances_of_a_hulls_corner_counts():
    found, _ = frame(y="200.00 m ± 40 mm")
    assert found.horizontal_m == 0.040 and not found.assumed


@pytest.mark.parametrize("name", ["floor_level", "bearing"])
def test_a_tolerance_nobody_stated_is_assumed_and_said_to_be(name):
    found, _ = frame(**{name: {"floor_level": "50.00 m", "bearing": "90°"}[name]})
    assert found.assumed
    assert found.vertical_m == (0.30 if name == "floor_level" else 0.005)


def test_half_a_degree_moves_the_far_corner_by_59_mm():
    """√(6² + 3²) = 6.708 m; × 0.5 π / 180 = 0.0585."""
    found, _ = frame(bearing="90° ± 0.5°")
    assert found.turned_m == pytest.approx(0.0585, abs=1e-4)


def test_a_part_of_a_panel_has_its_corner_where_it_was_asked_for():
    found, thing = frame()
    whole = face_frame(thing, found)
    part = whole.part(0.30, 0.20, 0.10, 0.10)
    assert whole.to_face(part.origin)[:2] == pytest.approx((0.30, 0.20))
