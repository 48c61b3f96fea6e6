"""Words are never wider in print than the room kept for them."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

import manual
from manual import theme
from manual.drawings import svg
from manual.drawings.lettering import width_em, wrap
from manual.drawings.svg import clean

LETTERS = "".join(map(chr, range(32, 127))) + "–—−±²³°µ×′″≥≤½¼¾‘’“”…Δγ"


def _fonts():
    shipped = Path(manual.__file__).parent.rglob("*.ttf")
    return [(str(path), "Bold" in path.name) for path in sorted(shipped)]


@pytest.mark.parametrize(("name", "bold"), _fonts(), ids=lambda each: Path(str(each)).stem)
def test_no_letter_prints_wider_than_its_room(name, bold):
    """Measured with the shipped fonts; the marks are cut from the one to fall back on."""
    font = ImageFont.truetype(name, 1000)
    for letter in LETTERS:
        assert font.getlength(letter) / 1000 <= width_em(letter, bold=bold) + 1e-6, letter
    line = "RISES 0.056 m: wrong way, invert 47.906 ± 0.005"
    assert font.getlength(line) / 1000 >= 0.7 * width_em(line, bold=bold)  # nor far too wide a room


@given(st.text(max_size=80), st.floats(2, 30))
def test_wrapped_lines_fit_and_lose_no_letter(words, most):
    lines = wrap(words, most_em=most)
    assert all(width_em(line) <= most or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(clean(words).split())


def test_a_measure_is_not_broken_into_two_that_mean_less():
    """47.950 m is 157 ft and 3 13/16 in: with its fraction on the next line it reads 157' 3"."""
    lines = wrap("alarm level 47.950 m 157' 3 13/16\" down", most_em=9)
    assert "157' 3 13/16\"" in lines and any("47.950 m" in line for line in lines)
    narrow = wrap("157' 3 13/16\"", most_em=4)
    assert all(width_em(line) <= 4 for line in narrow)


def test_drawings_are_lettered_in_the_faces_of_the_manual():
    assert svg.FONT.startswith(f"'{theme.TEXT}','{theme.MARKS}',")
