"""How answers say what was measured."""

import pytest

from record.answers.saying import depth, measured, value, wrapped
from record.facts import KINDS
from record.facts.values import NOT_RECORDED, Absent, Level, Part, Why
from record.units import Dimension, read_quantity


@pytest.mark.parametrize(
    ("metres", "said"),
    [
        (0.012, "12 mm (1/2 in)"),  # 0.472 in is 7.56 sixteenths
        (0.102, "102 mm (4 in)"),  # 4.016 in is 64.25 sixteenths
        (0.006, "6 mm (1/4 in)"),  # 0.236 in is 3.78 sixteenths
        (0.0, "0 mm (0 in)"),
        (1.2344, "1234 mm (48 5/8 in)"),  # 48.598 in is 777.6 sixteenths
    ],
)
def test_depths_are_in_millimetres_and_sixteenths_of_an_inch(metres, said):
    assert depth(metres) == said


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("2.40 m", "2.400 m (7' 10 1/2\")"),
        ("7' 4-1/2\"", "2.248 m (7' 4 1/2\"), written 7' 4-1/2\""),
        ("~2.40 m", "~2.400 m (7' 10 1/2\")"),
        ("2.40 m ± 5 mm", "2.400 m (7' 10 1/2\") ± 5 mm (3/16 in)"),
    ],
)
def test_a_length_is_told_in_both_systems_with_its_doubt_and_the_crews_own_words(written, said):
    """2.40 m is 94.488 in = 7 ft 10.488 in; 7 ft 4 1/2 in is 88.5 in × 25.4 = 2247.9 mm."""
    held = read_quantity(written, Dimension.LENGTH)
    assert value(KINDS["panel"], "width", held) == said


def test_a_level_names_the_part_of_the_pipe_and_its_tolerance():
    height = read_quantity("47.906 m ± 3 mm", Dimension.LENGTH)
    said = value(KINDS["station"], "level", Level(Part.CROWN, height))
    assert said == "crown 47.906 m (157' 2 1/16\") ± 3 mm (1/8 in)"


def test_a_tolerance_that_is_no_length_stays_in_the_crews_own_words():
    bearing = read_quantity("270° ± 0.5°", Dimension.ANGLE)
    assert measured(bearing, Dimension.ANGLE).endswith("written 270° ± 0.5°")
    assert value(KINDS["hull"], "bearing", bearing).count("0.5°") == 1


def test_three_kinds_of_nothing_are_told_apart():
    kind = KINDS["panel"]
    said = [
        value(kind, "width", each)
        for each in (NOT_RECORDED, Absent(Why.NONE), Absent(Why.NOT_APPLICABLE, "bare"))
    ]
    assert said == ["not recorded", "none", "n/a, bare"]


def test_a_long_text_is_wrapped_and_hangs():
    lines = list(wrapped("word " * 60))
    assert all(len(line) <= 100 for line in lines)
    assert lines[0].startswith("  word") and lines[1].startswith("    word")


@pytest.mark.parametrize(
    "measure",
    ["1.150 m", "(3' 9 1/4\")", "± 20 mm", "(11 13/16 in)", "0.610 m", "100 m³/h", "60 Pa", "2 %"],
)
def test_no_line_breaks_within_a_measure(measure):
    """However much stands before it: every place of the break is tried."""
    for before in range(60, 104):
        lines = list(wrapped(f"{'x' * before} {measure} and so on", 0, 0))
        assert any(measure in line for line in lines), (before, lines)
        assert max(map(len, lines)) <= 100
        assert " ".join(lines).replace(" ", "") == f"{'x' * before}{measure}andsoon".replace(
            " ", ""
        )
