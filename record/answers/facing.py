"""From where a panel is looked at: on the site grid, or in its own hull alone."""

from __future__ import annotations

from dataclasses import dataclass, replace

from record.answers.gaps import not_measured, off_grid
from record.fold import Thing
from record.place import FaceFrame, face_frame
from record.place.alone import Alone, frame_alone
from record.readers import View


@dataclass(frozen=True, slots=True)
class Facing:
    """
    A panel's frame and the view it is looked at in; no frame while a measure is ``missing``.

    ``off_grid`` are the measures of its hull's place that nobody wrote: then the view holds what
    lies in that hull wherever it is, and nothing can be said of what is placed on the grid.
    """

    view: View
    frame: FaceFrame | None
    missing: tuple[str, ...]
    off_grid: tuple[str, ...] = ()


def facing(view: View, panel: Thing) -> Facing:
    """Return how a panel is looked at."""
    missing = not_measured(view.built, panel)
    hull = view.built.thing(panel.text("hull"))
    if missing or hull is None:
        return Facing(view, None, missing)
    if hull.tag in view.hulls:
        return Facing(view, face_frame(panel, view.hulls[hull.tag]), ())
    frame, lost = frame_alone(hull), off_grid(hull)
    if frame is None:
        return Facing(view, None, lost)
    alone = replace(view, hulls={hull.tag: frame}, nearby=Alone(view.built, hull))
    return Facing(alone, face_frame(panel, frame), (), lost)
