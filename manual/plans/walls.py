"""The panels of a hull → the plain values of the drawing that shows them all."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from manual.drawings.walls import PanelAt, Wall, Walls
from manual.languages import say, term
from manual.plans.reuse import panel_answer
from record.fold import Thing
from record.place import HullFrame, face_frame
from record.place.frames import AXES, face_origin, face_size
from record.place.hull_frames import add, dot
from record.readers import View

if TYPE_CHECKING:
    from record.place import FaceFrame

FACES = ("left", "right", "near", "far", "floor", "ceiling")


def anchor(tag: str) -> str:
    """Return the name of the place in the manual where a panel is told of."""
    return "panel-" + re.sub(r"[^A-Za-z0-9-]", "_", tag)


def walls_of(view: View, hull_tag: str) -> Walls | None:
    """Return the faces of a hull with their panels, or None where no panel can be placed."""
    hull = view.hulls.get(hull_tag)
    panels = [p for p in view.built.of_kind("panel") if p.text("hull") == hull_tag]
    if hull is None or not panels:
        return None
    placed = {panel.tag: face_frame(panel, hull) for panel in panels}
    walls = tuple(_walls(view, hull, {t: f for t, f in placed.items() if f is not None}))
    if not walls:
        return None
    return Walls(
        name=say("walls.hull_its_panels_each", hull_tag=hull_tag),
        walls=walls,
        unplaced=tuple(tag for tag, frame in placed.items() if frame is None),
    )


def _walls(view: View, hull: HullFrame, placed: dict[str, FaceFrame]) -> Iterator[Wall]:
    for face in FACES:
        panels = tuple(
            _panel(view, view.built.things[tag], frame)
            for tag, frame in placed.items()
            if frame.face == face
        )
        if panels:
            width, height = face_size(hull, face)
            yield Wall(
                name=f"{hull.tag}, {term(face)}",
                width_m=max(width, *(p.u_m + p.width_m for p in panels)),
                height_m=max(height, *(p.v_m + p.height_m for p in panels)),
                panels=panels,
            )


def _panel(view: View, panel: Thing, frame: FaceFrame) -> PanelAt:
    from manual.plans.elevations import drawn_items

    answer = panel_answer(view, panel.tag)
    u, v = corner(frame)
    return PanelAt(
        tag=panel.tag,
        to=anchor(panel.tag),
        u_m=u,
        v_m=v,
        width_m=frame.width_m,
        height_m=frame.height_m,
        behind=sum(1 for _ in drawn_items(answer)),
        reserved=answer.reserved,
    )


def corner(frame: FaceFrame) -> tuple[float, float]:
    """Return metres across and up from the face's lower left corner to the panel's."""
    width, _ = face_size(frame.hull, frame.face)
    corner = face_origin(frame.hull, frame.face, 0.0, 0.0, 0.0, width)
    assert corner is not None, "every edge was given"
    right, up, _ = AXES[frame.face]
    out = add(frame.origin, corner, -1.0)
    return round(dot(out, right), 6) + 0.0, round(dot(out, up), 6) + 0.0  # and no minus nought
