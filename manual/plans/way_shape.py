"""A way out in the frame of the hull it leads from: what the cuts of it are made of."""

from __future__ import annotations

from dataclasses import dataclass

from manual.drawings.cut import Fill
from manual.drawings.svg import Point
from manual.languages import say, term
from manual.plans.cut_levels import ground_m
from manual.plans.floor import may_be_filled
from record.answers.saying import value
from record.facts.values import Absent
from record.fold import Thing
from record.place import HullFrame
from record.readers import View

ROOM_M = 2.2  # of the room before the hatch that is shown
HATCH_M = 0.05  # how thick a hatch is drawn, either way from the steel
SECTION = ("section_along", "section_across")
ALONG = ("near", "far", "ceiling", "floor")  # faces whose way out is cut along the hull


@dataclass(frozen=True, slots=True)
class Way:
    """A way out in the frame of the hull it leads from; None is "not recorded"."""

    thing: Thing
    hull: Thing
    frame: HullFrame
    face: str | None
    middle_m: Point | None  # of the shaft, along and across
    size_m: tuple[float | None, float | None]  # along and across

    @property
    def lengthwise(self) -> bool:
        """Whether it is cut along the hull; else across it."""
        return self.face is None or self.face in ALONG

    def si(self, name: str) -> float | None:
        held = self.thing.si(name)
        return None if held is None else float(held)

    def words(self, name: str) -> str:
        return value(self.thing.kind, name, self.thing.value(name))

    @property
    def inside_m(self) -> float:
        """How far the hull reaches in the direction of the cut."""
        return self.frame.length_m if self.lengthwise else self.frame.width_m

    def shaft(self, axis: int) -> tuple[float, float] | None:
        """From where to where the shaft reaches along the hull (0) or across it (1)."""
        size = self.size_m[axis]
        if self.middle_m is None or size is None:
            return None
        return self.middle_m[axis] - size / 2, self.middle_m[axis] + size / 2

    @property
    def reach(self) -> tuple[float, float] | None:
        return self.shaft(0 if self.lengthwise else 1)

    @property
    def wall_m(self) -> float | None:
        """Where the inside of the plate of its face lies in the cut; None for no upright face."""
        if self.face in ("near", "left"):
            return 0.0
        return self.inside_m if self.face in ("far", "right") else None

    @property
    def filling(self) -> Fill:
        """What stands in the shaft: fill, nothing, or nobody wrote."""
        if isinstance(self.thing.value("fill"), Absent):
            return Fill.UNKNOWN if may_be_filled(self.thing) else Fill.SHAFT
        return Fill.FILLING

    @property
    def top_m(self) -> float | None:
        """The level of the shaft's top: so far below the ground as was written."""
        ground, below = ground_m(self.hull), self.si("top_below_grade")
        return None if ground is None or below is None else ground - below


def way_of(view: View, tag: str) -> Way | None:
    thing = view.built.thing(tag)
    hull = view.built.thing(thing.text("hull")) if thing else None
    frame = view.hulls.get(hull.tag) if hull else None
    if thing is None or hull is None or frame is None:
        return None
    x, y = thing.si("x"), thing.si("y")
    middle = None
    if x is not None and y is not None:
        middle = frame.to_hull((float(x), float(y), frame.origin[2]))[:2]
    sizes = [None if (s := thing.si(n)) is None else float(s) for n in SECTION]
    return Way(thing, hull, frame, thing.text("face"), middle, (sizes[0], sizes[1]))


def titled(way: Way) -> str:
    return f"{way.thing.tag} {way.thing.text('name') or term(way.thing.kind.word)}"


def size_words(way: Way) -> str:
    return say("way.size", along=way.words(SECTION[0]), across=way.words(SECTION[1]))
