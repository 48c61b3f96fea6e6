"""What the elevation of a panel shows: plain values in metres.

u is to the right from the left edge, v up from the bottom edge, as seen from inside the room. A
floor is looked down on: with the near end at the left, its left wall is at the top, and v is drawn
downward.
"""

from dataclasses import dataclass, field

from manual.drawings.shapes import cut_line
from manual.languages import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A round thing seen end on."""

    u_m: float
    v_m: float
    radius_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """An upright rectangle."""

    u0_m: float
    v0_m: float
    u1_m: float
    v1_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A line of (u, v) points swept with a half-width: a pipe or cable seen from its side."""

    points_m: tuple[tuple[float, float], ...]
    half_width_m: float


Shape = Circle | Rectangle | Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """One thing behind the panel, with the tolerance its outline is known to."""

    tag: str
    words: str
    shape: Shape
    tolerance_m: float | None  # None is "not recorded"
    depth_words: str  # such as "84–96 mm behind the face"
    basis_words: str  # how the position is known
    certain: bool = True  # else no part of it is drawn as certainly there


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A part of the panel that is reserved, or of which nothing is recorded."""

    area: Rectangle
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """A panel among several on one wall: its own left and right edge, and its tag."""

    tag: str
    from_u_m: float
    to_u_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelElevation:
    """One panel, or a wall of panels, seen from inside the room."""

    name: str
    width_m: float
    height_m: float
    seen_from: str = field(default_factory=lambda: say("panel.seen_from_inside_the"))
    left_edge: str = field(
        default_factory=lambda: say("panel.left_edge")
    )  # what the tape is held to
    bottom_edge: str = field(default_factory=lambda: say("panel.bottom_edge"))
    things: tuple[Behind, ...] = ()
    reserved: tuple[Region, ...] = ()
    unknown: tuple[Region, ...] = ()
    panels: tuple[Seam, ...] = ()
    downward: bool = False  # v is drawn down from the edge it counts from: a floor
    brief: bool = False  # each thing by tag and depth alone: the rest is told elsewhere
    notes: tuple[str, ...] = ()


def marks_of(shape: Shape, *, width_m: float, height_m: float) -> tuple[tuple[float, float], ...]:
    """The (u, v) points a person marks out on the panel for a shape.

    A circle by its middle, a rectangle by two corners, a band by its bends and by where it
    comes onto the panel and leaves it.
    """
    match shape:
        case Circle():
            points: tuple[tuple[float, float], ...] = ((shape.u_m, shape.v_m),)
        case Rectangle():
            points = ((shape.u0_m, shape.v0_m), (shape.u1_m, shape.v1_m))
        case Band():
            points = cut_line(shape.points_m, (0.0, 0.0, width_m, height_m))
    return points
