"""A cut through the ground, and layers in strips."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.cut import Area, Arrow, Call, Cut, Fill, LevelMark, Mark, Rise, Width
from manual.drawings.cut_drawing import cut_drawing
from manual.drawings.shapes import box
from manual.drawings.strips import Layer, Strip, Strips, strips_drawing

HULL = Cut(
    name="Hull A, cut across",
    seen="Seen from the near end.",
    areas=(
        Area(Fill.EARTH, box(-0.6, 45.9, 3.3, 50.0), whole=False),
        Area(Fill.STEEL, box(-0.006, 46.194, 2.706, 48.706)),
        Area(Fill.ROOM, box(0.0, 46.2, 2.7, 48.7)),
        Area(Fill.RESERVED, box(0.0, 46.2, 2.7, 46.55)),
        Area(Fill.PIPE, box(2.2, 47.9, 2.36, 48.06), whole=False),
    ),
    calls=(
        Call((2.3, 48.0), "AIR-OUT stale air out", ("top 48.056", "invert 47.900")),
        Call((2.5, 46.4), "RESERVED: floor", ("ask the owner",)),
    ),
    levels=(
        LevelMark(50.0, Mark.GROUND, ("50.000", "ground as stated 2022-05-16")),
        LevelMark(49.906, Mark.LIMIT, ("49.906", "least cover 1.200 m")),
        LevelMark(47.95, Mark.WATER, ("47.950", "alarm level")),
        LevelMark(46.55, Mark.PLAIN, ("46.550", "walking floor")),
    ),
    rises=(Rise(1.35, 48.706, 49.996),),
    widths=(Width(0.0, 2.7, "inside width 2.700 m"),),
    arrows=(Arrow((0.5, 47.0), (1.0, 47.0)),),
    notes=("What is not drawn is not proved absent.",),
)


def test_it_is_legible_and_fits_a_page(legible):
    drawing = cut_drawing(HULL)
    legible(drawing)
    assert drawing.width_mm == 170 and drawing.height_mm <= 238


def test_what_is_drawn_is_as_large_as_the_scale_makes_it():
    """3.9 m across in 80 mm: 1:50. 2.7 m inside is 54 mm; 1.29 m of cover is 25.8 mm."""
    drawing = cut_drawing(HULL)
    assert any("Scale 1:50, heights and widths alike." in box.text for box in drawing.labels)
    rings = re.findall(r'd="M(\S+) (\S+)L(\S+) (\S+)L(\S+) (\S+)L(\S+) (\S+)Z"', drawing.svg)
    sides = {round(abs(float(r[2]) - float(r[0])), 2) for r in rings}
    assert 54.0 in sides
    lines = re.findall(r'd="M(\S+) (\S+)L(\S+) (\S+)" fill="none"', drawing.svg)
    assert any(abs(float(d) - float(b)) == pytest.approx(25.8, abs=0.02) for _, b, _, d in lines)


def test_the_words_say_all_that_the_picture_shows():
    alt = cut_drawing(HULL).alt
    for said in (
        "50.000, ground as stated 2022-05-16.",
        "AIR-OUT stale air out: top 48.056, invert 47.900.",
        "RESERVED: floor: ask the owner.",
        "inside width 2.700 m.",
        "What is not drawn is not proved absent.",
    ):
        assert said in alt


def test_a_water_mark_never_reads_as_water_in_the_room():
    """The room is drawn over the line, so that it shows in the ground alone."""
    svg = cut_drawing(HULL).svg
    assert svg.index('stroke-dasharray="4 1 0.6 1"') < svg.index('fill="#000000"')


@pytest.mark.parametrize("fill", [f for f in Fill if f not in (Fill.ROOM, Fill.STEEL)])
def test_no_two_fills_look_alike(fill):
    """Each by its hatch, its dots or its cross, not by a colour: all is black, grey and white."""

    def looks(one: Fill) -> set[str]:
        area = Area(one, box(0.0, 0.0, 1.0, 1.0), whole=True)
        svg = cut_drawing(replace(HULL, areas=(area,), levels=(), calls=(), rises=())).svg
        return set(re.findall(r'<path d="[^"]*"[^>]*>', svg.partition("<text")[0]))

    others = [looks(each) for each in Fill if each is not fill]
    assert all(looks(fill) != other for other in others)


SPOT = st.tuples(st.floats(-30, 30), st.floats(-30, 30))
WORDS = st.text(max_size=40)
LINES = st.lists(WORDS, max_size=4).map(tuple)
CUTS = st.builds(
    Cut,
    name=WORDS.map("Hull {}".format),
    seen=WORDS,
    areas=st.lists(
        st.builds(
            Area,
            fill=st.sampled_from(Fill),
            ring_m=st.tuples(SPOT, SPOT).map(lambda ab: box(*ab[0], *ab[1])),
            whole=st.booleans(),
        ),
        max_size=6,
    ).map(tuple),
    calls=st.lists(st.builds(Call, at_m=SPOT, head=WORDS, words=LINES), max_size=6).map(tuple),
    levels=st.lists(
        st.builds(
            LevelMark,
            level_m=st.floats(-30, 30),
            mark=st.sampled_from(Mark),
            words=LINES,
        ),
        max_size=8,
    ).map(tuple),
    rises=st.lists(
        st.builds(Rise, u_m=st.floats(-9, 9), from_m=st.floats(-9, 9), to_m=st.floats(-9, 9)),
        max_size=3,
    ).map(tuple),
    widths=st.lists(
        st.builds(Width, from_m=st.floats(-9, 9), to_m=st.floats(-9, 9), words=WORDS), max_size=3
    ).map(tuple),
    notes=LINES,
)


@given(CUTS)
@settings(max_examples=60)
def test_any_cut_is_legible(legible, cut):
    legible(cut_drawing(cut))


LAYERS = st.lists(st.builds(Layer, fill=st.sampled_from(Fill), words=WORDS), max_size=9).map(tuple)
STRIPS = st.lists(st.builds(Strip, title=WORDS, layers=LAYERS), max_size=6).map(tuple)


@given(st.builds(Strips, name=WORDS.map("Hull {}".format), strips=STRIPS, notes=LINES))
@settings(max_examples=60)
def test_any_strips_are_legible(legible, strips):
    legible(strips_drawing(strips))


def test_layers_stand_in_their_order_and_are_told_in_it():
    wall = Strip("Left wall", (Layer(Fill.EARTH, "earth"), Layer(Fill.STEEL, "plate: 6 mm")))
    drawing = strips_drawing(Strips(name="Hull A, its layers", strips=(wall,)))
    at = {box.text: box.y_mm for box in drawing.labels}
    assert at["Left wall"] < at["earth"] < at["plate: 6 mm"]
    assert "Left wall: earth; plate: 6 mm." in drawing.alt
