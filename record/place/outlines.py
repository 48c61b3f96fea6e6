"""What of a shape lies behind a panel: three outlines on the panel, and depths."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Rectangle = tuple[float, float, float, float]  # u from, v from, u to, v to
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Outline:
    """What of a shape lies behind a panel. Metres, from the panel's lower left corner."""

    recorded: Rectangle
    may_reach: Rectangle
    certain: Rectangle | None  # None: nothing of it is certain to be here
    axis: tuple[tuple[float, float], tuple[float, float]] | None  # of a pipe; None for a box
    depth: tuple[float, float]  # recorded, from the room face
    depth_may_reach: tuple[float, float]
    tolerance_m: tuple[float, float, float]  # along u, v, d


def either(found: Sequence[Outline]) -> Outline:
    """Return one outline that holds all of these: nothing is certain of which it is."""
    if len(found) == 1:
        return found[0]
    tolerances = [seen.tolerance_m for seen in found]
    return Outline(
        recorded=round_all([seen.recorded for seen in found]),
        may_reach=round_all([seen.may_reach for seen in found]),
        certain=None,
        axis=None,
        depth=span_of([seen.depth for seen in found]),
        depth_may_reach=span_of([seen.depth_may_reach for seen in found]),
        tolerance_m=(
            max(t[0] for t in tolerances),
            max(t[1] for t in tolerances),
            max(t[2] for t in tolerances),
        ),
    )


def round_all(rectangles: Sequence[Rectangle]) -> Rectangle:
    """Return the rectangle that just holds all of these."""
    return (
        min(r[0] for r in rectangles),
        min(r[1] for r in rectangles),
        max(r[2] for r in rectangles),
        max(r[3] for r in rectangles),
    )


def span_of(spans: Sequence[Span]) -> Span:
    return min(span[0] for span in spans), max(span[1] for span in spans)
