"""Zones to keep out of, where they meet a panel."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.behind_values import Reserved, Span
from record.fold import Thing
from record.place import FaceFrame, face_frame
from record.readers import View

TOUCHING_M = 1e-6  # a zone that only touches an edge is not on the panel


def zones_on(view: View, panel: Thing, frame: FaceFrame | None) -> Iterator[Reserved]:
    """Yield every reserved zone on the panel; one whose edges are not recorded is on all of it."""
    for zone in view.built.of_kind("reserved zone"):
        if not (_same(zone, panel, "hull") and _same(zone, panel, "face")):
            continue
        at = face_frame(zone, frame.hull) if frame else None
        if at is not None and at.arc is not None:
            at = None  # it may be along the curve or not: then it is on all of the panel
        across, upward = _on_panel(at, frame) if at and frame else (None, None)
        if across and upward and not (_meets(across, upward, frame)):
            continue
        yield Reserved(
            tag=zone.tag,
            hazard=zone.words("hazard"),
            across=across,
            upward=upward,
            from_near=_span(zone, "from_near", "width"),
            from_left=_span(zone, "from_left", _along_left(zone)),
            level=_span(zone, "bottom", "height"),
            entries=tuple(entry.number for entry in zone.entries()),
        )


def _same(zone: Thing, panel: Thing, name: str) -> bool:
    """Not recorded on either side never takes a zone away."""
    one, other = zone.text(name), panel.text(name)
    return one is None or other is None or one == other


def _on_panel(zone: FaceFrame, panel: FaceFrame) -> tuple[Span, Span]:
    u, v, _ = panel.to_face(zone.origin)
    return Span(u, u + zone.width_m), Span(v, v + zone.height_m)


def _meets(across: Span, upward: Span, panel: FaceFrame | None) -> bool:
    if panel is None:
        return True
    return (
        across.from_m < panel.width_m - TOUCHING_M
        and across.to_m > TOUCHING_M
        and upward.from_m < panel.height_m - TOUCHING_M
        and upward.to_m > TOUCHING_M
    )


def _along_left(zone: Thing) -> str:
    """Return which measure runs from the left wall: on floor and ceiling it is the height."""
    return "height" if zone.text("face") in ("floor", "ceiling") else "width"


def _span(zone: Thing, start: str, size: str) -> Span | None:
    low, long = zone.si(start), zone.si(size)
    return None if low is None or long is None else Span(float(low), float(low + long))
