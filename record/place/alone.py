"""One hull by itself, where nobody wrote down its place on the site grid.

What was measured from a hull's own walls lies in it wherever the hull lies. So the hull is put at
two places, turned another way at the second: what is in it at the same spot both times is placed;
what is not hangs on the grid, and may be anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from record.fold import AsBuilt, Thing
from record.place.frames import HullFrame, hull_frame
from record.place.nearby import Nearby
from record.place.shapes import Unplaced, openings, shapes
from record.place.solids import Capsule, Shape
from record.words import tell

HERE, THERE = (0.0, 0.0, 0.0), (137.0, -59.0, 67.0)  # x and y in metres, bearing in degrees
SAME_DIGITS = 6  # of a metre: what is carried there and back is rounded


def frame_alone(hull: Thing) -> HullFrame | None:
    """Return a hull's frame as if it lay at the origin, or None while a measure is missing."""
    return hull_frame(hull, HERE)


class Alone(Nearby):
    """The shapes and openings that are in one hull wherever it is."""

    def __init__(self, built: AsBuilt, hull: Thing) -> None:
        here, there = hull_frame(hull, HERE), hull_frame(hull, THERE)
        if here is None or there is None:
            raise ValueError(f"{hull.tag} lacks a measure of its own")
        super().__init__(built, {hull.tag: here})
        self._tag, self._there = hull.tag, {hull.tag: there}

    @cached_property
    def shapes(self) -> tuple[Shape, ...]:
        fixed = {_spot(shape) for shape in shapes(self._built, self._there)}
        return tuple(shape for shape in self._every[0] if self._own(shape, fixed))

    @cached_property
    def _solids(self) -> tuple[Shape, ...]:
        fixed = {_spot(shape) for shape in openings(self._built, self._there)}
        return (*self.shapes, *(shape for shape in self._every[1] if self._own(shape, fixed)))

    @cached_property
    def _every(self) -> tuple[tuple[Shape, ...], tuple[Shape, ...]]:
        """Every shape and every opening, as if the hull lay here, whatever they hang on."""
        return (
            tuple(shapes(self._built, self._hulls)),
            tuple(openings(self._built, self._hulls)),
        )

    def _own(self, shape: Shape, fixed: set[tuple[object, ...]]) -> bool:
        return shape.hull == self._tag and _spot(shape) in fixed

    @cached_property
    def unplaced(self) -> tuple[Unplaced, ...]:
        """What may be anywhere to this hull; of another hull the hull alone, for all in it."""
        found = (each for each in super().unplaced if not self._elsewhere(each.thing))
        told = {(each.thing.tag, each.words): each for each in (*found, *self._on_grid())}
        return tuple(told.values())

    def _elsewhere(self, thing: Thing) -> bool:
        if thing.tag == self._tag or thing.kind.word == "run":
            return thing.tag == self._tag
        within = thing.text("hull") if thing.kind.field("hull") else None
        return within not in (None, self._tag)

    def _on_grid(self) -> Iterator[Unplaced]:
        kept = set(map(_spot, self._solids))
        for shape in (*self._every[0], *self._every[1]):
            if _spot(shape) not in kept and not self._elsewhere(shape.thing):
                yield Unplaced(shape.thing, tell("place.on_the_grid", words=shape.words))


def _spot(shape: Shape) -> tuple[object, ...]:
    form = shape.form
    if isinstance(form, Capsule):
        numbers: tuple[float, ...] = (*form.start, *form.end, form.radius_m, form.rises_m)
    else:
        numbers = (*form.low, *form.high)
    spread = (*numbers, shape.horizontal_m, shape.vertical_m)
    return shape.thing.tag, shape.words, *(round(number, SAME_DIGITS) for number in spread)
