"""A cut through the ground: plain values, and the same in words.

``u`` is metres across the picture, to the right; levels are metres on the site datum.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from manual.drawings.svg import Point
from manual.languages import say


class Fill(StrEnum):
    """What fills an area; each has a hatch of its own."""

    ROOM = "room"
    STEEL = "steel"
    LINING = "lining"
    OUTSIDE = "outside"  # tar, foam, wrap and the like on the steel
    EARTH = "earth"
    SHAFT = "shaft"  # open
    FILLING = "filling"  # what stands in a way out
    HEAP = "heap"  # where that would lie once it has run
    VOID = "void"
    STORE = "store"
    PIPE = "pipe"
    OPENING = "opening"
    RESERVED = "reserved"
    UNKNOWN = "unknown"


class Mark(StrEnum):
    """What a level marks."""

    PLAIN = "plain"
    GROUND = "ground"
    WATER = "water"
    LIMIT = "limit"


@dataclass(frozen=True, slots=True)
class Area:
    fill: Fill
    ring_m: tuple[Point, ...]
    whole: bool = True  # its edge is recorded all round; else it is broken


@dataclass(frozen=True, slots=True)
class Call:
    """Words beside the picture, with a line to a spot in it."""

    at_m: Point
    head: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LevelMark:
    """A level with its words; its line is drawn from ``from_m`` to ``to_m``, or all across."""

    level_m: float
    mark: Mark
    words: tuple[str, ...]
    from_m: float | None = None
    to_m: float | None = None


@dataclass(frozen=True, slots=True)
class Rise:
    """An upright measure with an arrow at both ends."""

    u_m: float
    from_m: float
    to_m: float


@dataclass(frozen=True, slots=True)
class Width:
    """A level measure under the picture."""

    from_m: float
    to_m: float
    words: str


@dataclass(frozen=True, slots=True)
class Arrow:
    """Which way something moves, from a spot to another."""

    start_m: Point
    end_m: Point


@dataclass(frozen=True, slots=True)
class Break:
    """Where something goes on that the picture does not show, from a level to another."""

    u_m: float
    from_m: float
    to_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Everything of one cut; heights and widths are at one scale."""

    name: str
    seen: str
    areas: tuple[Area, ...]
    calls: tuple[Call, ...] = ()
    levels: tuple[LevelMark, ...] = ()
    rises: tuple[Rise, ...] = ()
    widths: tuple[Width, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    breaks: tuple[Break, ...] = ()
    notes: tuple[str, ...] = ()
    plan: bool = False  # from above: ``u`` and, upward, what is written as a level


def fill_words() -> Mapping[Fill, str]:
    return {fill: say(f"cut.is_{fill.value}") for fill in Fill}


def cut_words(cut: Cut) -> str:
    """The alt text: levels from the top down, what is called out, widths, notes."""
    return " ".join(_sentences(cut))


def _sentences(cut: Cut) -> Iterator[str]:
    yield say("cut.cut_through", name=cut.name, seen=cut.seen)
    for level in sorted(cut.levels, key=lambda level: -level.level_m):
        yield f"{', '.join(level.words)}."
    for call in cut.calls:
        yield f"{': '.join(filter(None, (call.head, ', '.join(call.words))))}."
    yield from (f"{width.words}." for width in cut.widths)
    yield from cut.notes
