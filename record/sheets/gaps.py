"""A printed form that came back: gaps that nobody filled, and words that a hint would hide."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.sheets.faults import SheetFault
from record.sheets.hints import OPEN, SHUT
from record.sheets.lines import Piece, SheetText

GAP = "____"
_GAP = re.compile("_{4,}")


def has_gap(text: str) -> bool:
    """Return whether words hold a gap: they are no value, and are told of as a gap alone."""
    return GAP in text


def form_faults(text: SheetText) -> Iterator[SheetFault]:
    """Yield a fault for each gap that was not filled, and for each hint that hides something."""
    for number, plain in enumerate(text.plain, start=1):
        for gap in _GAP.finditer(plain):
            yield text.fault(
                Piece(gap[0], number, gap.start() + 1),
                "this gap was not filled",
                'Write the value, or "not recorded"; a line or row you do not need is taken out.',
            )
        if plain.strip() and _begins_hidden(text.lines[number - 1], plain):
            yield text.fault(
                Piece(plain, number, 1).stripped(),
                "this stands behind a hint, on the same line",
                "Give it a line of its own; a hint stands alone or comes last.",
            )
    if text.open_hint:
        line = text.lines[text.open_hint - 1]
        yield text.fault(
            Piece(line[line.rindex(OPEN) :], text.open_hint, line.rindex(OPEN) + 1),
            "this hint has no end, so that nothing after it would be read",
            f'Write "{SHUT}" where it ends.',
        )


def _begins_hidden(line: str, plain: str) -> bool:
    first = len(plain) - len(plain.lstrip())
    return bool(line[:first].strip())
