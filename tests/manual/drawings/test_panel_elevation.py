"""Panels of an invented site, seen from inside the room."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.panel import (
    Band,
    Behind,
    Circle,
    PanelElevation,
    Rectangle,
    Region,
    Seam,
)
from manual.drawings.panel_elevation import panel_elevation

PIPE = Behind(
    tag="AIR-IN",
    words="air pipe OD 160 through the shell",
    shape=Circle(u_m=0.20, v_m=1.576, radius_m=0.08),
    tolerance_m=0.012,
    depth_words="84–96 mm",
    basis_words="measured before cover",
)
LEG = Behind(
    tag="D-1",
    words="drip leg",
    shape=Band(points_m=((0.28, 1.50), (0.90, 1.33), (1.30, 1.30)), half_width_m=0.027),
    tolerance_m=0.010,
    depth_words="60–114 mm",
    basis_words="measured, interpolated between",
)
VALVE = Behind(
    tag="DV-1",
    words="40 ball valve",
    shape=Rectangle(u0_m=1.04, v0_m=1.19, u1_m=1.16, v1_m=1.31),
    tolerance_m=None,
    depth_words="depth not recorded",
    basis_words="seen by ph",
)
PANEL = PanelElevation(
    name="Panel B-L2",
    width_m=1.20,
    height_m=2.20,
    left_edge="edge at a 2.20",
    things=(PIPE, LEG, VALVE),
    unknown=(Region(area=Rectangle(u0_m=0, v0_m=0, u1_m=0.5, v1_m=0.8), words="not looked at"),),
)
ZONED = PanelElevation(
    name="Panel A-L3",
    width_m=1.20,
    height_m=2.15,
    reserved=(Region(area=Rectangle(u0_m=0, v0_m=0, u1_m=1.20, v1_m=1.20)),),
)
WALL = PanelElevation(
    name="Left wall of Hull A",
    width_m=9.00,
    height_m=2.15,
    left_edge="near wall",
    panels=tuple(
        Seam(tag=f"A-L{k + 1}", from_u_m=1.2 * k, to_u_m=min(9.0, 1.2 * (k + 1))) for k in range(8)
    ),
    things=(replace(LEG, shape=Band(points_m=((0, 1.9), (4, 1.9), (4, 2.3)), half_width_m=0.01)),),
    reserved=(Region(area=Rectangle(u0_m=2.4, v0_m=0, u1_m=3.6, v1_m=1.2)),),
    unknown=(Region(area=Rectangle(u0_m=7.2, v0_m=0, u1_m=9.0, v1_m=2.15)),),
)


def words_of(drawing):
    return [box.text for box in drawing.labels]


def rings(svg, dash):
    """Width and height of every closed line of a type inside the panel."""
    sizes = []
    for data, tail in re.findall(r'<path d="(M[^"]*Z)"([^>]*)>', svg):
        if (f'stroke-dasharray="{dash}"' in tail) if dash else "dasharray" not in tail:
            xy = [tuple(map(float, p.split())) for p in data.strip("MZ").split("L")]
            xs, ys = zip(*xy, strict=True)
            sizes.append((max(xs) - min(xs), max(ys) - min(ys)))
    return sizes


@pytest.mark.parametrize("panel", [PANEL, ZONED, WALL], ids=lambda p: p.name)
def test_the_demo_panels_are_legible(panel, legible):
    drawing = panel_elevation(panel)
    legible(drawing)
    assert drawing.width_mm == 170 and drawing.height_mm <= 247  # A4 less 25 mm at head and foot


def test_a_pipe_has_three_outlines():
    """At 1:20 a radius of 0.080 m is 8 mm across in all; ± 0.012 m makes 6.8 and 9.2 mm."""
    drawing = panel_elevation(replace(PANEL, things=(PIPE,), unknown=()))
    assert any("Scale 1:20" in words for words in words_of(drawing))
    for dash, size in (("0.4 0.9", 6.8), ("", 8.0), ("2.4 1.2", 9.2)):
        assert any(s == pytest.approx((size, size), abs=0.03) for s in rings(drawing.svg, dash)), (
            dash
        )


def test_a_thing_known_worse_than_its_own_size_is_certain_nowhere():
    doubtful = replace(PIPE, tolerance_m=0.10)
    drawing = panel_elevation(replace(PANEL, things=(doubtful,), unknown=()))
    assert not rings(drawing.svg, "0.4 0.9") and rings(drawing.svg, "2.4 1.2")


def test_no_tolerance_recorded_is_another_line_and_is_said():
    drawing = panel_elevation(replace(PANEL, things=(VALVE,), unknown=()))
    assert rings(drawing.svg, "4 1 0.6 1") and not rings(drawing.svg, "2.4 1.2")
    assert "tolerance not recorded" in words_of(drawing) and "tolerance not recorded" in drawing.alt


def test_distances_are_from_the_left_and_bottom_edges():
    """The pipe is at a 2.40 behind a panel that begins at a 2.20: 0.200 from the left."""
    words = words_of(panel_elevation(PANEL))
    said = " ".join(words)
    for each in (
        '0.20 m (8")',
        "1.58 m 5' 2\"",
        '0.000 m (0")',
        "1.200 m (3' 11 1/4\")",
        "2.200 m",
    ):
        assert each in said
    assert "AIR-IN" in words and "84–96 mm" in words
    assert words.count("bottom edge") == words.count("edge at a 2.20") == 1


def test_fine_lines_lead_from_a_pipe_to_both_edges():
    """Scale 1:20: its middle is 10 mm right of the left edge and 78.8 mm over the bottom edge."""
    svg = panel_elevation(replace(PANEL, things=(PIPE,), unknown=())).svg
    fine = re.findall(r'd="M(\S+) (\S+)L(\S+) (\S+)" [^>]*stroke-dasharray="0.5 1.5"', svg)
    (x0, y0, x1, y1), (x2, y2, x3, y3) = [tuple(map(float, each)) for each in fine]
    assert (x1 - x0, y1 - y0) == pytest.approx((0, 78.8), abs=0.011)
    assert (x2 - x3, y2 - y3) == pytest.approx((10, 0), abs=0.011)


def test_a_floor_is_drawn_down_from_the_edge_its_distances_count_from():
    """Of 2.20 m at 1:20, 110 mm, the pipe is 78.8 mm below the top and 31.2 over the foot; its
    distances stay what they are."""
    bare = replace(PANEL, things=(PIPE,), unknown=())
    up, down = (panel_elevation(replace(bare, downward=each)) for each in (False, True))
    (rise, fall) = (
        re.findall(r'd="M\S+ (\S+)L\S+ (\S+)" [^>]*stroke-dasharray="0.5 1.5"', each.svg)[0]
        for each in (up, down)
    )
    assert float(rise[1]) - float(rise[0]) == pytest.approx(78.8, abs=0.011)
    assert float(fall[1]) - float(fall[0]) == pytest.approx(31.2, abs=0.011)
    said = " ".join(words_of(down))
    assert "1.58 m 5' 2\"" in said and said.index("0.000 m") < said.index("2.200 m")
    assert "top edge" not in said


def test_a_band_is_marked_where_it_leaves_the_panel():
    """From (0.90, 1.33) to (1.30, 1.30) it passes the right edge, 1.20, at 1.3075."""
    words = words_of(panel_elevation(PANEL))
    assert "1.31 m 4' 3 1/2\"" in " ".join(words)  # known to 0.020


def test_nothing_is_drawn_beyond_the_edge_of_the_panel():
    """1.20 m at 1:20 is 60 mm from the left edge at 36 mm."""
    far = replace(LEG, shape=Band(points_m=((-3, 1), (5, 1.2)), half_width_m=0.2))
    svg = panel_elevation(replace(PANEL, things=(far,), unknown=())).svg
    for width, _ in rings(svg, "2.4 1.2"):
        assert width <= 60.01


def test_a_reserved_zone_says_so_and_no_more():
    drawing = panel_elevation(ZONED)
    assert "RESERVED: keep out" in words_of(drawing)
    assert 'RESERVED: keep out: 0.000 m (0") to 1.200 m (3\' 11 1/4") from the left' in drawing.alt
    for said in (drawing.alt, words_of(drawing)):
        assert "Nothing is recorded behind it." not in said
    assert "What is not drawn is not proved absent." in words_of(drawing)
    bare = panel_elevation(replace(ZONED, reserved=()))
    assert "Nothing is recorded behind it." in bare.alt


def test_a_part_nobody_looked_at_is_named():
    assert "NOT RECORDED" in words_of(panel_elevation(PANEL))
    assert (
        'NOT RECORDED: 0.000 m (0") to 0.500 m (1\' 7 11/16") from the left'
        in panel_elevation(PANEL).alt
    )


def test_the_words_say_all_that_the_picture_shows():
    alt = panel_elevation(PANEL).alt
    for said in (
        'AIR-IN, air pipe OD 160 through the shell: circle, middle 0.20 m (8") from the left and'
        ' 1.58 m (5\' 2") from the bottom, radius 0.080 m (3 1/8"); 84–96 mm;'
        ' position ± 0.012 m (1/2");',
        'band 0.054 m (2 1/8") wide through 0.28 m (11") from the left 1.50 m (4\' 11") from',
        "DV-1, 40 ball valve: 1.040 m (3' 4 15/16\") to 1.160 m (3' 9 11/16\") from the left,",
        "1.200 m (3' 11 1/4\") wide, 2.200 m (7' 2 5/8\") high",
    ):
        assert said in alt


def test_neither_the_metres_nor_the_inches_say_more_than_was_measured():
    """1.576 m is 62.05 in: 5' 2 1/16" to a sixteenth, 5' 2" to the half inch that is 12.7 mm."""
    for tolerance, said in ((None, "1.576 m (5' 2 1/16\")"), (0.012, "1.58 m (5' 2\")")):
        pipe = replace(PIPE, tolerance_m=tolerance)
        drawing = panel_elevation(replace(PANEL, things=(pipe,), unknown=()))
        assert said in drawing.alt
        assert said.translate({40: None, 41: None}) in " ".join(words_of(drawing))


