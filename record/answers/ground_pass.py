"""Where another trade may dig outside, how deep, and what is reserved, in squares of the grid.

Told square by square: a reserved square is reserved whole. Round a hull all is reserved for
everyone. Of the ground elsewhere whole modules are reserved where something is that the trade may
not know, and others of the same size that hide nothing, chosen by the owner's own key; so a
reserved module points at nothing. What the trade may know is reserved with its reason.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from record.answers.beneath import anywhere_outside
from record.answers.beneath_hits import by_hand_m, hits, surface_at
from record.answers.beneath_values import Hit
from record.answers.digging import before_digging
from record.answers.saying import length, wrapped
from record.answers.work_pass import PHOTO, STOP, NoPass, innocent, key_of, ring_of
from record.place.modules import ROUND_HULL_M, SQUARE_M
from record.readers import View

CELL_M = 1.0
MOST_CELLS = 400
Cell = tuple[int, int]  # of its south-west corner, in whole squares east and north of the zero


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundPass:
    """What a pass for the ground outside allows. ``noted`` says what the trade may know of."""

    east_m: float  # south-west corner of the area, on the site's grid
    north_m: float
    size_east_m: float
    size_north_m: float
    square_m: float  # a side of each square
    depth_m: float  # from the ground as it was recorded
    open: tuple[tuple[int, int], ...]  # squares: metres east and north of their south-west corner
    reserved: tuple[tuple[int, int], ...]
    noted: tuple[str, ...]
    deeper: tuple[str, ...]  # what the trade may know of under the open squares
    before_digging: tuple[str, ...]
    until: str
    for_whom: str
    ring: str
    stop: str = STOP
    photo: str = PHOTO


def ground_pass(
    owner: View,
    trade: View,
    area: tuple[float, float, float, float],
    *,
    depth_m: float,
    until: str,
    for_whom: str,
) -> GroundPass:
    """
    Return a pass for an area of the grid, digging no deeper than ``depth_m``.

    ``area`` is x and y of its south-west corner and its size east and north, in metres; ``owner``
    is the owner's view, of which only a key comes in. Raises NoPass.
    """
    east, north, wide, high = area
    if not _sensible(area, depth_m):
        raise NoPass(f"an area and a depth above nothing, of at most {MOST_CELLS} squares of 1 m")
    cells = tuple(_cells(area))
    unplaced = sorted({each.tag for each in anywhere_outside(trade)})
    if unplaced:
        raise NoPass(
            f"{', '.join(unplaced)} may lie anywhere, as no whole place is recorded: "
            "locate and record that first"
        )
    key, ring = key_of(owner), ring_of(trade)
    why: Counter[str] = Counter()
    reserved, deeper = [], dict[str, float]()
    for cell in cells:
        met = _met(trade, cell)
        known = set(_known(met, depth_m, by_hand_m(trade)))
        why.update(known)
        for hit in met:
            down = hit.depth_may_be_m[0] if hit.depth_may_be_m else 0.0
            deeper[hit.tag] = min(down, deeper.get(hit.tag, down))
        if known or _by_hull(trade, cell) or _module(trade, key, cell):
            reserved.append(cell)
    return GroundPass(
        east_m=east,
        north_m=north,
        size_east_m=wide,
        size_north_m=high,
        square_m=CELL_M,
        depth_m=depth_m,
        open=tuple(cell for cell in cells if cell not in set(reserved)),
        reserved=tuple(reserved),
        noted=tuple(f"{words}: {_squares(count)}" for words, count in sorted(why.items())),
        deeper=tuple(
            f"{tag} may lie from {length(down)} down"
            for tag, down in sorted(deeper.items())
            if down - depth_m >= by_hand_m(trade)
        ),
        before_digging=tuple(before_digging(trade.built.site_thing())),
        until=until,
        for_whom=for_whom,
        ring=ring,
    )


def _squares(count: int) -> str:
    return f"{count} square{'' if count == 1 else 's'}"


def _sensible(area: tuple[float, float, float, float], depth_m: float) -> bool:
    """Return whether there is an area and a depth, of no more squares than a pass can draw."""
    if not all(map(math.isfinite, (*area, depth_m))) or min(*area[2:], depth_m) <= 0:
        return False
    wide, high = (
        math.ceil(low + size) - math.floor(low)
        for low, size in ((area[0], area[2]), (area[1], area[3]))
    )
    return wide * high <= MOST_CELLS


def _cells(area: tuple[float, float, float, float]) -> Iterator[Cell]:
    """Yield every whole square that the area meets, from the south-west, row by row."""
    east, north, wide, high = area
    for y in range(math.floor(north), math.ceil(north + high)):
        for x in range(math.floor(east), math.ceil(east + wide)):
            yield x, y


def _middle(cell: Cell) -> tuple[float, float]:
    return cell[0] + CELL_M / 2, cell[1] + CELL_M / 2


def _met(trade: View, cell: Cell) -> tuple[Hit, ...]:
    """Return what the trade may know below some part of a square, or near; hulls left out."""
    at, half = _middle(cell), CELL_M * math.sqrt(2) / 2
    found = hits(trade, at, half, surface_at(trade, at))
    return tuple(hit for hit in found if hit.kind != "hull")


def _known(met: tuple[Hit, ...], depth_m: float, by_hand: float) -> Iterator[str]:
    """Yield why a square is not open, of what the trade may know."""
    for hit in met:
        if hit.depth_may_be_m is None:
            yield f"{hit.tag} lies there, how deep is not recorded"
        elif hit.depth_may_be_m[0] - depth_m < by_hand:
            yield f"{hit.tag} may lie within {length(max(by_hand, hit.hand_m))} of the digging"


def _by_hull(trade: View, cell: Cell) -> bool:
    """Return whether a square is over a hull, or in the ground round it that bears on it."""
    x, y = _middle(cell)
    for hull in trade.hulls.values():
        xs, ys = zip(*hull.outline(), strict=True)
        by = ROUND_HULL_M + hull.horizontal_m + CELL_M / 2
        if min(xs) - by <= x <= max(xs) + by and min(ys) - by <= y <= max(ys) + by:
            return True
    return False


def _module(trade: View, key: bytes, cell: Cell) -> bool:
    """Return whether a square is in a module that is reserved, for something or for nothing."""
    if trade.reserved_below(_middle(cell), CELL_M / 2):
        return True
    # What touches a module's edge is in it, as what is reserved for something is.
    xs = {math.floor(cell[0] / SQUARE_M), math.ceil(cell[0] / SQUARE_M) - 1}
    xs.add(math.floor((cell[0] + CELL_M) / SQUARE_M))
    ys = {math.floor(cell[1] / SQUARE_M), math.ceil(cell[1] / SQUARE_M) - 1}
    ys.add(math.floor((cell[1] + CELL_M) / SQUARE_M))
    return any(innocent(key, f"ground {x} {y}") for x in xs for y in ys)


def rows(cells: tuple[Cell, ...]) -> Iterator[str]:
    """Yield squares in words, a row of the grid a piece: ``y 7: x 22 to 24, 27``."""
    for north in sorted({y for _, y in cells}):
        xs = sorted(x for x, y in cells if y == north)
        runs: list[tuple[int, int]] = []
        for x in xs:
            if runs and runs[-1][1] == x - 1:
                runs[-1] = (runs[-1][0], x)
            else:
                runs.append((x, x))
        said = ", ".join(f"{a} to {b}" if b > a else f"{a}" for a, b in runs)
        yield f"y {north}: x {said}"


def ground_pass_words(given: GroundPass) -> Iterator[str]:
    """Yield a pass in lines that fit a page, its squares drawn with north at the top."""
    xs = sorted({x for x, _ in (*given.open, *given.reserved)})
    ys = sorted({y for _, y in (*given.open, *given.reserved)}, reverse=True)
    opened = set(given.open)
    yield (
        f"GROUND PASS for {given.for_whom}: from x {xs[0]} to {xs[-1] + 1} m, "
        f"y {ys[-1]} to {ys[0] + 1} m on the site's grid"
    )
    yield f"  Until {given.until}, to the end of that day. Then it is worth nothing."
    yield f"  No deeper than {length(given.depth_m)} below the ground as it was recorded."
    yield "  Squares of 1 m, north at the top: o open, # reserved. Keep out of all of a # square."
    yield from (
        f"  {y:>6} to {y + 1:<5} " + " ".join("o" if (x, y) in opened else "#" for x in xs)
        for y in ys
    )
    yield f"  The first column is x {xs[0]} to {xs[0] + 1}, the last x {xs[-1]} to {xs[-1] + 1}."
    for line in _said(given):
        yield from wrapped(line)
    yield "  Open says only that the record reserves nothing there. Before any digging:"
    for line in given.before_digging:
        yield from wrapped(line, 4, 6)
    for line in (given.stop, f"Ring: {given.ring}", given.photo):
        yield from wrapped(line)
    yield "  It rests on the record alone. What nobody wrote may still be there."


def _said(given: GroundPass) -> Iterator[str]:
    yield from (f"Reserved: {line}." for line in given.noted)
    yield from (f"Deeper, under open squares: {line}." for line in given.deeper)
    if not given.open:
        yield "No square is open: ask before any digging."
