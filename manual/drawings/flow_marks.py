"""The boxes of a flow diagram with their signs, and the lines between them."""

from __future__ import annotations

from collections.abc import Sequence

from manual.drawings import shapes, svg
from manual.drawings.flow import Join, Sort
from manual.drawings.svg import Pen, Point

SIGN_MM = 7.0  # at the left of a box
HEAD_MM = 2.2  # of an arrow
PENS = {
    Join.RECORDED: Pen(0.5),
    Join.NOT_RECORDED: Pen(0.4, svg.BLACK, "2 1.2"),
    Join.SHUT: Pen(0.5),
}
EDGES = {
    Sort.END: svg.DOTTED,
    Sort.PIPE: svg.PLAIN,
    Sort.HAND: svg.PLAIN,
    Sort.ITSELF: svg.PLAIN,
    Sort.MACHINE: svg.HEAVY,
    Sort.ROOM: svg.EDGE,
    Sort.DRAIN: svg.PLAIN,
    Sort.GAP: svg.DASHED,
}


def frame(sort: Sort, left: float, top: float, right: float, bottom: float) -> list[str]:
    """The outline of a box; a room's is double."""
    drawn = [svg.outline(shapes.box(left, top, right, bottom), EDGES[sort], fill=svg.PAPER)]
    if sort is Sort.ROOM:
        inner = shapes.box(left + 0.9, top + 0.9, right - 0.9, bottom - 0.9)
        drawn.append(svg.outline(inner, svg.PLAIN))
    return drawn


def sign(sort: Sort, x: float, y: float) -> list[str]:
    """A sign some 5 mm wide, its middle at a place."""
    match sort:
        case Sort.PIPE:
            return [
                svg.line([(x - 2.4, y - 0.9), (x + 2.4, y - 0.9)], svg.EDGE),
                svg.line([(x - 2.4, y + 0.9), (x + 2.4, y + 0.9)], svg.EDGE),
            ]
        case Sort.HAND:
            bow = [(x - 2.2, y - 1.5), (x + 2.2, y + 1.5), (x + 2.2, y - 1.5), (x - 2.2, y + 1.5)]
            lever = [(x, y), (x, y - 2.4), (x - 1.4, y - 2.4), (x + 1.4, y - 2.4)]
            return [svg.outline(bow, svg.PLAIN, fill=svg.PAPER), svg.line(lever, svg.EDGE)]
        case Sort.ITSELF:
            flap = [(x - 1.6, y - 1.6), (x + 1.4, y), (x - 1.6, y + 1.6)]
            bar = [(x + 1.6, y - 1.7), (x + 1.6, y + 1.7)]
            return [svg.outline(flap, svg.PLAIN, fill=svg.BLACK), svg.line(bar, svg.HEAVY)]
        case Sort.MACHINE:
            blades = [[(x - 1.9, y), (x + 1.9, y)], [(x, y - 1.9), (x, y + 1.9)]]
            ring = svg.outline(shapes.circle(x, y, 2.1, sides=24), svg.EDGE, fill=svg.PAPER)
            return [ring, *(svg.line(each, svg.PLAIN) for each in blades)]
        case Sort.ROOM:
            house = [
                (x - 2, y + 1.7),
                (x - 2, y - 0.3),
                (x, y - 2),
                (x + 2, y - 0.3),
                (x + 2, y + 1.7),
            ]
            return [svg.outline(house, svg.EDGE)]
        case Sort.DRAIN:
            drop = [(x, y - 2.0), (x + 1.4, y + 0.5), (x, y + 1.7), (x - 1.4, y + 0.5)]
            return [svg.outline(drop, svg.PLAIN, fill=svg.BLACK)]
        case Sort.END:
            return [svg.dot(x, y, 1.2, fill=svg.PAPER)]
        case Sort.GAP:
            cross = [
                [(x - 1.6, y - 1.6), (x + 1.6, y + 1.6)],
                [(x - 1.6, y + 1.6), (x + 1.6, y - 1.6)],
            ]
            return [svg.line(each, svg.EDGE) for each in cross]


def arrow(points: Sequence[Point], join: Join) -> list[str]:
    """A line of upright and level lengths that ends in a head, and is barred where it is shut."""
    (x, y) = points[-1]
    shaft = [*points[:-1], (x, y - HEAD_MM)]
    head = [(x, y), (x - 1.1, y - HEAD_MM), (x + 1.1, y - HEAD_MM)]
    drawn = [svg.line(shaft, PENS[join]), svg.outline(head, svg.FINE, fill=svg.BLACK)]
    if join is Join.SHUT:
        (sx, sy) = points[0]
        drawn += bar(sx, sy + 1.6)
    return drawn


def bar(x: float, y: float) -> list[str]:
    """Two strokes across a line: nothing goes on."""
    return [
        svg.line([(x - 2.2, y - 0.5), (x + 2.2, y - 0.5)], svg.HEAVY),
        svg.line([(x - 2.2, y + 0.7), (x + 2.2, y + 0.7)], svg.HEAVY),
    ]
