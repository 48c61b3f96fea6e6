"""Does it make sense in the ground? Faults that only geometry shows."""

from __future__ import annotations

from collections.abc import Iterator

from record.fold import AsBuilt, Thing
from record.place import HullFrame, hull_frames
from record.place.frames import face_frame, face_size
from record.sheets import Draft, Sheet, SheetFault
from record.units import Dimension, in_both

SLACK_M = 0.005  # a tape's own error is no reason to refuse a panel
ON_A_FACE = ("panel", "opening", "reserved zone")


def sense(sheet: Sheet, after: AsBuilt) -> Iterator[SheetFault]:
    """Yield what cannot be, with the sheet's own drafts folded in (``after``)."""
    hulls = hull_frames(after)
    asked: set[tuple[str, bool]] = set()
    for draft in sheet.drafts:
        thing = after.thing(draft.about.partition("/")[0])
        part = "/" in draft.about
        if thing is None or (thing.tag, part) in asked:
            continue
        asked.add((thing.tag, part))
        if thing.kind.word == "hull" and thing.kind is draft.kind:
            yield from _round_hull(sheet, draft, thing)
        if thing.kind.word in ON_A_FACE and thing.kind is draft.kind:
            yield from _outside_hull(sheet, draft, thing, hulls)
        if thing.kind.word == "run" and len(thing.parts) == 1 and part:
            yield sheet.text.fault(
                draft.heading,
                f"{thing.tag} has one station, and a run goes from one to another",
                "Give at least its two ends, one row each.",
            )


def _round_hull(sheet: Sheet, draft: Draft, hull: Thing) -> Iterator[SheetFault]:
    """A round hull needs its diameter, if only to say that nobody recorded it."""
    if hull.text("shape") == "round" and not hull.held("inside_diameter"):
        yield sheet.text.fault(
            draft.spot("shape"),
            f"{hull.tag} is round, and its inside diameter is not said",
            'Write "- inside diameter: 2.50 m", or "not recorded"; of inside width and height '
            'write "n/a, round".',
        )


def _outside_hull(
    sheet: Sheet, draft: Draft, panel: Thing, hulls: dict[str, HullFrame]
) -> Iterator[SheetFault]:
    hull = hulls.get(panel.text("hull") or "")
    frame = face_frame(panel, hull) if hull else None
    if hull is None or frame is None:
        return
    a, across, h = frame.origin
    right, up, _ = frame.axes()
    ends = [
        (at, at + r * frame.width_m + u * frame.height_m)
        for at, r, u in zip((a, across, h), right, up, strict=True)
    ]
    limits = (hull.length_m, hull.width_m, hull.height_m)
    names = (("from near",), ("from left",), ("bottom",))
    if frame.arc is not None or frame.or_else is not None:
        ends[1:] = [(frame.origin[1],) * 2, (frame.origin[2],) * 2]  # over is along the curve
    for (one, other), limit, keys in zip(ends, limits, names, strict=True):
        low, high = min(one, other), max(one, other)
        beyond = max(-low, high - limit)
        if beyond > SLACK_M:
            width, height = face_size(hull, frame.face)
            spot = next((key.replace(" ", "_") for key in keys), "width")
            yield sheet.text.fault(
                draft.spot(spot),
                f"{panel.tag} reaches {_said(beyond)} past hull {hull.tag} ({keys[0]})",
                _as_level(panel, hull, keys[0])
                or f"The {frame.face} face is {_said(width)} wide and {_said(height)} high, "
                "inside; check the edge and the size.",
            )


def _as_level(panel: Thing, hull: HullFrame, key: str) -> str:
    """Return the level to write, where a bottom was written as a height above the floor."""
    bottom, high = panel.si("bottom"), panel.si("height")
    if key != "bottom" or bottom is None or high is None:
        return ""
    if not -SLACK_M <= float(bottom) <= hull.height_m - float(high) + SLACK_M:
        return ""
    floor = hull.origin[2]
    return (
        f'"bottom" is a level, as the floor level of {hull.tag} is: {floor:.3f} m. If it is '
        f'{_said(float(bottom))} above that floor, write "- bottom: {floor + float(bottom):.3f} m".'
    )


def _said(metres: float) -> str:
    from decimal import Decimal

    return in_both(Decimal(str(round(metres, 4))), Dimension.LENGTH)
