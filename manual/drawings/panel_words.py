"""The elevation of a panel in words."""

from collections.abc import Sequence

from manual.drawings.both import both
from manual.drawings.panel import Band, Behind, Circle, PanelElevation, Rectangle, Region, Shape
from manual.languages import say


def further() -> str:
    return say("panel.what_is_not_drawn")


def not_recorded() -> str:
    return say("panel.not_recorded")


def reserved() -> str:
    return say("panel.reserved_keep_out")


def panel_words(panel: PanelElevation) -> str:
    """The alt text: the panel, its zones, everything behind it with its distances."""
    sentences = [
        say(
            "panel.wide_high_distances_are",
            name=panel.name,
            seen_from=panel.seen_from,
            width=both(panel.width_m),
            height=both(panel.height_m),
            left_edge=panel.left_edge,
            bottom_edge=panel.bottom_edge,
        ),
        *(
            say("panel.from_to", tag=s.tag, from_u=both(s.from_u_m), to_u=both(s.to_u_m))
            for s in panel.panels
        ),
        *_regions(reserved(), panel.reserved),
        *_regions(not_recorded(), panel.unknown),
        *(_thing(thing) for thing in panel.things),
        *nothing(panel),
        further(),
        *panel.notes,
    ]
    return " ".join(sentences)


def nothing(panel: PanelElevation) -> Sequence[str]:
    """That nothing is recorded behind it; never where a part of it is reserved."""
    bare = not panel.things and not panel.reserved
    return (say("panel.nothing_is_recorded_behind"),) if bare else ()


def within(thing: Behind) -> str:
    """How well the outline is known."""
    if thing.tolerance_m is None:
        return say("panel.tolerance_not_recorded")
    return say("panel.position", tolerance=both(thing.tolerance_m))


def _regions(head: str, regions: Sequence[Region]) -> list[str]:
    return [
        f"{head}: {_shape(region.area)}{f', {region.words}' if region.words else ''}."
        for region in regions
    ]


def _thing(thing: Behind) -> str:
    shape = _shape(thing.shape, thing.tolerance_m)
    known = f"{thing.depth_words}; {within(thing)}; {thing.basis_words}"
    return f"{thing.tag}, {thing.words}: {shape}; {known}."


def _shape(shape: Shape, within_m: float | None = None) -> str:
    def length(length_m: float) -> str:
        return both(length_m, within_m)

    match shape:
        case Circle():
            return say(
                "panel.circle_middle_from_the",
                u=length(shape.u_m),
                v=length(shape.v_m),
                radius=both(shape.radius_m),
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
                "panel.band_wide_through", length=both(2 * shape.half_width_m), places=places
            )
