"""The elevation of a panel: what is behind it, with distances from its left and bottom edges."""

import itertools
import math
from collections.abc import Sequence

from manual.drawings import scale, shapes
from manual.drawings.ink import (
    Box,
    Drawing,
    Ink,
    finished,
    gather,
    paragraph,
    written,
)
from manual.drawings.legend import Sample, hatch_of, legend, stroke_of
from manual.drawings.panel import Band, Behind, PanelElevation, Region, Shape
from manual.drawings.panel_marks import (
    CERTAIN,
    HATCH,
    MAY_REACH,
    RECORDED,
    RESERVED_ANGLES,
    RESERVED_PITCH,
    THING_ANGLES,
    THING_PITCH,
    UNKNOWN_ANGLES,
    UNKNOWN_PITCH,
    UNPROVEN,
    Face,
    panel_marks,
    ring,
)
from manual.drawings.panel_words import (
    further,
    not_recorded,
    nothing,
    panel_words,
    reserved,
    within,
)
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import Flag, column, flags
from manual.drawings.shapes import Ring
from manual.drawings.svg import Point
from manual.drawings.tape import STRIP_MM, along_bottom, along_left, extensions, tape_marks
from manual.languages import say

_LEFT_MM = EDGE_MM + STRIP_MM + 2.0
_COLUMN_MM = 112.0  # where the words begin beside a narrow panel
_GAP_MM = 3.0


def panel_elevation(panel: PanelElevation) -> Drawing:
    """Draw a panel, with the distances of a tape in both systems.

    Words stand in a column beside a panel that is higher than wide, and on poles over others.
    """
    wide = panel.width_m > panel.height_m
    right = WIDTH_MM - EDGE_MM if wide else _COLUMN_MM - 8.0
    room, most_high = right - _LEFT_MM, 100.0 if wide else 125.0
    n = max(scale.round_scale(panel.width_m, room), scale.round_scale(panel.height_m, most_high))
    head, top = _head(panel, n)
    inner, callouts = _placed(panel, _face(panel, n, 0.0))
    flown = (
        flags(callouts, left_mm=EDGE_MM, right_mm=right)
        if wide
        else flags((), left_mm=0, right_mm=1)
    )
    face = _face(panel, n, top + flown.height_mm + _GAP_MM + 2.0)
    inner, callouts = _placed(panel, face)
    body, bottom = _around(panel, face, callouts, right, wide)
    foot, y = _foot(panel, bottom)
    return finished(
        gather((Ink(panel_marks(panel, face), ()), body, Ink((), tuple(inner)), head, foot)),
        title=say("panel.what_is_behind_it", name=panel.name),
        alt=panel_words(panel),
        width_mm=WIDTH_MM,
        height_mm=y + EDGE_MM,
    )


def _face(panel: PanelElevation, n: int, top_mm: float) -> Face:
    return Face(_LEFT_MM, top_mm, n, panel.width_m, panel.height_m, panel.downward)


def _head(panel: PanelElevation, n: int) -> tuple[Ink, float]:
    how = say(
        "panel.scale_1_distances_from",
        seen_from=panel.seen_from,
        n=n,
        left_edge=panel.left_edge,
        bottom_edge=panel.bottom_edge,
    )
    return headed(panel.name, how[:1].upper() + how[1:])


def _around(
    panel: PanelElevation,
    face: Face,
    callouts: Sequence[Flag],
    right_mm: float,
    wide: bool,
) -> tuple[Ink, float]:
    left, low = along_left(panel, face)
    under = along_bottom(panel, face, right_mm=right_mm)
    base = face.bottom_mm + _GAP_MM
    if wide:
        words = flags(callouts, left_mm=EDGE_MM, right_mm=right_mm).over(face.top_mm - _GAP_MM)
        end = face.top_mm
    else:
        words, end = column(
            callouts, left_mm=_COLUMN_MM, right_mm=WIDTH_MM - EDGE_MM, top_mm=face.top_mm - 1.0
        )
    ink = gather((extensions(tape_marks(panel), face), left, under.under(base), words))
    return ink, max(low, base + under.height_mm, end)


def _placed(panel: PanelElevation, face: Face) -> tuple[list[Box], list[Flag]]:
    """Words that fit into their zones, and the rest as flags."""
    inner: list[Box] = []
    callouts = [
        Flag((face.x(s.from_u_m) + face.x(s.to_u_m)) / 2, face.top_mm, s.tag) for s in panel.panels
    ]
    for head, region in (
        *((reserved(), region) for region in panel.reserved),
        *((not_recorded(), region) for region in panel.unknown),
    ):
        spot = _inside(panel, face, head, region, inner)
        if spot is not None:
            inner.append(spot)
        if spot is None or region.words:
            callouts.append(_flag(face, region.area, head, (region.words,)))
    callouts += [_thing_flag(face, thing, panel.brief) for thing in panel.things]
    return inner, callouts


