"""Samples of lines and hatches with their meaning in words, in rows across the paper."""

from collections.abc import Callable, Sequence

from manual.drawings import shapes, svg
from manual.drawings.ink import TEXT_MM, Box, Ink, gather, written
from manual.drawings.lettering import width_em, wrap
from manual.drawings.place import LINE_MM
from manual.drawings.svg import Pen
from manual.languages import say

SAMPLE_MM = 9.0
_BETWEEN_MM = 4.0
_ROW_MM = LINE_MM + 0.6
Sample = Callable[[float, float], tuple[str, ...]]  # left and middle of the sample, in mm


def stroke_of(pen: Pen) -> Sample:
    """A sample of a line."""
    return lambda x, y: (svg.line([(x, y), (x + SAMPLE_MM, y)], pen),)


def hatch_of(*angles_deg: float, pitch: float, pen: Pen = svg.PLAIN) -> Sample:
    """A sample of a hatch."""

    def draw(x: float, y: float) -> tuple[str, ...]:
        ring = shapes.box(x, y - 1.3, x + SAMPLE_MM, y + 1.3)
        hatches = (
            svg.stroke(shapes.hatch(ring, angle_deg=a, pitch=pitch), pen) for a in angles_deg
        )
        return (*hatches, svg.outline(ring, svg.FINE))

    return draw


def dot_of(fill: str) -> Sample:
    """A sample of a round mark."""
    return lambda x, y: (svg.dot(x + SAMPLE_MM / 2, y, 0.75, fill=fill),)


def legend(
    entries: Sequence[tuple[Sample, str]], *, left_mm: float, right_mm: float, top_mm: float
) -> tuple[Ink, float]:
    """The samples with their words, and the place beneath them."""
    inks: list[Ink] = []
    x, y = left_mm, top_mm
    room = (right_mm - left_mm - SAMPLE_MM - 1.5) / TEXT_MM
    for sample, words in entries:
        lines = wrap(words, most_em=room) or (say("legend.not_recorded"),)
        width = SAMPLE_MM + 1.5 + max(map(width_em, lines)) * TEXT_MM
        if x > left_mm and x + width > right_mm:
            x, y = left_mm, y + _ROW_MM
        inks.append(Ink(sample(x, y + LINE_MM / 2), _lines(lines, x, y)))
        # Words of several lines reach the right edge, so that what comes next begins below them.
        x, y = x + width + _BETWEEN_MM, y + (len(lines) - 1) * _ROW_MM
    return gather(inks), (y + _ROW_MM if entries else top_mm)


def _lines(lines: Sequence[str], x: float, y: float) -> tuple[Box, ...]:
    return tuple(
        written(line, x + SAMPLE_MM + 1.5, y + row * _ROW_MM) for row, line in enumerate(lines)
    )
