"""Boxes upright on the site grid, and which of them meet another."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

#: x, y, z from, and x, y, z to; metres on the site grid.
Box = tuple[float, float, float, float, float, float]
CELL_M = 2.0  # about as wide as a panel
MANY = 64  # cells: a box over more of them is held against every time
FAR_M = 1e6  # off any site; what reaches so far is over many cells


class Boxes:
    """Boxes, by the squares of the ground that they stand on."""

    def __init__(self, boxes: Sequence[Box]) -> None:
        self._boxes = boxes
        self._wide: list[int] = []
        self._on: dict[tuple[int, int], list[int]] = {}
        for place, box in enumerate(boxes):
            if _many(box):
                self._wide.append(place)
            else:
                for cell in _cells(box):
                    self._on.setdefault(cell, []).append(place)

    def meeting(self, space: Box) -> list[int]:
        """Return the places of the boxes that meet or touch a space, in their order."""
        if _many(space):
            near: set[int] = set(range(len(self._boxes)))
        else:
            near = set(self._wide).union(*(self._on.get(cell, ()) for cell in _cells(space)))
        return sorted(place for place in near if meet(self._boxes[place], space))


def meet(one: Box, other: Box) -> bool:
    """Return whether two boxes meet or touch."""
    return (
        one[0] <= other[3]
        and one[3] >= other[0]
        and one[1] <= other[4]
        and one[4] >= other[1]
        and one[2] <= other[5]
        and one[5] >= other[2]
    )


def _many(box: Box) -> bool:
    if max(map(abs, box)) > FAR_M:
        return True
    wide, deep = _sides(box)
    return len(wide) * len(deep) > MANY


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    return itertools.product(*_sides(box))


def _sides(box: Box) -> tuple[range, range]:
    x0, y0, _, x1, y1, _ = box
    return (
        range(math.floor(x0 / CELL_M), math.floor(x1 / CELL_M) + 1),
        range(math.floor(y0 / CELL_M), math.floor(y1 / CELL_M) + 1),
    )
