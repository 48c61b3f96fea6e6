"""Everything whose outline meets the space behind a panel, nearest first."""

from __future__ import annotations

from record.answers.behind_values import CROSSES, IN_REACH, NEAR, Item, Layer, Span
from record.answers.covers import cover_state
from record.answers.layers import build_up
from record.fold import natural
from record.place import FaceFrame, Outline, Shape, crossed, outline
from record.readers import View

ROUND_M = 0.10  # how far round a point is looked

Placed = tuple[Shape, Item]


def items_behind(view: View, space: FaceFrame, reach_m: float, whole: FaceFrame) -> list[Placed]:
    """
    Return the things that may lie in ``space``, a part of the panel ``whole``, or all of it.

    The panel's own hull is left out. Offsets are from the edges of the whole panel.
    """
    moved = _moved(space, whole)
    found = [
        (shape, _item(view, shape, seen, whole, moved, (space, reach_m)))
        for shape in view.nearby.behind(space, reach_m)
        if shape.thing.tag != whole.hull.tag
        and (seen := outline(shape, space, reach_m, view.hulls)) is not None
    ]
    return sorted(found, key=_nearest)


def _nearest(placed: Placed) -> tuple[object, ...]:
    """Nearest first; what is recorded before the face, and may only reach behind it, is last."""
    _, item = placed
    # To 0.1 mm, so that the order does not hang on the last digit of a turned frame.
    depths = (round(item.depth_may_reach.from_m, 4), round(item.depth.from_m, 4))
    return (item.depth.to_m == 0, *depths, natural(item.tag), item.words)


def _moved(space: FaceFrame, whole: FaceFrame) -> tuple[float, float]:
    u, v, _ = whole.to_face(space.origin)
    return u, v


def _item(
    view: View,
    shape: Shape,
    seen: Outline,
    whole: FaceFrame,
    moved: tuple[float, float],
    asked: tuple[FaceFrame, float],
) -> Item:
    u, v = moved
    recorded, reaches = seen.recorded, seen.may_reach
    across, upward, deep = seen.tolerance_m
    frames = crossed(shape, whole, view.hulls)
    return Item(
        tag=shape.thing.tag,
        kind=shape.thing.kind.word,
        words=shape.words,
        across=Span(recorded[0] + u, recorded[2] + u),
        upward=Span(recorded[1] + v, recorded[3] + v),
        across_may_reach=Span(reaches[0] + u, reaches[2] + u),
        upward_may_reach=Span(reaches[1] + v, reaches[3] + v),
        depth=Span(*seen.depth),
        depth_may_reach=Span(*seen.depth_may_reach),
        certain=seen.certain is not None and not shape.missing,
        axis=_axis(seen, u, v),
        tolerance_across_m=across,
        tolerance_upward_m=upward,
        tolerance_depth_m=deep,
        assumed=shape.assumed or any(frame.assumed for frame in frames),
        basis=shape.basis,
        interpolated=shape.interpolated,
        missing=shape.missing,
        cover=cover_state(view.built, shape),
        layers=_layers(view, shape, whole),
        entries=tuple(entry.number for entry in shape.entries),
        lies=_lies(seen, *asked),
        depth_known=DEEP.get(whole.face, "") not in shape.missing,
    )


#: Face → the measure that tells how deep behind it a thing lies.
DEEP = {"left": "from left", "right": "from left", "near": "from near", "far": "from near"}
DEEP |= {"floor": "level", "ceiling": "level"}


def _lies(seen: Outline, space: FaceFrame, reach_m: float) -> str:
    """
    Return how a thing lies to the space, by what is recorded of it and not by its tolerance.

    Whether it comes through the panel can be told only where depths count from the room face.
    """
    u0, v0, u1, v1 = seen.recorded
    over = u1 > 0 and u0 < space.width_m and v1 > 0 and v0 < space.height_m
    low, high = seen.depth
    if not over or high == 0 or low > reach_m:
        return NEAR
    return CROSSES if low == 0 and space.depth_from == "room face" else IN_REACH


def _axis(
    seen: Outline, u: float, v: float
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    if seen.axis is None:
        return None
    (u0, v0), (u1, v1) = seen.axis
    return (u0 + u, v0 + v), (u1 + u, v1 + v)


def _layers(view: View, shape: Shape, whole: FaceFrame) -> tuple[Layer, ...]:
    """Return a seam's layers, with depths where the seam is in this very face."""
    if shape.thing.kind.word != "seam":
        return ()
    here = shape.hull == whole.hull.tag and shape.thing.text("face") == whole.face
    lining = whole.on_shell_m
    start = lining + whole.hull.plate_m if here and lining is not None else None
    return build_up(view.built, shape.thing, start)
