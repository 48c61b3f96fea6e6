"""Typographic look-alikes made plain for reading, with the way back to the text as written."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

_PLAIN = {
    **dict.fromkeys("′’‘ʹ´`‛", "'"),
    **dict.fromkeys("″”“„ʺ‟", '"'),
    **dict.fromkeys("−‐‑‒–﹣-", "-"),
    **dict.fromkeys("\u00a0\u2009\u202f\u2007\u2002\u2003\u200a\t", " "),
    **dict.fromkeys("∼～≈", "~"),
    "⁄": "/",
    "∕": "/",
    "∶": ":",
    "º": "°",
    "˚": "°",
    "℃": "°C",
    "℉": "°F",
}
_VULGAR = {
    **{"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"},
    **{"⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6"},
}


_TO_FOLD = re.compile("[" + re.escape("".join((*_PLAIN, *_VULGAR))) + "]")


@dataclass(frozen=True, slots=True)
class Folded:
    """Plain text for reading, and for each of its characters the place it came from."""

    text: str
    origin: Sequence[int]  # one longer than text: the last is the end of the original

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return the stretch of the original that plain ``start`` to ``end`` came from."""
        first = self.origin[start]
        return first, max(self.origin[end - 1] + 1, first) if end > start else first


def fold(original: str) -> Folded:
    r"""Return ``original`` in plain characters.

    >>> fold("7′\N{NO-BREAK SPACE}4½″").text
    '7\' 4 1/2"'
    """
    if not _TO_FOLD.search(original):  # as nearly every cell: nothing moves
        return Folded(original, range(len(original) + 1))
    text: list[str] = []
    origin: list[int] = []
    for place, character in enumerate(original):
        plain = _PLAIN.get(character, character)
        if character in _VULGAR:
            plain = _VULGAR[character]
            if text and text[-1].isdigit():
                plain = " " + plain
        text.extend(plain)
        origin.extend([place] * len(plain))
    return Folded("".join(text), (*origin, len(original)))
