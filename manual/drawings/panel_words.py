"""The elevation of a panel in words."""

from collections.abc import Callable, Sequence

from manual.drawings.panel import Band, Behind, Circle, PanelElevation, Rectangle, Region, Shape
from manual.languages import say

Length = Callable[[float], str]


def further() -> str:
    return say("panel.what_is_not_drawn")


def not_recorded() -> str:
    return say("panel.not_recorded")


def reserved() -> str:
    return say("panel.reserved_keep_out")


def panel_words(panel: PanelElevation, *, length: Length) -> str:
    """The alt text: the panel, its zones, everything behind it with its distances."""
    sentences = [
        say(
            "panel.wide_high_distances_are",
            name=panel.name,
            seen_from=panel.seen_from,
            width=length(panel.width_m),
            height=length(panel.height_m),
            left_edge=panel.left_edge,
            bottom_edge=panel.bottom_edge,
        ),
        *(
            say("panel.from_to", tag=s.tag, from_u=length(s.from_u_m), to_u=length(s.to_u_m))
            for s in panel.panels
        ),
        *_regions(reserved(), panel.reserved, length),
        *_regions(not_recorded(), panel.unknown, length),
        *(_thing(thing, length) for thing in panel.things),
        *(() if panel.things else (say("panel.nothing_is_recorded_behind"),)),
        further(),
        *panel.notes,
    ]
    return " ".join(sentences)


def within(thing: Behind, length: Length) -> str:
    """How well the outline is known."""
    if thing.tolerance_m is None:
        return say("panel.tolerance_not_recorded")
    return say("panel.position", tolerance=length(thing.tolerance_m))


def _regions(head: str, regions: Sequence[Region], length: Length) -> list[str]:
    return [
        f"{head}: {_shape(region.area, length)}{f', {region.words}' if region.words else ''}."
        for region in regions
    ]


def _thing(thing: Behind, length: Length) -> str:
    return (
        f"{thing.tag}, {thing.words}: {_shape(thing.shape, length)}; {thing.depth_words};"
        f" {within(thing, length)}; {thing.basis_words}."
    )


def _shape(shape: Shape, length: Length) -> str:
    match shape:
        case Circle():
            return say(
                "panel.circle_middle_from_the",
                u=length(shape.u_m),
                v=length(shape.v_m),
                radius=length(shape.radius_m),
            )
        case Rectangle():
            return say(
                "panel.to_from_the_left",
                u0=length(shape.u0_m),
                u1=length(shape.u1_m),
                v0=length(shape.v0_m),
                v1=length(shape.v1_m),
            )
        case Band():
            places = say("panel.then").join(
                say("panel.from_the_left_from", u=length(u), v=length(v)) for u, v in shape.points_m
            )
            return say(
                "panel.band_wide_through", length=length(2 * shape.half_width_m), places=places
            )
