"""Where a covering goes, and what of each recorded shape lies there, with how sure that is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from record.calc.combine import root_sum_square
from record.checks.hidden import Hidden
from record.entry import Entry
from record.fold import Thing
from record.place import FaceFrame, Shape, face_frame, outline
from record.place.apart import Footprint, apart_m, footprint, indoors, levels_apart_m
from record.place.frames import LINING_NOT_KNOWN_M
from record.place.solids import ANY_M

EARTH = ("backfill", "fill")
COATS = ("foam", "tar", "wrap")
BOARDS = ("lining", "board")
#: What stands or hangs in a room, where nobody wrote how big it is.
IN_A_ROOM = ("store", "fit-out", "equipment", "concealed entry")
#: How far a trench or a pit is open beside and below what lies in it: room for one person to work,
#: common practice, no source. A coat reaches as far round what it is put on.
BESIDE_M, BENEATH_M, COAT_M = 0.60, 0.30, 0.10


@dataclass(frozen=True, slots=True)
class Lies:
    """How a shape lies where the covering goes: by its tolerance, as recorded, or for certain."""

    words: str
    recorded: bool
    certain: bool
    entries: tuple[Entry, ...]

    @property
    def rank(self) -> int:
        return self.recorded + self.certain


def lies_in(hidden: Hidden) -> Iterator[tuple[Shape, Lies]]:
    """
    Yield each shape that lies, or by its tolerance may lie, where the covering goes.

    Earth goes round and over what it names, from a little below it to the surface, but into no
    room; a coat as far round it as it reaches; boards over what is behind their panels.
    """
    what = hidden.covering.text("what")
    if what in BOARDS:
        yield from _behind(hidden)
    elif what in EARTH or what in COATS:
        yield from _round(hidden, earth=what in EARTH)


def zones_round(hidden: Hidden, *, earth: bool) -> Iterator[Footprint]:
    """Yield where earth, or a coat, goes round each shape that a covering names."""
    return (zone for zone, _ in _zones(hidden, earth=earth))


def _zones(hidden: Hidden, *, earth: bool) -> Iterator[tuple[Footprint, Shape]]:
    named = set(hidden.named)
    for shape in hidden.view.shapes:
        if shape.thing.tag in named:
            yield _zone(footprint(shape, hidden.view.hulls), earth=earth), shape


def _round(hidden: Hidden, *, earth: bool) -> Iterator[tuple[Shape, Lies]]:
    hulls, named = hidden.view.hulls, set(hidden.named)
    zones = [*_zones(hidden, earth=earth)]
    boxes = [zone.box() for zone, _ in zones]
    for shape in hidden.view.shapes if zones else ():
        if shape.thing.tag in named:
            continue
        foot = footprint(shape, hulls)
        x0, y0, x1, y1 = foot.box()
        for (zone, of), (a0, b0, a1, b1) in zip(zones, boxes, strict=True):
            if x0 <= a1 and a0 <= x1 and y0 <= b1 and b0 <= y1:
                lies = _lies(foot, zone, f"round {of.thing.tag}", shape)
                inside = shape.thing.kind.word in IN_A_ROOM
                if lies and not (earth and indoors(shape, hulls, touching=inside)):
                    yield shape, lies


def _zone(of: Footprint, *, earth: bool) -> Footprint:
    if earth:
        return of.grown(BESIDE_M, down_m=BENEATH_M, up_to_m=ANY_M)
    return of.grown(COAT_M, down_m=COAT_M, up_to_m=of.high_m + COAT_M)


def _lies(foot: Footprint, zone: Footprint, where: str, shape: Shape) -> Lies | None:
    across = root_sum_square(foot.across_m, zone.across_m)
    up = root_sum_square(foot.up_m, zone.up_m)
    beside, above = apart_m(foot, zone), levels_apart_m(foot, zone)
    if beside > across or above > up:
        return None
    recorded = beside <= 0 and above <= 0
    sure = recorded and beside + across <= 0 and above + up <= 0
    off = max(beside, above, 0.0)
    far = "" if recorded else f" (recorded {off * 1000:.0f} mm outside, within its tolerance)"
    return Lies(f"{shape.words}: lies{far} {where}, in the way of", recorded, sure, shape.entries)


def _behind(hidden: Hidden) -> Iterator[tuple[Shape, Lies]]:
    hulls, named = hidden.view.hulls, set(hidden.named)
    for panel, frame in panels(hidden):
        reach = frame.lining_m or LINING_NOT_KNOWN_M
        for shape in hidden.view.shapes:
            if shape.thing.tag in named or shape.thing.kind.word == "hull":
                continue
            seen = outline(shape, frame, reach, hulls)
            if seen is None:
                continue
            u0, v0, u1, v1 = seen.recorded
            recorded = u0 < frame.width_m and v0 < frame.height_m and u1 > 0 and v1 > 0
            recorded = recorded and seen.depth[0] < reach
            sure = recorded and seen.certain is not None
            words = f"{shape.words}: lies behind panel {panel.tag}"
            if not recorded:
                words += " by its tolerance"
            yield shape, Lies(f"{words}, in the way of", recorded, sure, shape.entries)


def panels(hidden: Hidden) -> Iterator[tuple[Thing, FaceFrame]]:
    """
    Yield the panels a covering of boards puts on.

    They are those it says, or hides; where it says none, those that something it names lies
    behind as recorded.
    """
    hulls = hidden.view.hulls
    said = {*hidden.covering.tags("panels"), *hidden.named}
    framed = [
        (panel, frame)
        for panel in hidden.built.of_kind("panel")
        if (hull := hulls.get(panel.text("hull") or "")) and (frame := face_frame(panel, hull))
    ]
    own = [pair for pair in framed if pair[0].tag in said]
    if own:
        yield from own
        return
    shapes = [shape for shape in hidden.view.shapes if shape.thing.tag in said]
    for panel, frame in framed:
        reach = frame.lining_m or LINING_NOT_KNOWN_M
        exact = [replace(shape, horizontal_m=0.0, vertical_m=0.0) for shape in shapes]
        if any(outline(shape, frame, reach, hulls) for shape in exact):
            yield panel, frame
