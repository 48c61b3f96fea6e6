"""Walls and fittings of air pipes: the tables against where they were published."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.calc.air_fittings import FITTINGS, SMOOTH_BEND_90, fitting_k, smooth_bend_k
from record.calc.air_walls import WALLS, wall

FOOT, INCH = 0.3048, 0.0254


# The wall


@pytest.mark.parametrize(
    ("name", "feet", "smoothest_ft"),
    [
        ("drawn tube", 0.000005, 0.000005),
        ("plastic, jointed", 0.00015, 0.00003),
        ("steel pipe", 0.00015, 0.00015),
        ("galvanised duct, long seam", 0.00032, 0.00016),
        ("galvanised duct, spiral", 0.0004, 0.0002),
        ("galvanised duct, chart", 0.0003, 0.0003),
        ("galvanised iron", 0.0005, 0.0005),
        ("flexible duct, fully extended", 0.003, 0.0003),
        ("concrete", 0.01, 0.001),
    ],
)
def test_a_wall_is_as_rough_as_it_was_published(name, feet, smoothest_ft):
    """ASHRAE's table of duct roughness as printed on the web, in feet, and Moody's 1944 values
    from memory (drawn tube, galvanised iron, concrete)."""
    found = wall(name)
    assert found.roughness_m == pytest.approx(feet * FOOT)
    assert found.smoothest_m == pytest.approx(smoothest_ft * FOOT)
    assert found.source


def test_walls_known_in_millimetres_too():
    """fluids: galvanised iron 0.152 mm, drawn 1.52 µm; Crane TP-410: steel pipe 0.0018 in,
    0.046 mm."""
    assert wall("galvanised iron").roughness_m == pytest.approx(0.152e-3, rel=0.005)
    assert wall("drawn tube").roughness_m == pytest.approx(1.52e-6, rel=0.005)
    assert wall("steel pipe").roughness_m == pytest.approx(0.0018 * INCH, rel=1e-9)


def test_the_table_on_the_web_has_drawn_tube_ten_times_too_smooth_or_so():
    """MISPRINT: it prints 0.0000015 ft; Moody's drawn tube is 0.000005 ft, 1.5 micrometres."""
    assert wall("drawn tube").roughness_m > 3 * 0.0000015 * FOOT


@pytest.mark.parametrize("name", ["PVC", "Commercial steel", "steel", "Steel pipe", ""])
def test_a_wall_is_never_guessed_from_a_name_that_sounds_like_it(name):
    """A library's nearest match gives concrete for PVC and riveted steel for commercial steel."""
    with pytest.raises(ValueError, match=r"no wall is called .* one of drawn tube; plastic, join"):
        wall(name)


def test_no_two_walls_share_a_name():
    assert len({each.name for each in WALLS}) == len(WALLS)


# Fittings


@pytest.mark.parametrize(
    ("ratio", "k"),
    [(0.5, 0.71), (0.75, 0.33), (1.0, 0.22), (1.5, 0.15), (2.0, 0.13), (2.5, 0.12)],
)
def test_a_smooth_bend_loses_less_the_wider_it_turns(ratio, k):
    """SMACNA HVAC Systems Duct Design, table 14-10A; ASHRAE CD3-1; from memory."""
    assert smooth_bend_k(ratio) == pytest.approx(k)


def test_a_bend_between_two_of_the_table_lies_on_the_line():
    """By hand: half way from 1.0 to 1.5, half way from 0.22 to 0.15."""
    assert smooth_bend_k(1.25) == pytest.approx(0.185)


@pytest.mark.parametrize("ratio", [0.49, 2.51, math.nan])
def test_a_bend_beyond_the_table_is_refused(ratio):
    with pytest.raises(ValueError, match=r"outside the table's 0.5 to 2.5"):
        smooth_bend_k(ratio)


@pytest.mark.parametrize(
    ("name", "k"),
    [
        ("mitred bend 90", 1.20),
        ("seven-gore bend 90, r/D 2.5", 0.11),
        ("sharp entry", 0.57),
        ("exit", 1.0),
    ],
)
def test_other_fittings(name, k):
    """fluids: bend_miter 1.202, entrance_sharp 0.57 (Rennels), exit_normal 1.0; ASHRAE 2021 chapter
    21, CD3-10, 0.11."""
    assert fitting_k(name) == pytest.approx(k, abs=0.005)
    assert len(FITTINGS) == 4


def test_a_fitting_nobody_listed_is_refused():
    with pytest.raises(ValueError, match="'tee': one of mitred bend 90; seven-gore"):
        fitting_k("tee")


@given(st.floats(0.5, 2.5), st.floats(0.5, 2.5))
def test_a_wider_bend_never_loses_more(one, other):
    tight, wide = sorted((one, other))
    assert smooth_bend_k(wide) <= smooth_bend_k(tight)
    assert SMOOTH_BEND_90[-1][1] <= smooth_bend_k(wide)
