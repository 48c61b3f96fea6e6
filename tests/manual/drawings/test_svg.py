"""SVG text is well formed whatever people write, and bytes do not wander."""

import ast
import math
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import manual.drawings
from manual.drawings import svg


@given(st.text())
def test_any_words_make_well_formed_svg(words):
    element = ET.fromstring(svg.text_element("text", words, x=1.0, title=words))
    assert "<" not in (element.text or "") or "<" in words


def test_words_with_angle_brackets_stay_words():
    text = ET.fromstring(svg.text_element("text", '<b> & "co"'))
    assert text.text == '<b> & "co"' and len(text) == 0


@given(st.floats(-1e6, 1e6))
def test_a_number_is_within_half_a_hundredth_and_has_two_decimals_at_most(value):
    written = svg.number(value)
    assert abs(float(written) - value) <= 0.005 + 1e-9 * abs(value)
    assert len(written.partition(".")[2]) <= 2 and written != "-0"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_no_place_is_refused(value):
    with pytest.raises(ValueError, match="cannot place"):
        svg.number(value)


def test_drawings_know_nothing_of_the_record():
    """Numbers and words in, SVG out: of the project only this, its words, and what units are."""
    for path in Path(manual.drawings.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module.split(".")[0] in (
                "manual",
                "record",
            ):
                assert node.module.startswith(
                    ("manual.drawings", "manual.languages", "record.units")
                ), path
            if isinstance(node, ast.Import):
                assert not any(n.name.startswith(("record", "manual")) for n in node.names), path
