"""The elevation of a panel in words."""

from collections.abc import Callable, Sequence

from manual.drawings.panel import Band, Behind, Circle, PanelElevation, Rectangle, Region, Shape

RESERVED = "RESERVED: keep out"
NOT_RECORDED = "NOT RECORDED"
FURTHER = "What is not drawn is not proved absent."

Length = Callable[[float], str]


def panel_words(panel: PanelElevation, *, length: Length) -> str:
    """The alt text: the panel, its zones, everything behind it with its distances."""
    sentences = [
        f"{panel.name}, {panel.seen_from}: {length(panel.width_m)} wide,"
        f" {length(panel.height_m)} high. Distances are from its {panel.left_edge}"
        f" and its {panel.bottom_edge}.",
        *(f"{s.tag} from {length(s.from_u_m)} to {length(s.to_u_m)}." for s in panel.panels),
        *_regions(RESERVED, panel.reserved, length),
        *_regions(NOT_RECORDED, panel.unknown, length),
        *(_thing(thing, length) for thing in panel.things),
        *(() if panel.things else ("Nothing is recorded behind it.",)),
        FURTHER,
        *panel.notes,
    ]
    return " ".join(sentences)


def within(thing: Behind, length: Length) -> str:
    """How well the outline is known."""
    if thing.tolerance_m is None:
        return "tolerance not recorded"
    return f"position ± {length(thing.tolerance_m)}"


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
            return (
                f"circle, middle {length(shape.u_m)} from the left and {length(shape.v_m)}"
                f" from the bottom, radius {length(shape.radius_m)}"
            )
        case Rectangle():
            return (
                f"{length(shape.u0_m)} to {length(shape.u1_m)} from the left,"
                f" {length(shape.v0_m)} to {length(shape.v1_m)} from the bottom"
            )
        case Band():
            places = ", then ".join(
                f"{length(u)} from the left {length(v)} from the bottom" for u, v in shape.points_m
            )
            return f"band {length(2 * shape.half_width_m)} wide through {places}"
