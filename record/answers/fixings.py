"""Where may I screw? Zones to keep out of, and where nothing is recorded to a hole's depth."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from record.answers.behind_panel import further, panel_of
from record.answers.behind_values import Item, LookedAt, Reserved, Span
from record.answers.facing import Facing, facing
from record.answers.fixings_values import (
    KEEP_OUT,
    NONE_RECORDED,
    RESERVED,
    UNKNOWN,
    Clearest,
    Fixings,
    KeepOut,
    Mark,
)
from record.answers.gaps import (
    LOOKED,
    NOTHING_ELSE,
    anywhere,
    disagreements,
    looked_at,
    taint,
)
from record.answers.hazards import hazards
from record.answers.items import Placed, items_behind
from record.answers.layers import layers_behind
from record.answers.past import worked_since
from record.answers.refused import CannotAnswer
from record.answers.saying import depth as said_depth
from record.answers.zones import zones_on
from record.calc.empty_rectangle import Rectangle, largest_empty
from record.fold import Thing
from record.place import EDGES, FaceFrame, shell_m
from record.readers import View

MARGIN_M = 0.05  # beside anything recorded and from the panel's edges; common practice, no source
PITCH_M = 0.10  # of the grid of marks
SHORT_M = 0.01  # a hole ends this far short of the steel and of whatever lies deeper; no source
BOARD_M = 0.01  # how far a board may be from where it is recorded, where that is not stated
SLICES = 16  # a pipe across the panel is kept out of in so many steps, each wider than it is
WAS_LOOKED_AT = (NOTHING_ELSE, LOOKED)


def fixings(
    view: View,
    panel_tag: str,
    *,
    depth_m: float,
    size_m: tuple[float, float] | None = None,
    margin_m: float = MARGIN_M,
    pitch_m: float = PITCH_M,
) -> Fixings:
    """
    Return where holes ``depth_m`` deep from the room face keep out of everything recorded.

    ``size_m`` is the width and height there must be room for, ``margin_m`` is kept beside what is
    recorded and from the panel's edges. Raises NotFound where there is no such panel, CannotAnswer
    for a measure that is none.
    """
    _refuse(depth_m, margin_m, pitch_m, size_m)
    panel = panel_of(view, panel_tag)
    faced = facing(view, panel)
    frame, view = faced.frame, faced.view
    reach = depth_m + SHORT_M
    placed = items_behind(view, frame, reach, frame) if frame else []
    layers = layers_behind(view.built, panel, frame)
    zones = tuple(zones_on(view, panel, frame))
    deepest, words = _deepest(panel, frame)
    reserved = _reserved(faced, reach)
    looked = replace(looked_at(panel), worked_since=worked_since(view, panel, frame))
    unknown = (
        *_unknown(faced, panel, looked, placed),
        *_too_deep(depth_m, deepest, words),
    )
    by = margin_m + _board_m(panel)
    kept = tuple(_kept_out(frame, placed, zones, reach, by)) if frame else ()
    named = None
    if frame is not None and not unknown and not reserved:
        named = largest_empty(_inner(frame, margin_m), _rectangles(kept), size_m or (0.0, 0.0))
    return Fixings(
        tag=panel.tag,
        hull=panel.words("hull"),
        face=panel.stored("face"),
        room=panel.words("room"),
        width_m=frame.width_m if frame else None,
        height_m=frame.height_m if frame else None,
        edges=EDGES.get(panel.text("face") or ""),
        depth_m=depth_m,
        margin_m=margin_m,
        size_m=size_m,
        deepest_m=deepest,
        deepest_words=words,
        looked_at=looked,
        reserved=reserved,
        unknown=unknown,
        keep_out=kept,
        largest=_clearest(named),
        fits=None if size_m is None or unknown or reserved else named is not None,
        pitch_m=pitch_m,
        marks=tuple(_marks(frame, kept, margin_m, pitch_m, reserved, bool(unknown)))
        if frame
        else (),
        hazards=hazards(view.built, panel, [shape for shape, _ in placed], layers, zones),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _refuse(
    depth_m: float, margin_m: float, pitch_m: float, size_m: tuple[float, float] | None
) -> None:
    if not 0 < depth_m < math.inf:
        raise CannotAnswer(f"a hole {depth_m:g} m deep is none")
    if not 0 <= margin_m < math.inf:
        raise CannotAnswer(f"a margin of {margin_m:g} m is none")
    if not 0.01 <= pitch_m < math.inf:
        raise CannotAnswer("a grid finer than 10 mm is no help with a pencil")
    if size_m is not None and not all(0 < side < math.inf for side in size_m):
        raise CannotAnswer(f"a size of {size_m[0]:g} by {size_m[1]:g} m is none")


def _deepest(panel: Thing, frame: FaceFrame | None) -> tuple[float | None, str]:
    """Return how deep a hole may be at most, short of the shell, and in words why."""
    if frame is None:
        return None, "how far behind the face the shell is, is not recorded"
    to_shell = frame.on_shell_m
    if frame.faced:
        to_shell = shell_m(frame)[0]
    if to_shell is None:
        return None, "how far behind the face the shell is, is not recorded"
    doubt = sum(
        float(quantity.tol or 0)
        for name in ("thickness", "packing_thickness")
        if (quantity := panel.quantity(name)) is not None
    )
    most = max(0.0, to_shell - doubt - SHORT_M)
    return most, (
        f"the shell is {said_depth(to_shell)} behind the face; no hole deeper than "
        f"{said_depth(most)}, and none into the steel, ever"
    )


def _too_deep(depth_m: float, deepest_m: float | None, words: str) -> Iterator[str]:
    if deepest_m is None:
        yield words
    elif depth_m > deepest_m + 1e-9:
        yield f"{said_depth(depth_m)} is too deep: {words}"


def _reserved(faced: Facing, reach_m: float) -> bool:
    """Return whether the whole panel is reserved; asked in whole metres, as finer would point."""
    if faced.frame is None or faced.off_grid:
        return faced.view.partial
    return faced.view.reserved(faced.frame, float(math.ceil(max(reach_m, 1.0))))


def _unknown(
    faced: Facing, panel: Thing, looked: LookedAt, placed: Sequence[Placed]
) -> Iterator[str]:
    """Yield why no place can be named: of what nobody looked at, or placed, nothing is known."""
    view = faced.view
    if faced.missing:
        yield f"not recorded, so nothing can be placed: {', '.join(faced.missing)}"
    if faced.off_grid:
        yield (
            f"not recorded: {', '.join(faced.off_grid)}; what was placed on the site grid may lie "
            "behind this panel too"
        )
    if looked.state not in WAS_LOOKED_AT:
        yield f"behind it before it was closed: {looked.state} ({looked.words})"
    if looked.worked_since:
        yield f"worked on since anybody looked behind it: {'; '.join(looked.worked_since)}"
    tags = [shape.thing.tag for shape, _ in placed]
    for each in anywhere(view, panel, tags):
        where = "is said to be behind it" if each.said_behind else "may be anywhere"
        yield f"{each.tag} ({each.words}) has no place on record and {where}"
    named = [tag for tag in (panel.tag, panel.text("hull"), *tags) if tag]
    for unread in taint(view, named):
        yield f"entries about {unread.tag} cannot be read by this version: {unread.count}"
    for each_ in disagreements(panel, view.built.thing(panel.text("hull")), []):
        yield f"not settled: {each_.tag} {each_.field}: {each_.words}"


def _board_m(panel: Thing) -> float:
    """Return how far the panel may be from where it is recorded in its hull."""
    names = ("from_near", "from_left", "bottom", "width", "height")
    said = [float(q.tol) for name in names if (q := panel.quantity(name)) and q.tol is not None]
    return max(said, default=BOARD_M)


def _kept_out(
    frame: FaceFrame, placed: Sequence[Placed], zones: Sequence[Reserved], reach: float, by: float
) -> Iterator[KeepOut]:
    whole = (Span(0.0, frame.width_m), Span(0.0, frame.height_m))
    for zone in zones:
        across, upward = (zone.across or whole[0]), (zone.upward or whole[1])
        yield KeepOut(
            tag=zone.tag,
            reason=f"reserved zone: {zone.hazard}",
            across=_grown(across, by),
            upward=_grown(upward, by),
            depth_from_m=0.0,
            entries=zone.entries,
        )
    for _, item in placed:
        if item.depth_may_reach.from_m > reach:
            continue
        for across, upward in _slices(item):
            yield KeepOut(
                tag=item.tag,
                reason=_reason(item),
                across=_grown(across, by),
                upward=_grown(upward, by),
                depth_from_m=None if item.missing else item.depth_may_reach.from_m,
                entries=item.entries,
            )


def _reason(item: Item) -> str:
    said = f"{item.words}, may reach to {said_depth(item.depth_may_reach.from_m)} from the face"
    if item.missing:
        said = f"{item.words}, not recorded: {', '.join(item.missing)}"
    return f"{said}; {item.basis}"


def _grown(span: Span, by: float) -> Span:
    return Span(span.from_m - by, span.to_m + by)


def _slices(item: Item) -> Iterator[tuple[Span, Span]]:
    """Yield rectangles that hold all an item may reach: one, or steps along a pipe that slants."""
    across, upward = item.across_may_reach, item.upward_may_reach
    if item.axis is None:
        yield across, upward
        return
    (u0, v0), (u1, v1) = item.axis
    if min(abs(u1 - u0), abs(v1 - v0)) < 1e-3:
        yield across, upward
        return
    by_u, by_v = min(u0, u1) - across.from_m, min(v0, v1) - upward.from_m
    for step in range(SLICES):
        us = [u0 + (u1 - u0) * part / SLICES for part in (step, step + 1)]
        vs = [v0 + (v1 - v0) * part / SLICES for part in (step, step + 1)]
        yield Span(min(us) - by_u, max(us) + by_u), Span(min(vs) - by_v, max(vs) + by_v)


def _inner(frame: FaceFrame, margin_m: float) -> Rectangle:
    """The panel less its edges; nothing where the margins meet."""
    u, v = min(margin_m, frame.width_m / 2), min(margin_m, frame.height_m / 2)
    return u, v, frame.width_m - u, frame.height_m - v


def _rectangles(kept: Sequence[KeepOut]) -> list[Rectangle]:
    return [(k.across.from_m, k.upward.from_m, k.across.to_m, k.upward.to_m) for k in kept]


def _clearest(named: Rectangle | None) -> Clearest | None:
    if named is None:
        return None
    return Clearest(across=Span(named[0], named[2]), upward=Span(named[1], named[3]))


def _marks(
    frame: FaceFrame,
    kept: Sequence[KeepOut],
    margin_m: float,
    pitch_m: float,
    reserved: bool,
    unknown: bool,
) -> Iterator[Mark]:
    left, bottom, right, top = _inner(frame, margin_m)
    for v in _steps(bottom, top, pitch_m):
        for u in _steps(left, right, pitch_m):
            met = [k for k in kept if _over(k, u, v)]
            because = tuple(dict.fromkeys(k.tag for k in met))
            state = UNKNOWN if unknown else NONE_RECORDED
            if met:
                state = KEEP_OUT
            elif reserved:
                state = RESERVED
            yield Mark(across_m=u, upward_m=v, state=state, because=because)


def _over(kept: KeepOut, u: float, v: float) -> bool:
    return (
        kept.across.from_m <= u <= kept.across.to_m and kept.upward.from_m <= v <= kept.upward.to_m
    )


def _steps(low: float, high: float, pitch_m: float) -> list[float]:
    return [low + pitch_m * step for step in range(int((high - low) / pitch_m + 1e-6) + 1)]
