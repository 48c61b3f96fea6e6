"""Running distances along the bottom and left edges of a panel, as one marks them with a tape."""

from collections.abc import Iterable
from dataclasses import dataclass

from manual.drawings import svg
from manual.drawings.both import both
from manual.drawings.ink import TEXT_MM, Ink, gather, written
from manual.drawings.lettering import wrap
from manual.drawings.panel import PanelElevation, marks_of
from manual.drawings.panel_marks import Face
from manual.drawings.place import LINE_MM, Flag, Flags, flags, spread
from manual.languages import say

STRIP_MM = 32.0  # the room for distances at the left
_ELBOW_MM = 7.0
_ONE_LINE_MM = 58.0
_EDGE_M = 0.0005  # nearer to an edge than half a millimetre is on it


@dataclass(frozen=True, slots=True)
class Mark:
    """One point to mark out, and what it belongs to."""

    u_m: float
    v_m: float
    tag: str
    within_m: float | None = None  # how well the thing is known


def tape_marks(panel: PanelElevation) -> tuple[Mark, ...]:
    """The points of everything drawn, in the order it is given."""
    shapes = [
        *((thing.shape, thing.tag, thing.tolerance_m) for thing in panel.things),
        *((region.area, say("panel.reserved"), None) for region in panel.reserved),
        *((region.area, say("panel.not_recorded"), None) for region in panel.unknown),
    ]
    return tuple(
        Mark(u, v, tag, within_m)
        for shape, tag, within_m in shapes
        for u, v in marks_of(shape, width_m=panel.width_m, height_m=panel.height_m)
    )


def extensions(marks: Iterable[Mark], face: Face) -> Ink:
    """Fine lines from each point to the two edges it is measured from."""
    drawn = []
    for mark in marks:
        u, v = min(mark.u_m, face.width_m), min(mark.v_m, face.height_m)
        x, y = face.x(max(u, 0.0)), face.y(max(v, 0.0))
        if 0 < mark.u_m < face.width_m:
            drawn.append(svg.line([(x, y), (x, face.bottom_mm)], svg.GRID))
        if 0 < mark.v_m < face.height_m:
            drawn.append(svg.line([(x, y), (face.left_mm, y)], svg.GRID))
    return Ink(tuple(drawn), ())


def along_bottom(panel: PanelElevation, face: Face, *, right_mm: float) -> Flags:
    """Distances from the left edge, hung under the panel."""
    ends = [(0.0, panel.left_edge), (panel.width_m, say("panel.right_edge"))]
    inner = [(m.u_m, m.tag, m.within_m) for m in tape_marks(panel)]
    wanted = _grouped(ends, inner, panel.width_m)
    if panel.brief:  # a whole wall has many: each on one line, or the page is too short
        hung = [Flag(face.x(at), face.bottom_mm, f"{words} {tags}") for at, words, tags in wanted]
        return flags(hung, left_mm=face.left_mm, right_mm=right_mm, most_mm=_ONE_LINE_MM)
    hung = [Flag(face.x(at), face.bottom_mm, words, (tags,)) for at, words, tags in wanted]
    return flags(hung, left_mm=face.left_mm, right_mm=right_mm)


def along_left(panel: PanelElevation, face: Face) -> tuple[Ink, float]:
    """Distances from the bottom edge, stacked at the left; and the place beneath them."""
    far = say("panel.bottom_edge") if panel.downward else say("panel.top_edge")
    ends = [(0.0, panel.bottom_edge), (panel.height_m, far)]
    inner = [(m.v_m, m.tag, m.within_m) for m in tape_marks(panel)]
    rows = sorted(_grouped(ends, inner, panel.height_m), key=lambda row: face.y(row[0]))
    sewn = [_lines(words.split(" (", 1), tags) for _, words, tags in rows]
    sizes = [len(lines) * LINE_MM + 0.4 for lines in sewn]
    wanted = [face.y(at) - LINE_MM / 2 for at, _, _ in rows]
    tops = spread(wanted, sizes, least=face.top_mm - LINE_MM / 2, most=face.bottom_mm + LINE_MM)
    inks = [
        _row(lines, top, face.y(at), face)
        for lines, top, (at, _, _) in zip(sewn, tops, rows, strict=True)
    ]
    return gather(inks), tops[-1] + sizes[-1]


def _lines(measures: list[str], tags: str) -> list[tuple[str, bool]]:
    """Metres, feet on a line of their own, tags."""
    room = (STRIP_MM - _ELBOW_MM) / TEXT_MM
    said = (each.removesuffix(")") for each in measures)
    head = [(line, True) for each in said for line in wrap(each, most_em=room, bold=True)]
    return head + [(line, False) for line in wrap(tags, most_em=room)]


def _row(lines: list[tuple[str, bool]], top: float, y: float, face: Face) -> Ink:
    end = face.left_mm - _ELBOW_MM
    level = top + LINE_MM / 2
    tie = [(end + 0.6, level), (end + 1.8, level), (face.left_mm - 1.5, y), (face.left_mm, y)]
    boxes = tuple(
        written(words, end, top + row * LINE_MM, anchor="end", bold=bold)
        for row, (words, bold) in enumerate(lines)
    )
    return Ink((svg.line(tie, svg.FINE),), boxes)


def _grouped(
    ends: list[tuple[float, str]],
    inner: list[tuple[float, str, float | None]],
    whole_m: float,
) -> list[tuple[float, str, str]]:
    """One row for each distance as printed, with all the tags that share it."""
    edges = [(at, tag, None) for at, tag in ends]
    clear = [(at, tag, known) for at, tag, known in inner if _EDGE_M < at < whole_m - _EDGE_M]
    held: dict[str, tuple[float, list[str]]] = {}
    for at, tag, known in (*edges, *sorted(clear, key=lambda each: each[:2])):
        tags = held.setdefault(both(at, known), (at, []))[1]
        if tag not in tags:
            tags.append(tag)
    return [(at, words, ", ".join(tags)) for words, (at, tags) in held.items()]
