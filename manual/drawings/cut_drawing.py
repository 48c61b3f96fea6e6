"""A cut on paper: levels at its left, what is what at its right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from manual.drawings import scale, shapes, svg
from manual.drawings.cut import Cut, Fill, LevelMark, Mark, Width, cut_words, fill_words
from manual.drawings.cut_marks import (
    LINES,
    Frame,
    area_marks,
    break_marks,
    break_sample,
    extent,
    filled,
    level_line,
    rise_marks,
    tip,
)
from manual.drawings.ink import (
    TEXT_MM,
    Drawing,
    Ink,
    finished,
    gather,
    paragraph,
    written,
)
from manual.drawings.legend import SAMPLE_MM, Sample, legend
from manual.drawings.lettering import width_em, wrap
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import LINE_MM, Flag, column, spread
from manual.languages import say

LEFT_MM = 38.0  # for levels
RIGHT_MM = 48.0  # for what is called out
MOST_HIGH_MM = 118.0
_ELBOW_MM = 4.0


def cut_drawing(cut: Cut) -> Drawing:
    """Draw it at the largest round scale at which it fits."""
    left, low, right, high = extent(cut)
    room = ROOM_MM - LEFT_MM - RIGHT_MM
    n = max(scale.round_scale(right - left, room), scale.round_scale(high - low, MOST_HIGH_MM))
    head, y = _head(cut, n)
    wide = (right - left) * 1000 / n
    start = EDGE_MM + LEFT_MM + (room - wide) / 2
    frame = Frame(left, high, n, start, y + 3.0, wide, (high - low) * 1000 / n)
    levels, under_levels = _levels(cut.levels, frame)
    flags = [Flag(*frame.at(call.at_m), call.head, call.words) for call in cut.calls]
    calls, under_calls = column(
        flags,
        left_mm=WIDTH_MM - EDGE_MM - RIGHT_MM + 4.0,
        right_mm=WIDTH_MM - EDGE_MM,
        top_mm=frame.top_mm - 2.0,
    )
    widths, under_widths = _widths(cut.widths, frame)
    y = max(under_levels, under_calls, under_widths)
    foot, y = _foot(cut, y + 2.0)
    ink = gather((Ink(tuple(_marks(cut, frame))), levels, widths, calls, head, foot))
    return finished(
        ink, title=cut.name, alt=cut_words(cut), width_mm=WIDTH_MM, height_mm=y + EDGE_MM
    )


def _marks(cut: Cut, frame: Frame) -> Iterator[str]:
    ground = [area for area in cut.areas if area.fill is Fill.EARTH]
    for area in ground:
        yield from area_marks(area, frame)
    for level in cut.levels:  # under the steel: a water mark must not read as water in a room
        yield from level_line(level, frame)
    for area in cut.areas:
        if area not in ground:
            yield from area_marks(area, frame)
    for each in cut.breaks:
        yield from break_marks(each, frame)
    for rise in cut.rises:
        yield from rise_marks(rise, frame)
    for arrow in cut.arrows:
        start, end = frame.at(arrow.start_m), frame.at(arrow.end_m)
        yield svg.line([start, end], svg.HEAVY)
        yield tip(start, end, size=3.2)


def _head(cut: Cut, n: int) -> tuple[Ink, float]:
    scaled = (
        say("cut.plan_scale_1", n=n, seen=cut.seen)
        if cut.plan
        else say("cut.scale_1", n=n, seen=cut.seen)
    )
    return headed(cut.name, scaled)


def _levels(levels: Sequence[LevelMark], frame: Frame) -> tuple[Ink, float]:
    """Levels with their words, one under another, each with a line to where it is."""
    order = sorted(levels, key=lambda level: -level.level_m)
    room = (LEFT_MM - _ELBOW_MM - 1.0) / TEXT_MM
    sewn = [_sewn(level.words, room) for level in order]
    sizes = [len(lines) * LINE_MM + 0.7 for lines in sewn]
    wanted = [frame.y(level.level_m) - LINE_MM / 2 for level in order]
    most = frame.top_mm + frame.height_mm + LINE_MM
    tops = spread(wanted, sizes, least=frame.top_mm - LINE_MM / 2, most=most)
    inks = []
    for level, lines, top in zip(order, sewn, tops, strict=True):
        at, y = top + LINE_MM / 2, frame.y(level.level_m)
        begin = EDGE_MM + LEFT_MM - _ELBOW_MM
        tie = [(begin + 0.4, at), (begin + 1.4, at), (frame.left_mm - 1.2, y), (frame.left_mm, y)]
        boxes = tuple(
            written(words, begin, top + k * LINE_MM, anchor="end", bold=bold)
            for k, (words, bold) in enumerate(lines)
        )
        inks.append(Ink((svg.line(tie, svg.FINE),), boxes))
    return gather(inks), tops[-1] + sizes[-1] if tops else most


def _sewn(words: Sequence[str], room: float) -> list[tuple[str, bool]]:
    head = [(line, True) for line in wrap(words[0] if words else "", most_em=room, bold=True)]
    rest = [(line, False) for each in words[1:] for line in wrap(each, most_em=room)]
    return head + rest or [(say("legend.not_recorded"), True)]


def _widths(widths: Sequence[Width], frame: Frame) -> tuple[Ink, float]:
    """Measures across, a row each under the picture."""
    y = frame.top_mm + frame.height_mm + 2.0
    inks = []
    for width in widths:
        x0, x1 = frame.x(width.from_m), frame.x(width.to_m)
        most = (ROOM_MM - LEFT_MM - RIGHT_MM) / TEXT_MM
        lines = wrap(width.words, most_em=most)
        half = max((width_em(line) * TEXT_MM / 2 for line in lines), default=0.0)
        low = EDGE_MM + LEFT_MM + half
        middle = max(low, min((x0 + x1) / 2, WIDTH_MM - EDGE_MM - RIGHT_MM - half))
        marks = (
            svg.line([(x0, y), (x1, y)], svg.PLAIN),
            tip((x1, y), (x0, y)),
            tip((x0, y), (x1, y)),
        )
        boxes = tuple(
            written(line, middle, y + 0.8 + k * LINE_MM, anchor="middle", backed=True)
            for k, line in enumerate(lines)
        )
        inks.append(Ink(marks, boxes))
        y += 0.8 + len(lines) * LINE_MM + 1.6
    return gather(inks), y


def _foot(cut: Cut, y: float) -> tuple[Ink, float]:
    samples, y = legend(
        list(_samples(cut)), left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM, top_mm=y + 1.0
    )
    words, y = paragraph(list(cut.notes), EDGE_MM, y + 1.0, width_mm=ROOM_MM)
    return samples + words, y


def _samples(cut: Cut) -> Iterator[tuple[Sample, str]]:
    words = fill_words()
    for fill in Fill:
        if any(area.fill is fill for area in cut.areas):
            yield _sample_of(fill), words[fill]
    for mark in (Mark.GROUND, Mark.WATER, Mark.LIMIT):
        if any(level.mark is mark for level in cut.levels):
            yield _line_of(mark), say(f"cut.mark_{mark.value}")
    if cut.breaks:
        yield lambda x, y: (break_sample(x, y),), say("cut.goes_on")
    if any(not area.whole and area.fill is not Fill.EARTH for area in cut.areas):
        yield _broken, say("cut.edge_not_recorded")


def _sample_of(fill: Fill) -> Sample:
    return lambda x, y: tuple(filled(fill, shapes.box(x, y - 1.4, x + SAMPLE_MM, y + 1.4)))


def _line_of(mark: Mark) -> Sample:
    return lambda x, y: (svg.line([(x, y), (x + SAMPLE_MM, y)], LINES[mark]),)


def _broken(x: float, y: float) -> tuple[str, ...]:
    return (svg.outline(shapes.box(x, y - 1.4, x + SAMPLE_MM, y + 1.4), svg.DASHED),)
