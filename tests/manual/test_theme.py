"""The theme: every sign we print has a glyph, and nothing needs a good printer or good eyes."""

import io
import re

import pytest

from manual import theme

PRINTED = "0123456789±×–—°′″½¼¾⅛⅜⅝⅞→←↑↓²³µ≤≥✓□☐øØ≈▲▼●■⚠·…‑−“”‘’é"


def coverage(weight: int) -> set[int]:
    from fontTools.ttLib import TTFont

    faces = [face for face in theme.FACES if face.weight == weight]
    return {
        code for face in faces
        for code in TTFont(io.BytesIO(theme.font_bytes(face))).getBestCmap()
    }  # fmt: skip


@pytest.mark.parametrize("weight", [400, 700])
def test_every_sign_the_trade_writes_has_a_glyph(weight: int) -> None:
    missing = {letter for letter in PRINTED if ord(letter) not in coverage(weight)}
    assert not missing


def test_a_letter_does_not_vanish_when_it_is_made_bold() -> None:
    assert not coverage(400) ^ coverage(700)


def test_each_font_carries_its_licence_beside_it() -> None:
    from importlib.resources import files

    folder = files("manual.theme") / "fonts"
    assert "SIL OPEN FONT LICENSE" in (folder / "AtkinsonHyperlegibleNext-OFL.txt").read_text()
    assert "Bitstream Vera Fonts Copyright" in (folder / "DejaVuSans-LICENSE.txt").read_text()
    notice = (folder / "NOTICE.txt").read_text()
    assert all(face.file in notice for face in theme.FACES)


def test_a_cut_font_keeps_no_name_that_its_licence_reserves() -> None:
    """The Vera licence: a changed font may hold neither "Bitstream" nor "Vera" in its name."""
    from fontTools.ttLib import TTFont

    for face in (face for face in theme.FACES if face.family == theme.MARKS):
        names = TTFont(io.BytesIO(theme.font_bytes(face)))["name"]
        assert {names.getDebugName(number) for number in (1, 16)} <= {theme.MARKS, None}


def luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.2, of #rgb or #rrggbb."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_contrast_sum_agrees_with_its_published_ends() -> None:
    """WCAG 2.2, "contrast ratio": ranges from 1 to 21; #767676 on white is the known 4.54."""
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def rules() -> list[str]:
    plain = re.sub(r"/\*.*?\*/", "", theme.stylesheet(), flags=re.DOTALL)
    return re.findall(r"\{([^{}]*)\}", plain)


def test_words_stand_out_seven_to_one_from_what_is_behind_them() -> None:
    """WCAG 2.2, 1.4.6 (enhanced): at least 7:1. A rule that names no ink prints black."""
    grounds = 0
    for rule in rules():
        ink = re.search(r"(?:^|[\s;])color:\s*(#\w+)", rule)
        ground = re.search(r"background:\s*(#\w+)", rule)
        grounds += bool(ground)
        assert contrast(ink[1] if ink else "#000", ground[1] if ground else "#fff") >= 7 or (
            ink and ink[1] == "#fff" and ground
        ), rule
    assert grounds >= 4


def test_lines_stand_out_three_to_one_from_the_paper() -> None:
    """WCAG 2.2, 1.4.11: at least 3:1 for graphics."""
    lines = [found for rule in rules() for found in re.findall(r"solid (#\w+)", rule)]
    assert len(lines) > 10
    assert all(contrast(line, "#fff") >= 3 for line in lines)


def test_the_four_signal_words_are_told_apart_by_their_borders() -> None:
    css = theme.stylesheet()
    thick = {
        word: float(re.search(rf"\n\.{word} {{ border-width: ([\d.]+)pt", css)[1])  # type: ignore[index]
        for word in ("danger", "warning", "caution", "notice")
    }
    assert sorted(thick, key=lambda word: -thick[word]) == [
        "danger",
        "warning",
        "caution",
        "notice",
    ]
    assert len(set(thick.values())) == 4


def test_nothing_is_set_in_italics_or_turned_to_capitals() -> None:
    assert not re.findall(r"italic|oblique|uppercase", theme.stylesheet())


def test_the_title_is_escaped_and_the_body_is_not() -> None:
    html = theme.page("<p>a</p>", title="a < b", lang="fr")
    assert "<title>a &lt; b</title>" in html
    assert "<body>\n<main>\n<p>a</p>\n</main>\n</body>" in html
    assert '<html lang="fr">' in html
    assert "<style>" not in html


def test_no_line_of_a_page_ends_within_a_measure():
    said = theme.page("<p>0.150 m (5 7/8 in)</p><svg><text>5 m</text></svg>", title="x", lang="en")
    assert "<p>0.150\xa0m (5\xa07/8\xa0in)</p><svg><text>5 m</text></svg>" in said
