"""How wide words come out, guessed on the wide side, and how they are broken into lines."""

import re
from collections.abc import Iterator

from manual.drawings.svg import clean

# Advance widths in em, rounded up: the widest of Atkinson Hyperlegible, its Next, DejaVu Sans.
_EM = {
    0.32: "'ijl",
    0.35: " ,.:;|’‘",
    0.4: "()-/[]\\f",
    0.45: "Irt!²³",
    0.5: '*_`°º"',
    0.55: "?Jcsz–′″",
    0.6: "FLkvxy“”",
    0.65: "$0123456789EPSTYabdeghnopqu{}µγ",
    0.7: "ABCKRVXZ",
    0.75: "NU",
    0.8: "&DGHOQØΔ",
    0.85: "#+<=>^w~±×−≥≤",
    0.9: "M",
    1.0: "%@Wm—…½¼¾",
}
_WIDTHS = {letter: width for width, letters in _EM.items() for letter in letters}
_OTHER_EM = 1.2
_BOLD = 1.17
ASCENT_EM = 0.95
HEIGHT_EM = 1.25
#: A space within a measure: before its unit, between feet and inches, before a fraction.
_WITHIN = re.compile(r"(?<=\d) (?=(?:mm?|in|ft)\b|\d+/\d)|(?<=\d') (?=\d)")
_HELD = "\xa0"  # clean words have none


def width_em(words: str, *, bold: bool = False) -> float:
    """The width of a line of words in em, never less than it prints."""
    plain = sum(_WIDTHS.get(letter, _OTHER_EM) for letter in words)
    return plain * _BOLD if bold else plain


def wrap(words: str, *, most_em: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `most_em`; a word that is too long by itself is cut.

    A measure stays on one line where it fits: half of one can be read as another.

    >>> wrap("check valve on the low end", most_em=8)
    ('check valve on', 'the low end')
    >>> wrap("steel is 4' 2 15/16\\" down", most_em=8)
    ('steel is', '4\\' 2 15/16"', 'down')
    """
    lines: list[str] = []
    held = ""
    for word in _words(clean(words), most_em, bold):
        for piece in _cut(word, most_em, bold):
            longer = f"{held} {piece}" if held else piece
            if held and width_em(longer, bold=bold) > most_em:
                lines.append(held)
                held = piece
            else:
                held = longer
    return (*lines, held) if held else tuple(lines)


def _words(words: str, most_em: float, bold: bool) -> Iterator[str]:
    for held in _WITHIN.sub(_HELD, words).split(" "):
        whole = held.replace(_HELD, " ")
        if width_em(whole, bold=bold) <= most_em:
            yield whole
        else:
            yield from whole.split(" ")


def _cut(word: str, most_em: float, bold: bool) -> list[str]:
    pieces, held = [], ""
    for letter in word:
        if held and width_em(held + letter, bold=bold) > most_em:
            pieces.append(held)
            held = ""
        held += letter
    return [*pieces, held]
