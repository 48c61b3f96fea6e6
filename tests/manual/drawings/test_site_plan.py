"""The plan of an invented site with two hulls in an L."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.plan import Outline, Route, SitePlan, Spot, Tie
from manual.drawings.site_plan import site_plan

BEND = (24.0, 6.0)
SITE = SitePlan(
    name="Larch End",
    outlines=(
        Outline(tag="A", name="Hull A", points_m=((20, 10), (20, 12.7), (11, 12.7), (11, 10))),
        Outline(tag="B", name="Hull B", points_m=((16.4, 8.4), (16.4, 3.6), (14, 3.6), (14, 8.4))),
    ),
    landmarks=(
        Spot(tag="H1", name="house corner", x_m=10, y_m=20),
        Spot(tag="H2", name="house corner", x_m=22, y_m=20),
        Spot(tag="W1", name="well head", x_m=30.5, y_m=14),
        Spot(tag="G1", name="gate pillar", x_m=4.2, y_m=3.6),
    ),
    routes=(
        Route(tag="AIR-IN", name="air intake", points_m=((27, 2), BEND, (16.4, 6))),
        Route(tag="AIR-OUT", name="air discharge", points_m=((11, 12.3), (8, 16.3))),
        Route(tag="D-1", name="drain", points_m=((16.4, 4.4), (22.4, -3.6))),
        Route(tag="PD-1", name="pumped drain", points_m=((16.4, 4.1), (22.4, -3.9))),
    ),
    spots=(
        Spot(tag="DP-1", name="dip pipe", x_m=13, y_m=8.8),
        Spot(tag="C3", name="cover point", x_m=15.5, y_m=11.35),
    ),
    ties=(
        Tie(from_tag="H2", to_words="AIR-IN bend", from_m=(22, 20), to_m=BEND, distance_m=14.142),
        Tie(from_tag="W1", to_words="AIR-IN bend", from_m=(30.5, 14), to_m=BEND, distance_m=10.308),
        Tie(from_tag="H1", to_words="AIR-IN bend", from_m=(10, 20), to_m=BEND, distance_m=19.799),
    ),
)


def words_of(drawing):
    return [box.text for box in drawing.labels]


def straights(svg, dash):
    """Lengths of single straight lines of one type, in mm."""
    pattern = r'd="M(\S+) (\S+)L(\S+) (\S+)" [^>]*stroke-dasharray="' + re.escape(dash) + '"'
    return [
        math.dist((float(a), float(b)), (float(c), float(d)))
        for a, b, c, d in re.findall(pattern, svg)
    ]


def test_the_demo_site_is_legible(legible):
    drawing = site_plan(SITE)
    legible(drawing)
    assert drawing.width_mm == 170 and drawing.height_mm <= 247  # A4 less 25 mm at head and foot


def test_ties_are_drawn_as_long_as_the_scale_makes_them():
    """At 1:200, 14.142 m is 70.71 mm, 10.308 m is 51.54 mm, 19.799 m is 99.00 mm."""
    drawing = site_plan(SITE)
    assert "Scale 1:200. Up is grid north." in words_of(drawing)
    assert straights(drawing.svg, "1 0.8")[:3] == pytest.approx([70.71, 51.54, 99.0], abs=0.02)


def test_north_is_up_and_east_is_to_the_right():
    """From the bend, H2 is north and a little west, W1 is east and north of it."""
    svg = site_plan(SITE).svg
    pattern = r'd="M(\S+) (\S+)L(\S+) (\S+)" [^>]*stroke-dasharray="1 0.8"'
    (hx, hy, bx, by), (wx, wy, _, _) = [tuple(map(float, m)) for m in re.findall(pattern, svg)[:2]]
    assert hy < by and hx < bx and wx > bx and wy < by


def test_every_tag_and_tape_distance_is_on_the_plan():
    words = words_of(site_plan(SITE))
    named = (*SITE.outlines, *SITE.landmarks, *SITE.routes, *SITE.spots)
    assert {each.tag for each in named} <= set(words)
    assert {"14.142", "10.308", "19.799"} <= set(words)


def test_the_words_say_all_that_the_picture_shows():
    alt = site_plan(SITE).alt
    for said in (
        "A, Hull A, has corners at (20.00, 10.00), (20.00, 12.70)",
        "Landmark W1 well head at (30.50, 14.00).",
        "AIR-IN, air intake, runs through (27.00, 2.00), (24.00, 6.00), (16.40, 6.00).",
        "DP-1 dip pipe at (13.00, 8.80).",
        "Tie from H2 to AIR-IN bend: 14.142 m (46' 4 3/4\").",
        "Up is grid north.",
    ):
        assert said in alt


def test_tags_that_find_no_room_hang_under_the_plan(legible):
    crowd = tuple(Spot(tag=f"SPOT-{k:02}", name="x", x_m=10 + k * 0.01, y_m=10) for k in range(40))
    drawing = site_plan(replace(SITE, spots=crowd))
    legible(drawing)
    assert {spot.tag for spot in crowd} <= set(words_of(drawing))
    assert drawing.height_mm > site_plan(SITE).height_mm


def test_an_arrow_that_is_turned_is_said_to_be():
    assert "points 12.5 degrees clockwise from up" in site_plan(replace(SITE, north_deg=12.5)).alt


PLACE = st.tuples(st.floats(-200, 200), st.floats(-200, 200))
WORDS = st.text(max_size=30)
POINTS = st.lists(PLACE, max_size=5).map(tuple)
SPOTS = st.lists(
    st.builds(Spot, tag=WORDS, name=WORDS, x_m=st.floats(-200, 200), y_m=st.floats(-200, 200)),
    max_size=6,
).map(tuple)
PLANS = st.builds(
    SitePlan,
    name=WORDS,
    outlines=st.lists(st.builds(Outline, tag=WORDS, name=WORDS, points_m=POINTS), max_size=3).map(
        tuple
    ),
    landmarks=SPOTS,
    routes=st.lists(st.builds(Route, tag=WORDS, name=WORDS, points_m=POINTS), max_size=7).map(
        tuple
    ),
    spots=SPOTS,
    ties=st.lists(
        st.builds(
            Tie,
            from_tag=WORDS,
            to_words=WORDS,
            from_m=PLACE,
            to_m=PLACE,
            distance_m=st.floats(0, 500),
        ),
        max_size=4,
    ).map(tuple),
    north_deg=st.floats(-180, 180),
    north_words=WORDS,
)


@settings(max_examples=60, deadline=None)
@given(PLANS)
def test_any_site_is_legible(legible, plan):
    drawing = site_plan(plan)
    legible(drawing)
    assert site_plan(plan) == drawing
