"""The fall of each length, as dimension lines under a profile."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from manual.drawings import shapes, svg
from manual.drawings.ink import TEXT_MM, Ink, gather, written
from manual.drawings.lettering import width_em, wrap
from manual.drawings.place import LINE_MM
from manual.drawings.section import Fall
from manual.drawings.section_profile import LEFT_MM, RIGHT_MM
from manual.languages import say

_BAR_MM = 2.0
_GAP_MM = 1.2


@dataclass(frozen=True, slots=True)
class _Length:
    fall: Fall
    start_mm: float
    end_mm: float
    lines: tuple[str, ...]
    words_mm: float  # the middle of the words

    def room(self) -> tuple[float, float]:
        half = max(width_em(line, bold=True) for line in self.lines) * TEXT_MM / 2
        left, right = self.words_mm - half - 0.7, self.words_mm + half + 0.7
        return min(self.start_mm, left), max(self.end_mm, right)

    def height(self) -> float:
        return _BAR_MM + len(self.lines) * LINE_MM + _GAP_MM


def falls(
    lengths: Sequence[Fall], *, x: Callable[[float], float], top_mm: float
) -> tuple[Ink, float]:
    """Every length with its words under it, in as many rows as it takes; the place beneath."""
    placed: list[tuple[float, float, float]] = []  # left, right, bottom
    inks = []
    for each in sorted(
        (_length(fall, x) for fall in lengths), key=lambda e: (e.start_mm, e.end_mm)
    ):
        left, right = each.room()
        under = (bottom for a, b, bottom in placed if a < right - 0.01 and left < b - 0.01)
        top = max(under, default=top_mm)
        placed.append((left, right, top + each.height()))
        inks.append(_drawn(each, top))
    return gather(inks), max((bottom for _, _, bottom in placed), default=top_mm)


def _length(fall: Fall, x: Callable[[float], float]) -> _Length:
    start, end = sorted((x(fall.from_m), x(fall.to_m)))
    lines = wrap(fall.words, most_em=60.0 / TEXT_MM, bold=True) or (
        say("section.fall_not_recorded"),
    )
    half = max(width_em(line, bold=True) for line in lines) * TEXT_MM / 2
    middle = min(max((start + end) / 2, LEFT_MM + half), RIGHT_MM - half)
    return _Length(fall, start, end, lines, middle)


def _drawn(each: _Length, top: float) -> Ink:
    y = top + _BAR_MM / 2
    marks = [
        svg.line([(each.start_mm, y), (each.end_mm, y)], svg.PLAIN),
        *(
            svg.line([(at, top), (at, top + _BAR_MM)], svg.EDGE)
            for at in (each.start_mm, each.end_mm)
        ),
    ]
    if each.fall.wrong_way:
        bar = shapes.box(each.start_mm, top, each.end_mm, top + _BAR_MM)
        marks += [
            svg.stroke(shapes.hatch(bar, angle_deg=a, pitch=1.1), svg.PLAIN) for a in (45, -45)
        ]
    words = tuple(
        written(
            line,
            each.words_mm,
            top + _BAR_MM + row * LINE_MM,
            anchor="middle",
            bold=each.fall.wrong_way,
            backed=True,
        )
        for row, line in enumerate(each.lines)
    )
    return Ink(tuple(marks), words)