PLACES = st.floats(-3, 6)
WORDS = st.text(max_size=40)
RECTANGLES = st.builds(Rectangle, u0_m=PLACES, v0_m=PLACES, u1_m=PLACES, v1_m=PLACES)
SHAPES = (
    RECTANGLES
    | st.builds(Circle, u_m=PLACES, v_m=PLACES, radius_m=st.floats(0, 1))
    | st.builds(
        Band,
        points_m=st.lists(st.tuples(PLACES, PLACES), max_size=5).map(tuple),
        half_width_m=st.floats(0, 0.5),
    )
)
REGIONS = st.lists(st.builds(Region, area=RECTANGLES, words=WORDS), max_size=3).map(tuple)
PANELS = st.builds(
    PanelElevation,
    name=WORDS,
    width_m=st.floats(0.1, 12),
    height_m=st.floats(0.1, 4),
    left_edge=WORDS,
    bottom_edge=WORDS,
    things=st.lists(
        st.builds(
            Behind,
            tag=WORDS,
            words=WORDS,
            shape=SHAPES,
            tolerance_m=st.none() | st.floats(0, 1),
            depth_words=WORDS,
            basis_words=WORDS,
        ),
        max_size=8,
    ).map(tuple),
    reserved=REGIONS,
    unknown=REGIONS,
    panels=st.lists(st.builds(Seam, tag=WORDS, from_u_m=PLACES, to_u_m=PLACES), max_size=4).map(
        tuple
    ),
    notes=st.lists(WORDS, max_size=3).map(tuple),
)


@settings(max_examples=60, deadline=None)
@given(PANELS)
def test_any_panel_is_legible(legible, panel):
    drawing = panel_elevation(panel)
    legible(drawing)
    assert panel_elevation(panel) == drawing
