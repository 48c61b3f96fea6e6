"""Layers too thin to draw, one under another with a hatch each, and the same in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manual.drawings import shapes
from manual.drawings.cut import Fill
from manual.drawings.cut_marks import filled
from manual.drawings.ink import (
    TEXT_MM,
    Drawing,
    Ink,
    finished,
    gather,
    paragraph,
    written,
)
from manual.drawings.legend import SAMPLE_MM
from manual.drawings.lettering import wrap
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import LINE_MM
from manual.languages import say

_BETWEEN_MM = 6.0


@dataclass(frozen=True, slots=True)
class Layer:
    fill: Fill
    words: str


@dataclass(frozen=True, slots=True)
class Strip:
    """Layers in order, the first on top."""

    title: str
    layers: tuple[Layer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    name: str
    strips: tuple[Strip, ...]
    notes: tuple[str, ...] = ()


def strips_drawing(strips: Strips) -> Drawing:
    """Draw them in two columns, each next one in the column that is shorter so far."""
    head, y = headed(strips.name, say("strips.not_to_scale"))
    wide = (ROOM_MM - _BETWEEN_MM) / 2
    deep = [y + 1.5, y + 1.5]
    inks = [head]
    for strip in strips.strips:
        side = 0 if deep[0] <= deep[1] else 1
        x = EDGE_MM + side * (wide + _BETWEEN_MM)
        ink, bottom = _strip(strip, x, deep[side], wide)
        inks.append(ink)
        deep[side] = bottom + 2.5
    foot, y = paragraph(list(strips.notes), EDGE_MM, max(deep), width_mm=ROOM_MM)
    return finished(
        gather((*inks, foot)),
        title=strips.name,
        alt=" ".join(_sentences(strips)),
        width_mm=WIDTH_MM,
        height_mm=y + EDGE_MM,
    )


def _sentences(strips: Strips) -> Iterator[str]:
    yield f"{strips.name}."
    for strip in strips.strips:
        said = "; ".join(layer.words for layer in strip.layers)
        yield f"{strip.title}: {said}."
    yield from strips.notes


def _strip(strip: Strip, x: float, y: float, wide: float) -> tuple[Ink, float]:
    title, y = paragraph([strip.title], x, y, width_mm=wide, bold=True)
    inks = [title]
    y += 0.4
    for layer in strip.layers:
        lines = wrap(layer.words, most_em=(wide - SAMPLE_MM - 2.0) / TEXT_MM)
        size = max(1, len(lines)) * LINE_MM + 0.6
        ring = shapes.box(x, y, x + SAMPLE_MM, y + size)
        boxes = tuple(
            written(line, x + SAMPLE_MM + 1.5, y + 0.3 + k * LINE_MM)
            for k, line in enumerate(lines)
        )
        inks.append(Ink(tuple(filled(layer.fill, ring)), boxes))
        y += size
    return gather(inks), y
