"""Where labels go so that none covers another.

Flags hang on vertical poles over (or under) a picture and climb until there is room. A spread
moves a row of things apart and keeps their order.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from manual.drawings import svg
from manual.drawings.ink import TEXT_MM, Box, Ink, gather, written
from manual.drawings.lettering import HEIGHT_EM, width_em, wrap
from manual.languages import say

GAP_MM = 1.0
POLE_MM = 0.8  # between a pole and its words
LINE_MM = HEIGHT_EM * TEXT_MM
Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Flag:
    """Words for a spot; the first line is the bold one."""

    x_mm: float
    y_mm: float  # the spot itself, where the pole ends
    head: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Sewn:
    """A flag with its words broken into lines, on one side of its pole."""

    flag: Flag
    lines: tuple[tuple[str, bool], ...]
    left_mm: float
    width_mm: float
    side: Side = "right"
    rise_mm: float = 0.0

    @property
    def height_mm(self) -> float:
        return len(self.lines) * LINE_MM

    @property
    def top_rise_mm(self) -> float:
        return self.rise_mm + self.height_mm

    def meets(self, other: "_Sewn") -> bool:
        return (
            self.left_mm < other.left_mm + other.width_mm + GAP_MM
            and other.left_mm < self.left_mm + self.width_mm + GAP_MM
        )


@dataclass(frozen=True, slots=True)
class Flags:
    """Flags that know how high they climb, before it is known where they hang."""

    sewn: tuple[_Sewn, ...]

    @property
    def height_mm(self) -> float:
        return max((each.top_rise_mm for each in self.sewn), default=0.0)

    def over(self, base_mm: float) -> Ink:
        """Flags that climb up from a base line."""
        return gather(_hung(each, base_mm, "over") for each in self.sewn)

    def under(self, base_mm: float) -> Ink:
        """Flags that hang down from a base line."""
        return gather(_hung(each, base_mm, "under") for each in self.sewn)


def flags(
    wanted: Sequence[Flag], *, left_mm: float, right_mm: float, most_mm: float = 44.0
) -> Flags:
    """Climb each flag over the ones it would cover.

    A flag flies to the right of its pole, or to the left where the paper ends. Flags are taken
    in such an order that a pole passes beside the words below it, not through them.
    """
    most = min(most_mm, right_mm - left_mm)
    rightward = [_sewn(flag, most, left_mm, right_mm, "right") for flag in wanted]
    back = _turned(wanted, rightward, most, left_mm, right_mm)
    first = sorted(back.values(), key=lambda each: each.flag.x_mm)
    then = sorted(
        (each for index, each in enumerate(rightward) if index not in back),
        key=lambda each: -each.flag.x_mm,
    )
    placed: list[_Sewn] = []
    for each in (*first, *then):
        rise = max((p.top_rise_mm + GAP_MM for p in placed if p.meets(each)), default=0.0)
        placed.append(replace(each, rise_mm=rise))
    return Flags(tuple(placed))


def column(
    wanted: Sequence[Flag], *, left_mm: float, right_mm: float, top_mm: float
) -> tuple[Ink, float]:
    """Words one under another beside a picture, each with a line to its spot; the place beneath."""
    order = sorted(wanted, key=lambda flag: flag.y_mm)
    sewn = [_sewn(flag, right_mm - left_mm, left_mm, right_mm, "right") for flag in order]
    sizes = [each.height_mm + GAP_MM for each in sewn]
    starts = [flag.y_mm - LINE_MM / 2 for flag in order]
    tops = spread(starts, sizes, least=top_mm, most=max([top_mm, *starts]) + LINE_MM)
    inks = [_beside(each, left_mm, top) for each, top in zip(sewn, tops, strict=True)]
    return gather(inks), tops[-1] + sizes[-1] if tops else top_mm


def spread(
    wanted: Sequence[float], sizes: Sequence[float], *, least: float, most: float
) -> tuple[float, ...]:
    """Starts of things of given sizes, in the order given, as near as may be to `wanted`.

    Past `most` only when they do not fit. Wanted starts must not decrease.

    >>> spread([0, 1, 9], [4, 4, 4], least=0, most=12)
    (0, 4, 8)
    """
    starts: list[float] = []
    floor = least
    for place, size in zip(wanted, sizes, strict=True):
        starts.append(max(place, floor))
        floor = starts[-1] + size
    ceiling = max(most, least + sum(sizes))
    for index in reversed(range(len(starts))):
        starts[index] = min(starts[index], ceiling - sizes[index])
        ceiling = starts[index]
    return tuple(starts)


def _sewn(flag: Flag, most: float, left: float, right: float, side: Side) -> _Sewn:
    room = (most - POLE_MM) / TEXT_MM
    bold = [(line, True) for line in wrap(flag.head, most_em=room, bold=True)]
    plain = [(line, False) for words in flag.words for line in wrap(words, most_em=room)]
    lines = (*bold, *plain) or ((say("legend.not_recorded"), True),)
    width = POLE_MM + max(width_em(line, bold=thick) * TEXT_MM for line, thick in lines)
    start = flag.x_mm if side == "right" else flag.x_mm - width
    return _Sewn(flag, lines, min(max(start, left), right - width), width, side)


def _turned(
    wanted: Sequence[Flag], rightward: Sequence[_Sewn], most: float, left: float, right: float
) -> dict[int, _Sewn]:
    """The flags that fly to the left: those without room, and those these would cover."""
    back: dict[int, _Sewn] = {}
    for index in sorted(range(len(wanted)), key=lambda i: -wanted[i].x_mm):
        x = wanted[index].x_mm
        lacks_room = x + rightward[index].width_mm > right
        covered = any(each.left_mm <= x for each in back.values())
        turned = _sewn(wanted[index], most, left, right, "left")
        if (lacks_room or covered) and x - turned.width_mm >= left:
            back[index] = turned
    return back


def _hung(each: _Sewn, base_mm: float, way: Literal["over", "under"]) -> Ink:
    top = base_mm - each.top_rise_mm if way == "over" else base_mm + each.rise_mm
    far = top if way == "over" else top + each.height_mm
    pole = svg.line([(each.flag.x_mm, far), (each.flag.x_mm, each.flag.y_mm)], svg.FINE)
    x = each.left_mm if each.side == "left" else each.left_mm + POLE_MM
    boxes: tuple[Box, ...] = tuple(
        written(words, x, top + row * LINE_MM, bold=bold, backed=True)
        for row, (words, bold) in enumerate(each.lines)
    )
    return Ink((pole, svg.dot(each.flag.x_mm, each.flag.y_mm, 0.35)), boxes)


def _beside(each: _Sewn, left_mm: float, top_mm: float) -> Ink:
    level = top_mm + LINE_MM / 2
    spot = (each.flag.x_mm, each.flag.y_mm)
    tie = svg.line([(left_mm - 0.6, level), (left_mm - 3.0, level), spot], svg.FINE)
    boxes = tuple(
        written(words, left_mm, top_mm + row * LINE_MM, bold=bold)
        for row, (words, bold) in enumerate(each.lines)
    )
    return Ink((tie, svg.dot(*spot, 0.35)), boxes)
