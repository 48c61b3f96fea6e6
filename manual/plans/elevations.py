"""What lies behind a panel → the plain values of its drawing."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings import panel
from manual.languages import say, term
from record.answers.behind_values import Behind, Item
from record.answers.saying import depth
from record.place.frames import FROM

#: What a drawing helps to find with a tape. Hulls, openings and seams are told in words.
DRAWN = ("run", "valve", "drain", "store", "fit-out", "equipment")
FLAT_M = 0.005  # an axis shorter than this on the panel is a pipe seen end on


def drawn_items(answer: Behind) -> Iterator[Item]:
    """Yield items behind the room face whose whole place is recorded."""
    for item in answer.items:
        if item.kind in DRAWN and not item.missing and item.depth.to_m > 0:
            yield item


def panel_drawing(answer: Behind) -> panel.PanelElevation | None:
    """Return the elevation of a panel, or None where there is nothing to mark out."""
    things = tuple(thing_of(item, answer) for item in drawn_items(answer))
    if answer.width_m is None or answer.height_m is None or not (things or answer.reserved):
        return None
    left, bottom = (term(edge.removeprefix(FROM)) for edge in answer.edges or ("", ""))
    width, height = answer.width_m, answer.height_m
    return panel.PanelElevation(
        name=say("panel.panel", tag=answer.tag) + _unrolled(answer),
        width_m=width,
        height_m=height,
        left_edge=left or say("panel.left_edge"),
        bottom_edge=bottom or say("panel.bottom_edge"),
        downward=answer.face == "floor",
        things=things,
        reserved=tuple(_reserved(answer, width, height)),
        notes=(say("panel.up_is_measured", along_curve=answer.along_curve),)
        if answer.along_curve
        else (),
    )


def _unrolled(answer: Behind) -> str:
    return say("panel.unrolled_along_the_curve") if answer.along_curve.startswith("along") else ""


def _reach_m(item: Item) -> float:
    """Return how far beyond its recorded outline a thing on a curve may reach, at most."""
    pairs = ((item.across, item.across_may_reach), (item.upward, item.upward_may_reach))
    return max(max(one.from_m - most.from_m, most.to_m - one.to_m) for one, most in pairs)


def thing_of(item: Item, answer: Behind | None = None) -> panel.Behind:
    """Return a thing as it is drawn; ``answer`` is that of the panel it was asked of."""
    curve = answer is not None and bool(answer.along_curve)
    tolerance = max(item.tolerance_across_m, item.tolerance_upward_m)
    if curve:
        tolerance = max(tolerance, _reach_m(item))
    return panel.Behind(
        tag=item.tag,
        words=item.words,
        shape=_shape(item),
        tolerance_m=tolerance,
        depth_words=say("panel.to_deep", start=depth(item.depth.from_m), to=depth(item.depth.to_m)),
        basis_words=term(item.basis) + (say("panel.tolerance_assumed") if item.assumed else ""),
        certain=item.certain or not curve,
    )


def _shape(item: Item) -> panel.Shape:
    if item.axis is None:
        return panel.Rectangle(
            u0_m=item.across.from_m,
            v0_m=item.upward.from_m,
            u1_m=item.across.to_m,
            v1_m=item.upward.to_m,
        )
    (u0, v0), (u1, v1) = item.axis
    radius = (item.across.to_m - item.across.from_m - abs(u1 - u0)) / 2
    if abs(u1 - u0) < FLAT_M and abs(v1 - v0) < FLAT_M:
        return panel.Circle(u_m=(u0 + u1) / 2, v_m=(v0 + v1) / 2, radius_m=radius)
    return panel.Band(points_m=((u0, v0), (u1, v1)), half_width_m=radius)


def _reserved(answer: Behind, width: float, height: float) -> Iterator[panel.Region]:
    """A panel that a zone touches is kept out of as a whole: it comes off as a whole."""
    if answer.reserved:
        whole = panel.Rectangle(u0_m=0.0, v0_m=0.0, u1_m=width, v1_m=height)
        yield panel.Region(area=whole, words=say("panel.ask_the_owner"))
