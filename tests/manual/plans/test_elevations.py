"""What is drawn of a panel: places on the board, circles for pipes end on, zones to keep out of."""

from __future__ import annotations

import pytest

from manual.drawings.panel import Circle, Rectangle
from manual.plans.elevations import panel_drawing
from manual.plans.pictures import picture
from record.answers import behind
from tests.record.building import day, view_of

SITE = "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: x east, y north"
HULL = """
## hull B

- inside length: 4.80 m
- inside width: 2.40 m
- inside height: 2.20 m
- steel thickness: 6 mm
- x: 16.40 m ± 5 mm
- y: 8.40 m ± 5 mm
- floor level: 46.10 m ± 5 mm
- bearing: 180° ± 0.1°
- how: total station
"""
PANEL = """
## panel B-L3

- hull: B
- face: left
- from near: 2.40 m
- bottom: 46.10 m
- width: 1.20 m
- height: 2.20 m
- thickness: 12 mm
- packing thickness: 90 mm
"""
VALVE = """
## run D-1

- carries: condensate

## valve DV-1

- type: ball
- on run: D-1
- size: 40 mm
- hull: B
- from near: 3.30 m ± 10 mm
- from left: 0.05 m
- centre: 47.35 m ± 10 mm
"""
PIPE = """
## run AIR-IN

- carries: supply air
- outside diameter: 160 mm
- inside diameter: 152 mm
- insulation thickness: none

| station | x [m] | y [m] | centre [m] | how |
|---|---|---|---|---|
| 1 | 24.00 | 5.40 | 47.674 | total station |
| 2 | 16.40 | 5.40 | 47.674 | total station |
"""
ZONE = """
## reserved zone R-1

- hull: B
- face: left
- from near: 2.40 m
- bottom: 46.10 m
- width: 1.20 m
- height: 0.60 m
"""


def drawn(*blocks, reader="owner"):
    view = view_of(day("2031-05-14", "ld", SITE, HULL, PANEL, *blocks), reader=reader)
    return panel_drawing(behind(view, "B-L3"))


def test_a_valve_is_marked_from_the_panels_own_edges():
    """3.30 less 2.40 is 0.90 across, 47.35 less 46.10 is 1.25 up; 40 mm makes ± 20 mm."""
    (thing,) = drawn(VALVE).things
    assert isinstance(thing.shape, Rectangle)
    assert (thing.shape.u0_m, thing.shape.u1_m) == pytest.approx((0.88, 0.92))
    assert (thing.shape.v0_m, thing.shape.v1_m) == pytest.approx((1.23, 1.27))


def test_a_pipe_that_comes_straight_at_the_wall_is_a_circle():
    """Along the hull: 8.40 less 5.40 is 3.00, so 0.60 across; 47.674 less 46.10 is 1.574 up."""
    (thing,) = drawn(PIPE).things
    assert isinstance(thing.shape, Circle)
    assert (thing.shape.u_m, thing.shape.v_m) == pytest.approx((0.60, 1.574))
    assert thing.shape.radius_m == pytest.approx(0.080)


def test_a_zone_on_a_part_of_the_panel_reserves_all_of_it():
    """A board comes off as a whole, so nobody takes it off without asking."""
    (region,) = drawn(ZONE).reserved
    assert (region.area.u0_m, region.area.u1_m, region.area.v1_m) == pytest.approx((0, 1.2, 2.2))


def test_what_is_withheld_reserves_the_whole_panel_and_is_not_drawn():
    store = "## store S-9\n\n- hull: B\n- from near: 2.60 m\n- from left: 0 m\n- bottom: 46.9 m\n"
    store += "- along: 0.4 m\n- across: 0.09 m\n- height: 0.4 m"
    assert [thing.tag for thing in drawn(store).things] == ["S-9"]
    assert drawn(store, reader="technician").things == ()
    both = drawn(store, VALVE, reader="technician")
    assert [thing.tag for thing in both.things] == ["DV-1"]
    assert both.reserved[0].area.v1_m == pytest.approx(2.20)


def test_a_panel_with_nothing_to_mark_out_has_no_drawing():
    assert drawn() is None


def test_the_figure_says_in_words_what_it_shows():
    view = view_of(day("2031-05-14", "ld", SITE, HULL, PANEL, VALVE))
    figure = picture(view, "panel B-L3")
    assert "<figure aria-label=" in figure and "DV-1" in figure and "<desc" in figure