def _inside(
    panel: PanelElevation, face: Face, head: str, region: Region, taken: Sequence[Box]
) -> Box | None:
    """Words in the middle of a zone, or near its top or foot, clear of all that is drawn."""
    shape = ring(face, region.area)
    if not shape:
        return None
    left, top, right, bottom = shapes.box_of(shape)
    for y in ((top + bottom) / 2 - 1.75, top + 1.0, bottom - 4.5):
        box = written(head, (left + right) / 2, y, anchor="middle", bold=True, backed=True)
        across = box.x_mm - 1 > left and box.right_mm + 1 < right
        down = box.y_mm > top + 0.5 and box.bottom_mm < bottom - 0.5
        drawn = (*taken, *_drawn(panel, face))
        if across and down and not any(box.overlaps(other, gap_mm=1.0) for other in drawn):
            return box
    return None


def _drawn(panel: PanelElevation, face: Face) -> list[Box]:
    """The room that things take on paper, tolerance and all."""
    rings = [ring(face, thing.shape, thing.tolerance_m or 0.0) for thing in panel.things]
    return [
        Box(left, top, right - left, bottom - top, "")
        for left, top, right, bottom in (shapes.box_of(each) for each in rings if each)
    ]


def _thing_flag(face: Face, thing: Behind, brief: bool) -> Flag:
    whole = (thing.words, thing.depth_words, within(thing), thing.basis_words)
    return _flag(face, thing.shape, thing.tag, (thing.depth_words,) if brief else whole)


def _flag(face: Face, shape: Shape, head: str, words: tuple[str, ...]) -> Flag:
    seen = ring(face, shape)
    if not seen:
        return Flag(face.right_mm, face.bottom_mm, head, (*words, say("panel.not_on_this_panel")))
    x, y = _middle(face, shape, seen)
    return Flag(x, y, head, words)


def _middle(face: Face, shape: Shape, seen: Ring) -> Point:
    """A spot on the part that is seen: the middle, for a band that of its longest length."""
    ends = shapes.box_of(seen)
    if isinstance(shape, Band):
        path = shapes.cut_line(shape.points_m, (0.0, 0.0, face.width_m, face.height_m))
        pair = max(itertools.pairwise(path), key=lambda ab: math.dist(*ab), default=None)
        if pair is not None:
            (u0, v0), (u1, v1) = pair
            return face.x((u0 + u1) / 2), face.y((v0 + v1) / 2)
    return (ends[0] + ends[2]) / 2, (ends[1] + ends[3]) / 2


def _foot(panel: PanelElevation, y: float) -> tuple[Ink, float]:
    samples, y = legend(
        _samples(panel), left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM, top_mm=y + 2.0
    )
    words, y = paragraph(
        [*nothing(panel), further(), *panel.notes], EDGE_MM, y + 1.0, width_mm=ROOM_MM
    )
    return samples + words, y


def _samples(panel: PanelElevation) -> list[tuple[Sample, str]]:
    proven = any(thing.tolerance_m is not None for thing in panel.things)
    certain = any(t.certain for t in panel.things if t.tolerance_m is not None)
    unproven = any(thing.tolerance_m is None for thing in panel.things)
    said: list[tuple[Sample, str, bool]] = [
        (stroke_of(RECORDED), say("panel.recorded_outline"), proven),
        (stroke_of(MAY_REACH), say("panel.may_reach_this_far"), proven),
        (stroke_of(CERTAIN), say("panel.certainly_there"), certain),
        (stroke_of(UNPROVEN), say("panel.recorded_may_reach_further"), unproven),
        (
            hatch_of(*THING_ANGLES, pitch=THING_PITCH, pen=HATCH),
            say("panel.thing_behind"),
            bool(panel.things),
        ),
        (
            hatch_of(*RESERVED_ANGLES, pitch=RESERVED_PITCH, pen=HATCH),
            reserved(),
            bool(panel.reserved),
        ),
        (
            hatch_of(*UNKNOWN_ANGLES, pitch=UNKNOWN_PITCH, pen=HATCH),
            say("panel.nobody_recorded_what_is"),
            bool(panel.unknown),
        ),
    ]
    return [(sample, words) for sample, words, shown in said if shown]
