"""All panels of one hull, face by face: an index that one points at to see what is behind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from manual.drawings import shapes, svg
from manual.drawings.ink import Box, Drawing, Ink, finished, gather, paragraph, written
from manual.drawings.lettering import width_em
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import LINE_MM
from manual.drawings.svg import Pen
from manual.languages import say

Hatch = tuple[tuple[float, ...], float]  # angles, pitch

BETWEEN_MM = 6.0
MOST_HIGH_MM = 60.0  # of one face
#: Hatches, not shades: a copier takes a light grey for white.
BEHIND: Hatch = ((45.0,), 1.6)
RESERVED: Hatch = ((45.0, -45.0), 1.6)
HATCH = Pen(0.15, svg.GREY)
OFF_M = 0.05
TAG_MM = 2.65  # 7.5 pt


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelAt:
    """One panel of a face: metres from the face's lower left corner as one stands before it."""

    tag: str
    to: str  # the place in the manual that tells what is behind it
    u_m: float
    v_m: float
    width_m: float
    height_m: float
    behind: int  # how many things are recorded behind it
    reserved: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One face of a hull, its size in metres, and the panels on it."""

    name: str
    width_m: float
    height_m: float
    panels: tuple[PanelAt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walls:
    """The faces of one hull that have panels."""

    name: str
    walls: tuple[Wall, ...]
    unplaced: tuple[str, ...] = ()  # panels whose own place is not recorded


def walls_drawing(walls: Walls) -> Drawing:
    """Draw every face beside the others at one scale, each panel a mark that leads to its words."""
    per_m = _scale(walls.walls)
    head, y = headed(walls.name)
    inks, left_out, x, row_mm = [head], [], EDGE_MM, 0.0
    y += 2.0
    for wall in walls.walls:
        wide = max(wall.width_m * per_m, width_em(wall.name, bold=True) * TAG_MM)
        if x > EDGE_MM and x + wide > WIDTH_MM - EDGE_MM:
            x, y, row_mm = EDGE_MM, y + row_mm + BETWEEN_MM, 0.0
        ink, missed = _wall(wall, x, y, per_m)
        inks.append(ink)
        left_out.extend(missed)
        x, row_mm = x + wide + BETWEEN_MM, max(row_mm, LINE_MM + wall.height_m * per_m)
    foot, y = paragraph(list(_foot(walls, left_out)), EDGE_MM, y + row_mm + 3.0, width_mm=ROOM_MM)
    return finished(
        gather((*inks, foot)),
        title=walls.name,
        alt=walls_words(walls),
        width_mm=WIDTH_MM,
        height_mm=y + EDGE_MM,
        leads=any(not _off(panel) for wall in walls.walls for panel in wall.panels),
    )


def _scale(walls: Sequence[Wall]) -> float:
    """Return millimetres on paper to one metre: the longest two faces stand side by side."""
    longest = max(wall.width_m for wall in walls)
    highest = max(wall.height_m for wall in walls)
    return min((ROOM_MM - BETWEEN_MM) / 2 / longest, MOST_HIGH_MM / highest)


def _wall(wall: Wall, x: float, y: float, per_m: float) -> tuple[Ink, list[str]]:
    """Return a face from its top left corner, and the tags that found no room in it."""
    name = written(wall.name, x, y, size_mm=TAG_MM, bold=True)
    top = y + LINE_MM
    floor = top + wall.height_m * per_m
    edge = shapes.box(x, top, x + wall.width_m * per_m, floor)
    marks, labels, missed = [svg.outline(edge, svg.PLAIN)], [name], []
    for panel in wall.panels:
        if _off(panel):
            continue
        ring = _ring(panel, x, floor, per_m)
        label = _label(panel, ring)
        fits = label is not None and not any(label.overlaps(other) for other in labels)
        if label is not None and fits:
            labels.append(label)
        else:
            missed.append(panel.tag)
        marks.append(_mark(panel, ring))
    return Ink(tuple(marks), tuple(labels)), missed


def _off(panel: PanelAt) -> bool:
    """Whether a panel is recorded off its own face: drawn there, it would lie on another."""
    return panel.u_m < -OFF_M or panel.v_m < -OFF_M


Corners = tuple[float, float, float, float]


def _ring(panel: PanelAt, x: float, floor: float, per_m: float) -> Corners:
    left, bottom = x + panel.u_m * per_m, floor - panel.v_m * per_m
    return left, bottom - panel.height_m * per_m, left + panel.width_m * per_m, bottom


def _label(panel: PanelAt, ring: Corners) -> Box | None:
    left, top, right, bottom = ring
    middle = (top + bottom) / 2
    box = written(panel.tag, (left + right) / 2, middle, size_mm=TAG_MM, anchor="middle")
    if box.width_mm > right - left or box.height_mm > bottom - top:
        return None
    top = middle - box.height_mm / 2
    words = written(panel.tag, (left + right) / 2, top, size_mm=TAG_MM, anchor="middle")
    return replace(words, backed=panel.reserved or panel.behind > 0)


def _mark(panel: PanelAt, ring: Corners) -> str:
    shape = shapes.box(*ring)
    pen = svg.HEAVY if panel.reserved else svg.PLAIN
    inner = svg.outline(shape, pen, fill=svg.PAPER)
    angles, pitch = RESERVED if panel.reserved else BEHIND if panel.behind else ((), 1.0)
    for angle in angles:
        inner += svg.stroke(shapes.hatch(shape, angle_deg=angle, pitch=pitch), HATCH)
    title = svg.text_element("title", f"{panel.tag}: {_said(panel)}")
    return svg.element("g", title + inner, class_="leads", data_to=panel.to)


def _said(panel: PanelAt) -> str:
    if panel.reserved:
        return say("walls.reserved_ask_the_owner")
    if panel.behind:
        return say("walls.recorded_behind_it", behind=panel.behind)
    return say("walls.nothing_recorded_behind_it")


def _foot(walls: Walls, left_out: list[str]) -> Iterator[str]:
    yield (say("walls.hatched_something_is_recorded"))
    if left_out:
        yield say("walls.too_small_here_for", left_out=", ".join(left_out))
    off = [panel.tag for wall in walls.walls for panel in wall.panels if _off(panel)]
    if off:
        yield say("walls.recorded_off_the_face", off=", ".join(off))
    if walls.unplaced:
        yield say("walls.place_not_recorded_so", unplaced=", ".join(walls.unplaced))


def walls_words(walls: Walls) -> str:
    """Return the same in words, for those who listen."""
    told = [
        say(
            "walls.m_by_m",
            name=wall.name,
            width=f"{wall.width_m:.2f}",
            height=f"{wall.height_m:.2f}",
        )
        + "; ".join(
            say(
                "walls.m_across_and_m",
                tag=panel.tag,
                u=f"{panel.u_m:.2f}",
                v=f"{panel.v_m:.2f}",
                width=f"{panel.width_m:.2f}",
                height=f"{panel.height_m:.2f}",
                panel=_said(panel),
            )
            for panel in wall.panels
        )
        + "."
        for wall in walls.walls
    ]
    gone = (
        say("walls.place_not_recorded", unplaced=", ".join(walls.unplaced))
        if walls.unplaced
        else ""
    )
    return f"{walls.name}. {' '.join(told)}{gone}"
