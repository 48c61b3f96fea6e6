"""What is behind this panel? What the record says, how sure it is, and what it does not say."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from record.answers.behind_values import Behind, Removal
from record.answers.facing import Facing, facing
from record.answers.gaps import (
    anywhere,
    disagreements,
    looked_at,
    services,
    taint,
)
from record.answers.hazards import hazards
from record.answers.isolations import isolations
from record.answers.items import ROUND_M, Placed, items_behind
from record.answers.layers import layers_behind
from record.answers.past import past_work, photos_of, worked_since
from record.answers.refused import CannotAnswer, OffPanel, not_found
from record.answers.saying import FURTHER, LACKING, WHOLE, length
from record.answers.zones import zones_on
from record.fold import AsBuilt, Thing
from record.place import EDGES, FaceFrame
from record.readers import View
from record.words import tell, term

REACH_M = 1.0
Point = tuple[float, float]


def behind(
    view: View, panel_tag: str, *, at: Point | None = None, reach_m: float = REACH_M
) -> Behind:
    """
    Return what the record says lies behind a panel.

    ``at`` is a point on the panel, metres from its left and bottom edges: then only what may
    lie within 0.10 m of it is listed. ``reach_m`` is how deep to look, from the room face.
    Raises NotFound where there is no such panel, OffPanel where the point is not on it, and
    CannotAnswer for a reach that is not above zero.
    """
    if not 0 < reach_m < math.inf:
        raise CannotAnswer(f"a reach of {reach_m:g} m is none; write how deep to look, such as 1 m")
    panel = panel_of(view, panel_tag)
    faced = facing(view, panel)
    frame, seen = faced.frame, faced.view
    placed = _placed(seen, frame, at, reach_m)
    shapes = [shape for shape, _ in placed]
    tags = [shape.thing.tag for shape in shapes]
    layers = layers_behind(view.built, panel, frame)
    of_hull = view.built.thing(panel.text("hull"))
    zones = tuple(zones_on(seen, panel, frame))
    no_record, none_placed, silent = services(seen)
    return Behind(
        tag=panel.tag,
        hull=panel.words("hull"),
        face=panel.stored("face"),
        room=panel.words("room"),
        width_m=_metres(panel, "width"),
        height_m=_metres(panel, "height"),
        edges=EDGES.get(panel.text("face") or ""),
        along_curve=_along_curve(frame),
        at=at,
        reach_m=reach_m,
        depth_from=frame.depth_from if frame else "room face",
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
        not_measured=faced.missing,
        off_grid=faced.off_grid,
        looked_at=replace(looked_at(panel), worked_since=worked_since(seen, panel, frame)),
        reserved=bool(zones) or _reserved(faced, reach_m),
        zones=zones,
        no_record_of=no_record,
        none_placed_of=none_placed,
        carries_not_recorded=silent,
        anywhere=anywhere(seen, panel, tags),
        unread=taint(view, filter(None, (panel.tag, panel.text("hull"), *tags))),
        disagreements=tuple(disagreements(panel, of_hull, shapes)),
        hazards=hazards(view.built, panel, shapes, layers, zones),
        isolations=isolations(view, panel, shapes),
        call=call(view.built),
        removal=_removal(view.built, panel),
        layers=layers,
        items=tuple(item for _, item in placed),
        past=past_work(seen, panel, frame, shapes),
        photos=photos_of(view, panel, shapes),
    )


def panel_of(view: View, tag: str) -> Thing:
    """Return the panel of that tag. Raises NotFound, with panels whose tags are like it."""
    thing = view.built.thing(tag)
    if thing is not None and thing.kind.word == "panel":
        return thing
    panels = [panel.tag for panel in view.built.of_kind("panel")]
    problem = f"{tag} is a {thing.kind.word}, not a panel" if thing else f"no panel {tag}"
    raise not_found(tag, problem, panels)


def _metres(panel: Thing, name: str) -> float | None:
    value = panel.si(name)
    return None if value is None else float(value)


def _along_curve(frame: FaceFrame | None) -> str:
    """Return how upward distances are measured on the curve of a round hull; "" elsewhere."""
    if frame is None or (frame.arc is None and frame.or_else is None):
        return ""
    if frame.or_else is not None:
        return tell("answers.perhaps_along_curve_not")
    return tell("answers.along_curve_on_inside")


def _placed(view: View, frame: FaceFrame | None, at: Point | None, reach_m: float) -> list[Placed]:
    if frame is None:
        return []
    return items_behind(view, _space(frame, at), reach_m, frame)


def _space(frame: FaceFrame, at: Point | None) -> FaceFrame:
    """Return the part of the panel that was asked about."""
    if at is None:
        return frame
    u, v = at
    if not (0 <= u <= frame.width_m and 0 <= v <= frame.height_m):
        size = tell(
            "answers.wide_and_high", width_m=length(frame.width_m), height_m=length(frame.height_m)
        )
        raise OffPanel(
            f"{u:g} m across, {v:g} m up is not on the panel, which is {size}; measure from its "
            "left and its bottom edge"
        )
    return frame.part(u - ROUND_M, v - ROUND_M, 2 * ROUND_M, 2 * ROUND_M)


def further(view: View) -> str:
    """Return what an answer says of entries that it could not be made of."""
    if view.blind:
        return term(LACKING)
    return term(FURTHER if view.partial else WHOLE)


def _reserved(faced: Facing, reach_m: float) -> bool:
    """Return whether the panel is not to be opened without asking the owner, for no said reason."""
    if faced.frame is None or faced.off_grid:
        # Nothing that is withheld can be placed, so nothing can be ruled out.
        return faced.view.partial
    # Whole panel and whole metres: a finer question would feel out what is withheld.
    return faced.view.reserved(faced.frame, float(math.ceil(max(reach_m, REACH_M))))


def _removal(built: AsBuilt, panel: Thing) -> Removal:
    names = ("fixings", "comes_off", "before_it")
    entries = {h.entry.hash: h.entry.number for name in names for h in panel.held(name)}
    return Removal(
        fixings=panel.words("fixings"),
        comes_off=panel.words("comes_off"),
        first=tuple(dict.fromkeys(_before(built, panel, {panel.tag}))),
        first_words=panel.words("before_it"),
        entries=tuple(entries.values()),
    )


def _before(built: AsBuilt, panel: Thing, met: set[str]) -> Iterator[str]:
    """Yield what must come off before a panel, and before that, first things first."""
    for tag in panel.tags("before_it"):
        if tag in met:
            continue
        met.add(tag)
        other = built.thing(tag)
        if other is not None:
            yield from _before(built, other, met)
        yield tag


def call(built: AsBuilt) -> tuple[str, ...]:
    site = built.site_thing()
    if site is None:
        return (tell("answers.builder_not_recorded"), tell("answers.emergency_number_not_recorded"))
    return (
        tell(
            "answers.builder",
            builder=site.words("builder"),
            builder_contact=site.words("builder_contact"),
        ),
        tell("answers.emergency_number", emergency_number=site.words("emergency_number")),
        *(
            f"{name.replace('_', ' ')}: {site.words(name)}"
            for name in ("engineer_of_record", "electrician", "one-call_number")
            if site.text(name)
        ),
    )
