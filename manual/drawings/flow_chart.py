"""A flow diagram: boxes in plain words from the top down, arrows the way it flows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from manual.drawings import svg
from manual.drawings.flow import Edge, Flow, Join, Node, Sort, flow_words, join_words, sort_words
from manual.drawings.flow_layers import Rows, rows
from manual.drawings.flow_marks import PENS, SIGN_MM, arrow, frame, sign
from manual.drawings.ink import (
    TEXT_MM,
    Box,
    Drawing,
    Ink,
    finished,
    gather,
    paragraph,
    written,
)
from manual.drawings.legend import SAMPLE_MM, Sample, legend
from manual.drawings.lettering import wrap
from manual.drawings.paper import EDGE_MM, WIDTH_MM, headed
from manual.drawings.place import LINE_MM, spread
from manual.drawings.svg import Point
from manual.languages import say

_MOST_WIDE_MM = 96.0
_LEAST_WIDE_MM = 40.0
_BETWEEN_MM = 4.0
_LANE_MM = 5.0  # where a line only passes
_INNER_MM = 0.9
_HEAD_ROOM_MM = 3.0  # of the gap above a row, for the heads of arrows
_TAIL_MM = 2.4  # below a row, before a line may turn
_TRACK_MM = 1.8
_PORT_MM = 3.4
Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class _Slot:
    """A node, or a place where a line passes, on paper."""

    left: float
    width: float
    lines: tuple[tuple[str, bool], ...] = ()

    @property
    def height(self) -> float:
        return len(self.lines) * LINE_MM + 2 * _INNER_MM if self.lines else 0.0

    @property
    def middle(self) -> float:
        return self.left + self.width / 2


def flow_chart(flow: Flow) -> Drawing:
    """Draw it; a way that leads back up ends in a box that says where it goes on."""
    flow = _without_repeats(flow)
    laid = rows([node.key for node in flow.nodes], _pairs(flow))
    if laid.closing:
        flow = _opened(flow, laid.closing)
        laid = rows([node.key for node in flow.nodes], _pairs(flow))
    width = max(WIDTH_MM, *(_least(row, laid) for row in laid.rows), 0.0)
    head, y = _head(flow, width)
    slots = _slots(flow, laid, width)
    inks, y = _rows(flow, laid, slots, y + 1.0)
    foot, y = _foot(flow, y + 2.0, width)
    return finished(
        gather((*inks, head, foot)),
        title=flow.name,
        alt=flow_words(flow),
        width_mm=width,
        height_mm=y + EDGE_MM,
    )


def _pairs(flow: Flow) -> list[Key]:
    return [(edge.start, edge.end) for edge in flow.edges]


def _without_repeats(flow: Flow) -> Flow:
    known = {node.key for node in flow.nodes}
    first: dict[Key, Edge] = {}
    for edge in flow.edges:
        if {edge.start, edge.end} <= known:
            first.setdefault((edge.start, edge.end), edge)
    return replace(flow, edges=tuple(first.values()))


def _opened(flow: Flow, closing: tuple[Key, ...]) -> Flow:
    heads = {node.key: node.head for node in flow.nodes}
    nodes, edges = list(flow.nodes), []
    for edge in flow.edges:
        if (edge.start, edge.end) in closing:
            key = f"{edge.start}>{edge.end}"
            nodes.append(Node(key, Sort.END, say("flow.on_at", head=heads[edge.end])))
            edge = replace(edge, end=key)
        edges.append(edge)
    return replace(flow, nodes=tuple(nodes), edges=tuple(edges))


def _least(row: tuple[str, ...], laid: Rows) -> float:
    passing = sum(1 for key in row if key in laid.passing)
    real = len(row) - passing
    between = _BETWEEN_MM * (len(row) - 1)
    return real * _LEAST_WIDE_MM + passing * _LANE_MM + between + 2 * EDGE_MM


def _slots(flow: Flow, laid: Rows, width: float) -> dict[str, _Slot]:
    """Boxes of one width, each as near as may be under what leads to it."""
    nodes = {node.key: node for node in flow.nodes}
    wide = min((_room(row, laid, width) for row in laid.rows), default=0.0)
    sizes = {key: _LANE_MM if key in laid.passing else wide for row in laid.rows for key in row}
    joined: dict[str, list[str]] = {}
    for path in laid.way.values():
        for one, other in pairwise(path):
            joined.setdefault(other, []).append(one)
            joined.setdefault(one, []).append(other)
    middle: dict[str, float] = {}
    for upward in (False, True, False):
        for row in reversed(laid.rows) if upward else laid.rows:
            _settle(row, sizes, joined, middle, width)
    return {
        key: _Slot(middle[key] - size / 2, size, _lines(nodes[key], size) if key in nodes else ())
        for key, size in sizes.items()
    }


def _room(row: tuple[str, ...], laid: Rows, width: float) -> float:
    passing = sum(1 for key in row if key in laid.passing)
    spare = width - 2 * EDGE_MM - _BETWEEN_MM * (len(row) - 1) - passing * _LANE_MM
    return min(_MOST_WIDE_MM, spare / max(len(row) - passing, 1))


def _settle(
    row: tuple[str, ...],
    sizes: Mapping[str, float],
    joined: Mapping[str, list[str]],
    middle: dict[str, float],
    width: float,
) -> None:
    """Set the middles of a row near those of what its places are joined to, in their order."""
    wanted, least = [], -math.inf
    for k, key in enumerate(row):
        beside = [middle[each] for each in joined.get(key, ()) if each in middle]
        at = math.fsum(beside) / len(beside) if beside else (k + 0.5) * width / len(row)
        least = max(least, at - sizes[key] / 2)
        wanted.append(least)
    taken = [sizes[key] + _BETWEEN_MM for key in row]
    starts = spread(wanted, taken, least=EDGE_MM, most=width - EDGE_MM + _BETWEEN_MM)
    for key, start in zip(row, starts, strict=True):
        middle[key] = start + sizes[key] / 2


def _lines(node: Node, wide: float) -> tuple[tuple[str, bool], ...]:
    room = (wide - SIGN_MM - 2 * _INNER_MM) / TEXT_MM
    head = [(line, True) for line in wrap(node.head, most_em=room, bold=True)]
    rest = [(line, False) for words in node.words for line in wrap(words, most_em=room)]
    return (*head, *rest) or ((say("legend.not_recorded"), True),)


def _rows(flow: Flow, laid: Rows, slots: dict[str, _Slot], y: float) -> tuple[list[Ink], float]:
    nodes = {node.key: node for node in flow.nodes}
    joins = {(edge.start, edge.end): edge.join for edge in flow.edges}
    leaves, comes = _ports(laid, slots)
    top: dict[str, float] = {}
    deep: dict[int, float] = {}
    tracks: list[dict[Key, float]] = []
    for r, row in enumerate(laid.rows):
        if r:
            track, gap = _tracks(r, laid, leaves, comes, y)
            tracks.append(track)
            y += gap
        deep[r] = max(slots[key].height for key in row)
        top.update(dict.fromkeys(row, y))
        y += deep[r]
    inks = [_box(nodes[key], slots[key], top[key]) for key in nodes]
    depth = {key: deep[r] for r, row in enumerate(laid.rows) for key in row}
    lines: list[Ink] = []
    for edge, path in laid.way.items():
        row_of = {key: r for r, row in enumerate(laid.rows) for key in row}
        points: list[Point] = []
        for one, other in pairwise(path):
            x0, x1 = leaves[edge, one], comes[edge, other]
            bend = tracks[row_of[one]][edge]
            start = top[one] + (slots[one].height if one in nodes else depth[one])
            points += [(x0, start), (x0, bend), (x1, bend), (x1, top[other])]
        lines.append(Ink(tuple(arrow(_plain(points), joins[edge]))))
    return [*lines, *inks], y


def _plain(points: list[Point]) -> list[Point]:
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > 1e-6:
            kept.append(point)
    return kept


_At = dict[tuple[Key, str], float]


def _ports(laid: Rows, slots: dict[str, _Slot]) -> tuple[_At, _At]:
    """Where each edge leaves a place and comes to the next, across the paper."""
    out: dict[str, list[tuple[float, Key]]] = {}
    into: dict[str, list[tuple[float, Key]]] = {}
    for edge, path in laid.way.items():
        for one, other in pairwise(path):
            out.setdefault(one, []).append((slots[other].middle, edge))
            into.setdefault(other, []).append((slots[one].middle, edge))
    leaves = {(e, k): x for k, held in out.items() for e, x in _shared(held, slots[k])}
    comes = {(e, k): x for k, held in into.items() for e, x in _shared(held, slots[k])}
    _straight(laid, leaves, comes)
    return leaves, comes


def _shared(held: list[tuple[float, Key]], slot: _Slot) -> Iterator[tuple[Key, float]]:
    step = min(_PORT_MM, slot.width / (len(held) + 1))
    first = slot.middle - step * (len(held) - 1) / 2
    for k, (_, edge) in enumerate(sorted(held)):
        yield edge, first + k * step


def _straight(laid: Rows, leaves: _At, comes: _At) -> None:
    """Move a line aside where another one, of other ends, comes down right over it."""
    for edge, path in laid.way.items():
        for one, other in pairwise(path):
            near = (
                x
                for (e, k), x in leaves.items()
                if e != edge and k != one and _same_row(laid, k, one)
            )
            if any(abs(x - comes[edge, other]) < 0.8 for x in near):
                comes[edge, other] += 1.7
                if other in laid.passing:
                    leaves[edge, other] = comes[edge, other]


def _same_row(laid: Rows, one: str, other: str) -> bool:
    return any(one in row and other in row for row in laid.rows)


def _tracks(
    r: int, laid: Rows, leaves: _At, comes: _At, y: float
) -> tuple[dict[Key, float], float]:
    """The level at which each edge between two rows runs across, and the height of the gap."""
    found = []
    for edge, path in laid.way.items():
        for one, other in pairwise(path):
            if one in laid.rows[r - 1]:
                found.append((leaves[edge, one], comes[edge, other], edge))
    level = [each for each in found if abs(each[0] - each[1]) > 1e-6]
    # Those that go right leave from the right first, so that one does not cross the next.
    level.sort(key=lambda e: (e[1] >= e[0], e[0] if e[1] < e[0] else -e[0], e[2]))
    at = {edge: y + _TAIL_MM + k * _TRACK_MM for k, (_, _, edge) in enumerate(level)}
    gap = _TAIL_MM + len(level) * _TRACK_MM + _HEAD_ROOM_MM
    return {edge: at.get(edge, y + _TAIL_MM) for _, _, edge in found}, gap


def _box(node: Node, slot: _Slot, top: float) -> Ink:
    right, bottom = slot.left + slot.width, top + slot.height
    x = slot.left + _INNER_MM + SIGN_MM
    boxes: tuple[Box, ...] = tuple(
        written(words, x, top + _INNER_MM + k * LINE_MM, bold=bold)
        for k, (words, bold) in enumerate(slot.lines)
    )
    drawn = frame(node.sort, slot.left, top, right, bottom)
    middle = min(top + slot.height / 2, top + _INNER_MM + LINE_MM)
    return Ink((*drawn, *sign(node.sort, slot.left + 0.6 + SIGN_MM / 2, middle)), boxes)


def _head(flow: Flow, width: float) -> tuple[Ink, float]:
    return headed(flow.name, say("flow.from_the_top_down"), width_mm=width - 2 * EDGE_MM)


def _foot(flow: Flow, y: float, width: float) -> tuple[Ink, float]:
    samples, y = legend(
        list(_samples(flow)), left_mm=EDGE_MM, right_mm=width - EDGE_MM, top_mm=y + 1.0
    )
    words, y = paragraph(list(flow.notes), EDGE_MM, y + 1.0, width_mm=width - 2 * EDGE_MM)
    return samples + words, y


def _samples(flow: Flow) -> Iterator[tuple[Sample, str]]:
    sorts, joins = sort_words(), join_words()
    for sort in Sort:
        if any(node.sort is sort for node in flow.nodes):
            yield _sign_of(sort), sorts[sort]
    for join in Join:
        if any(edge.join is join for edge in flow.edges):
            yield _line_of(join), joins[join]


def _sign_of(sort: Sort) -> Sample:
    return lambda x, y: tuple(sign(sort, x + SAMPLE_MM / 2, y + (0.8 if sort is Sort.HAND else 0)))


def _line_of(join: Join) -> Sample:
    def draw(x: float, y: float) -> tuple[str, ...]:
        line = svg.line([(x, y), (x + SAMPLE_MM, y)], PENS[join])
        if join is not Join.SHUT:
            return (line,)
        crossed = svg.line([(x + 4, y - 1.5), (x + 4, y + 1.5)], svg.HEAVY)
        return (line, crossed, svg.line([(x + 5.2, y - 1.5), (x + 5.2, y + 1.5)], svg.HEAVY))

    return draw
