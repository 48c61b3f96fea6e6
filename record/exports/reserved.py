"""What a reader is to leave alone for what they may not see: whole panels and modules of ground.

It is what `behind` and `beneath` answer, asked of every panel and of all the ground; no more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.place import face_frame
from record.place.modules import ROUND_HULL_M, SQUARE_M
from record.readers import View

DEEP_M = 1.0  # behind a panel; as `behind` asks it unless told otherwise
TOLD_EACH = 40  # squares; of more the box round them all is told, which is more ground
Box = tuple[float, float, float, float]  # least x and y, greatest x and y, on the site grid


@dataclass(frozen=True, slots=True)
class ReservedPlaces:
    """``ground``: what each module is, and its box. ``everywhere``: all ground is reserved."""

    panels: tuple[str, ...]
    ground: tuple[tuple[str, Box], ...]
    everywhere: bool


def reserved_of(view: View) -> ReservedPlaces:
    """Return what is reserved for the view's reader; nothing where they see all there is."""
    if not view.partial:
        return ReservedPlaces((), (), everywhere=False)
    modules = view.reserved_modules()
    hulls, squares = modules or (frozenset(), frozenset())
    blocks = view.blocks()
    ground = [(f"hull {tag} and {ROUND_HULL_M:g} m round it", blocks[tag]) for tag in sorted(hulls)]
    ground += [*_squares(squares)]
    return ReservedPlaces(tuple(_panels(view)), tuple(ground), everywhere=modules is None)


def _panels(view: View) -> Iterator[str]:
    for panel in view.built.of_kind("panel"):
        hull = view.hulls.get(panel.text("hull") or "")
        frame = face_frame(panel, hull) if hull else None
        if frame is None or view.reserved(frame, DEEP_M):
            yield panel.tag


def _squares(squares: frozenset[tuple[int, int]]) -> Iterator[tuple[str, Box]]:
    boxes = [
        (x * SQUARE_M, y * SQUARE_M, (x + 1) * SQUARE_M, (y + 1) * SQUARE_M)
        for x, y in sorted(squares)
    ]
    if len(boxes) <= TOLD_EACH:
        yield from (("a square of the grid", box) for box in boxes)
        return
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    yield "squares of the grid", (min(x0), min(y0), max(x1), max(y1))


def reserved_words(places: ReservedPlaces) -> str:
    """Return it in one line."""
    if places.everywhere:
        return "RESERVED: all of the ground, and every panel."
    said = [f"panels {', '.join(places.panels)}"] if places.panels else []
    said += [
        f"{what} (x {x0:g} to {x1:g}, y {y0:g} to {y1:g})"
        for what, (x0, y0, x1, y1) in places.ground
    ]
    return f"RESERVED: {'; '.join(said)}." if said else "Nothing is reserved as far as is recorded."
