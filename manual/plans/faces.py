"""A whole wall, floor or ceiling of a hull → the plain values of its elevation."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manual.drawings import panel
from manual.languages import say, term
from manual.plans.elevations import DRAWN, drawn_items, thing_of
from manual.plans.hull_cut import FACES, whole_face
from manual.plans.reuse import panel_answer
from manual.plans.walls import corner
from record.answers.behind_panel import REACH_M
from record.answers.items import items_behind
from record.answers.saying import length
from record.fold import Thing
from record.place import FaceFrame, HullFrame, face_frame
from record.place.frames import TURNS, face_size
from record.readers import View

Shift = tuple[float, float]


def face_elevation(view: View, tag: str, face: str) -> panel.PanelElevation | None:
    """
    Return the elevation of a face, its panels and what is behind them, or None without a frame.

    Distances are from the inside of the steel at its edge, and upright from the walking floor.
    """
    hull = view.hulls.get(tag)
    if hull is None or view.built.thing(tag) is None:
        return None
    frames = dict(_panels(view, hull, face))
    width, height = face_size(hull, face)
    low = _floor_up(hull, face)
    return panel.PanelElevation(
        name=say("face.name", tag=tag, face=term(face)),
        width_m=width,
        height_m=height - low,
        left_edge=say(f"face.left.{face}"),
        bottom_edge=say("face.floor") if face in UPRIGHT else say("face.left_wall"),
        downward=face == "floor",
        things=tuple(_things(view, hull, face, frames, low)),
        reserved=tuple(_reserved(view, hull, face, frames, low)),
        panels=tuple(_seams(frames)),
        brief=bool(frames),
        notes=tuple(_notes(view, hull, face, frames)),
    )


UPRIGHT = ("left", "right", "near", "far")


def _floor_up(hull: HullFrame, face: str) -> float:
    """How far the walking floor is above the floor plate, where the face stands on it."""
    return hull.walking_floor_m - hull.origin[2] if face in UPRIGHT else 0.0


def _curved(hull: HullFrame, face: str) -> bool:
    return hull.round and face in TURNS


def _panels(view: View, hull: HullFrame, face: str) -> Iterator[tuple[str, FaceFrame]]:
    for each in view.built.of_kind("panel"):
        if each.text("hull") == hull.tag and each.text("face") == face:
            frame = face_frame(each, hull)
            if frame is not None:
                yield each.tag, frame


def _things(
    view: View, hull: HullFrame, face: str, frames: dict[str, FaceFrame], low: float
) -> Iterator[panel.Behind]:
    """Yield what is behind each panel, once; of a face without panels what is within reach."""
    if _curved(hull, face):
        return
    met: set[tuple[str, str]] = set()
    for tag, frame in frames.items():
        answer = panel_answer(view, tag)
        u, v = corner(frame)
        for item in drawn_items(answer):
            if (item.tag, item.words) not in met:
                met.add((item.tag, item.words))
                yield shifted(thing_of(item, answer), (u, v - low))
    if not frames:
        whole = whole_face(hull, face)
        for _, item in items_behind(view, whole, REACH_M, whole):
            if item.kind in DRAWN and not item.missing and item.depth.to_m > 0:
                yield shifted(thing_of(item), (0.0, -low))


def shifted(thing: panel.Behind, by: Shift) -> panel.Behind:
    """Return the same thing by other edges."""
    u, v = by
    shape = thing.shape
    match shape:
        case panel.Circle():
            return replace(thing, shape=replace(shape, u_m=shape.u_m + u, v_m=shape.v_m + v))
        case panel.Rectangle():
            moved = panel.Rectangle(
                u0_m=shape.u0_m + u, v0_m=shape.v0_m + v, u1_m=shape.u1_m + u, v1_m=shape.v1_m + v
            )
            return replace(thing, shape=moved)
        case panel.Band():
            points = tuple((a + u, b + v) for a, b in shape.points_m)
            return replace(thing, shape=replace(shape, points_m=points))


def _reserved(
    view: View, hull: HullFrame, face: str, frames: dict[str, FaceFrame], low: float
) -> Iterator[panel.Region]:
    """Yield each panel that is kept out of as a whole; a face without panels is one."""
    words = say("panel.ask_the_owner")
    for tag, frame in frames.items():
        if panel_answer(view, tag).reserved:
            u, v = corner(frame)
            yield panel.Region(area=_box(u, v - low, frame.width_m, frame.height_m), words=words)
    whole = whole_face(hull, face)
    zoned = any(
        zone.text("hull") == hull.tag and zone.text("face") == face
        for zone in view.built.of_kind("reserved zone")
    )
    if not frames and (zoned or view.reserved(whole, REACH_M)):
        area = _box(0.0, 0.0, whole.width_m, whole.height_m - low)
        yield panel.Region(area=area, words=words)


def _box(u: float, v: float, width: float, height: float) -> panel.Rectangle:
    return panel.Rectangle(u0_m=u, v0_m=v, u1_m=u + width, v1_m=v + height)


def _seams(frames: dict[str, FaceFrame]) -> Iterator[panel.Seam]:
    for tag, frame in frames.items():
        u, _ = corner(frame)
        yield panel.Seam(tag=tag, from_u_m=u, to_u_m=u + frame.width_m)


def _notes(view: View, hull: HullFrame, face: str, frames: dict[str, FaceFrame]) -> Iterator[str]:
    yield say("face.from_the_steel")
    yield say("face.with_each_panel") if frames else say("face.no_panel")
    if _curved(hull, face):
        yield say("face.round")
    lost = [
        each.tag
        for each in view.built.of_kind("panel")
        if each.text("hull") == hull.tag and each.text("face") == face and each.tag not in frames
    ]
    if lost:
        yield say("face.unplaced", panels=", ".join(lost))
    for opening in view.built.of_kind("opening"):
        if opening.text("hull") == hull.tag and opening.text("face") == face:
            yield _opening(opening, face_frame(opening, hull), _floor_up(hull, face))


def _opening(opening: Thing, frame: FaceFrame | None, low: float) -> str:
    leads = opening.words("leads_to")
    if frame is None:
        return say("face.opening_unplaced", tag=opening.tag, leads_to=leads)
    u, v = corner(frame)
    return say(
        "face.opening",
        tag=opening.tag,
        leads_to=leads,
        left=length(u),
        right=length(u + frame.width_m),
        low=length(v - low),
        high=length(v - low + frame.height_m),
    )


def bare_faces(view: View) -> tuple[tuple[str, str], ...]:
    """Return the faces, by hull, on which no panel is recorded."""
    held = {(p.text("hull"), p.text("face")) for p in view.built.of_kind("panel")}
    return tuple(
        (tag, face)
        for tag in sorted(view.hulls)
        if view.built.thing(tag) is not None
        for face in FACES
        if (tag, face) not in held
    )
