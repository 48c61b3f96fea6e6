"""What lies inside the outline of a panel: zones, and three outlines of each thing behind."""

from collections.abc import Iterator
from dataclasses import dataclass

from manual.drawings import shapes, svg
from manual.drawings.panel import Band, Behind, Circle, PanelElevation, Rectangle, Shape
from manual.drawings.shapes import Ring
from manual.drawings.svg import Pen

CERTAIN = svg.DOTTED
RECORDED = svg.EDGE
MAY_REACH = svg.DASHED
UNPROVEN = svg.DASH_DOT  # recorded, with no tolerance to grow it by
HATCH = Pen(0.18, svg.GREY)
RESERVED_ANGLES, RESERVED_PITCH = (45.0, -45.0), 2.4
UNKNOWN_ANGLES, UNKNOWN_PITCH = (0.0,), 1.6
THING_ANGLES, THING_PITCH = (45.0,), 1.0


@dataclass(frozen=True, slots=True)
class Face:
    """From the panel's metres to millimetres on paper, v upward unless it is a floor."""

    left_mm: float
    top_mm: float
    scale: int
    width_m: float
    height_m: float
    downward: bool = False

    def x(self, u_m: float) -> float:
        return self.left_mm + self.mm(u_m)

    def y(self, v_m: float) -> float:
        if self.downward:
            return self.top_mm + self.mm(v_m)
        return self.bottom_mm - self.mm(v_m)

    def mm(self, length_m: float) -> float:
        return length_m * 1000 / self.scale

    @property
    def right_mm(self) -> float:
        return self.x(self.width_m)

    @property
    def bottom_mm(self) -> float:
        return self.top_mm + self.mm(self.height_m)

    def shown(self, ring: Ring) -> Ring:
        """The part of a shape that lies on the panel."""
        return shapes.cut(ring, (self.left_mm, self.top_mm, self.right_mm, self.bottom_mm))


def ring(face: Face, shape: Shape, grown_m: float = 0.0) -> Ring:
    """A shape on paper, grown or shrunk by a length; empty when nothing of it is left."""
    match shape:
        case Circle():
            radius = face.mm(shape.radius_m + grown_m)
            whole = (
                shapes.circle(face.x(shape.u_m), face.y(shape.v_m), radius) if radius > 0 else ()
            )
        case Rectangle():
            whole = _grown(face, shape, grown_m)
        case Band():
            half = face.mm(shape.half_width_m + grown_m)
            path = [(face.x(u), face.y(v)) for u, v in shape.points_m]
            whole = shapes.band(path, half) if half > 0 else ()
    return face.shown(whole)


def panel_marks(panel: PanelElevation, face: Face) -> tuple[str, ...]:
    """Zones beneath, things over them, the panel's own edge last."""
    edge = shapes.box(face.left_mm, face.top_mm, face.right_mm, face.bottom_mm)
    return (
        *(m for r in panel.unknown for m in _zone(face, r.area, UNKNOWN_ANGLES, UNKNOWN_PITCH)),
        *(m for r in panel.reserved for m in _zone(face, r.area, RESERVED_ANGLES, RESERVED_PITCH)),
        *(mark for thing in panel.things for mark in _thing(face, thing)),
        *(
            svg.line([(face.x(u), face.top_mm), (face.x(u), face.bottom_mm)], svg.PLAIN)
            for seam in panel.panels
            for u in (seam.from_u_m, seam.to_u_m)
            if 0 < u < panel.width_m
        ),
        svg.outline(edge, svg.HEAVY),
    )


def _zone(face: Face, area: Rectangle, angles: tuple[float, ...], pitch: float) -> Iterator[str]:
    shape = ring(face, area)
    if shape:
        yield svg.outline(shape, svg.PLAIN, fill=svg.PAPER)
        for angle in angles:
            yield svg.stroke(shapes.hatch(shape, angle_deg=angle, pitch=pitch), HATCH)


def _thing(face: Face, thing: Behind) -> Iterator[str]:
    recorded = ring(face, thing.shape)
    for angle in THING_ANGLES:
        yield svg.stroke(shapes.hatch(recorded, angle_deg=angle, pitch=THING_PITCH), HATCH)
    if thing.tolerance_m is None:
        yield svg.outline(recorded, UNPROVEN)
        return
    for grown, pen in (
        (-thing.tolerance_m, CERTAIN),
        (0.0, RECORDED),
        (thing.tolerance_m, MAY_REACH),
    ):
        shape = ring(face, thing.shape, grown)
        if shape and (thing.certain or pen is not CERTAIN):
            yield svg.outline(shape, pen)


def _grown(face: Face, area: Rectangle, grown_m: float) -> Ring:
    left, right = sorted((area.u0_m, area.u1_m))
    low, high = sorted((area.v0_m, area.v1_m))
    if right - left + 2 * grown_m <= 0 or high - low + 2 * grown_m <= 0:
        return ()
    top, bottom = sorted((face.y(high + grown_m), face.y(low - grown_m)))
    return shapes.box(face.x(left - grown_m), top, face.x(right + grown_m), bottom)
