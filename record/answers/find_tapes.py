"""Which landmarks to tape from: those that stand, at a good angle, on short tapes."""

from __future__ import annotations

import math
import re
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from record.answers.find_values import Tape, Tapes
from record.calc.combine import root_sum_square
from record.calc.ties import Fix, Tie, fixes, tape_tolerance_m
from record.fold import AsBuilt, Thing
from record.place.tied import LANDMARK_NOT_KNOWN_M

HOLDING_M = 0.02  # of hooking, pulling and plumbing a tape in bad weather; no source
SAG = 0.001  # of its length besides, for sag and wind on a tape nobody holds up half-way; no source
LONGEST_M = 30.0  # a tape as crews carry it, 100 ft; a longer pull is offered only for want of one
LEAST_M = 0.5  # nearer than this a landmark gives no direction
LOST = re.compile(
    r"\b(demolish|lost|gone|removed|destroy|felled|cut down|missing|pulled down|torn down|moved)"
)


@dataclass(frozen=True, slots=True)
class Mark:
    """A landmark as it stands, its distance from the point asked for, and what a tape is worth."""

    thing: Thing
    x: float
    y: float
    length_m: float
    tolerance_m: float


def lost(built: AsBuilt) -> dict[str, str]:
    """Return the landmarks that are gone, each with the words that say so and the entry."""
    found = {}
    for mark in built.of_kind("landmark"):
        said = _last_word(built, mark)
        if said is not None and LOST.search(said[1].casefold()):
            found[mark.tag] = f"{said[1]} ({said[2]})"
    return found


def _last_word(built: AsBuilt, mark: Thing) -> tuple[str, str, str] | None:
    """Return the day, words and entry of the newest statement of whether a landmark stands."""
    told = [
        (held.on, str(held.value), held.entry.number)
        for held in mark.held("state")
        if isinstance(held.value, str)
    ]
    for happening in built.about(mark.tag, "worked by others", "left as", "inspected"):
        words = happening.text("what") or happening.text("state")
        # Only what says that it is lost counts: other work beside it does not bring it back.
        if words and happening.about == mark.tag and LOST.search(words.casefold()):
            told.append((happening.on, words, happening.entry.number))
    return max(told, default=None, key=lambda each: each[0])


def marks(
    built: AsBuilt, at: tuple[float, float], without: str, gone: Container[str] | None = None
) -> tuple[Mark, ...]:
    """Return the landmarks that stand, nearest first; ``gone`` are taken as lost in their place."""
    gone = lost(built) if gone is None else gone
    found = []
    for thing in built.of_kind("landmark"):
        x, y = thing.quantity("x"), thing.quantity("y")
        if x is None or y is None or thing.tag in gone or thing.tag == without:
            continue
        length = math.dist(at, (float(x.si), float(y.si)))
        if length < LEAST_M:
            continue
        placed = max((float(q.tol) for q in (x, y) if q.tol), default=LANDMARK_NOT_KNOWN_M)
        held = HOLDING_M + SAG * length
        tolerance = root_sum_square(tape_tolerance_m(length, "II", held), placed)
        found.append(Mark(thing, float(x.si), float(y.si), length, tolerance))
    return tuple(sorted(found, key=lambda mark: (mark.length_m, mark.thing.tag)))


def tapes(
    built: AsBuilt,
    at: tuple[float, float],
    without: str = "",
    gone: Container[str] | None = None,
) -> Tapes | None:
    """
    Return the two tapes that fix ``at`` best, and one to check them; None without two landmarks.

    Best is the narrowest ellipse of the two, so that angle and length both count. ``gone`` are the
    landmarks that do not stand, where others than those told as lost.
    """
    near = marks(built, at, without, gone)
    short = [mark for mark in near if mark.length_m <= LONGEST_M]
    pairs = sorted(_pairs(short if len(short) > 1 else near, at), key=lambda pair: pair[0])
    if not pairs:
        return None
    _, first, second, fix = pairs[0]
    used = {first.thing.tag, second.thing.tag}
    check = next(
        (other for _, *pair, _ in _checks(near, at, (first, second)) for other in pair
         if other.thing.tag not in used),
        None,
    )  # fmt: skip
    side, turn = _side(at, first, second)
    ellipse = fix.ellipse
    return Tapes(
        first=_tape(first),
        second=_tape(second),
        side=side,
        turn=turn,
        angle_deg=fix.angle_deg,
        weak=fix.weak,
        meets_within_m=ellipse.semi_major_m if ellipse else first.length_m + second.length_m,
        check=None if check is None else _tape(check),
    )


Pair = tuple[tuple[float, str], Mark, Mark, Fix]


def _pairs(near: Sequence[Mark], at: tuple[float, float]) -> Iterator[Pair]:
    for one, other in combinations(near, 2):
        if math.dist((one.x, one.y), (other.x, other.y)) < LEAST_M:
            continue
        ties = [Tie(m.x, m.y, math.dist(at, (m.x, m.y)), m.tolerance_m) for m in (one, other)]
        try:
            found = fixes(ties)
        except ValueError:
            continue  # rounding put two tapes in one line out of each other's reach
        fix = min(found, key=lambda each: math.dist(at, (each.x_m, each.y_m)))
        if fix.ellipse is not None:
            yield (fix.ellipse.semi_major_m, one.thing.tag + other.thing.tag), one, other, fix


def _checks(near: Sequence[Mark], at: tuple[float, float], used: tuple[Mark, Mark]) -> list[Pair]:
    """Return pairs of one used landmark and one more, the one best placed first."""
    tags = {mark.thing.tag for mark in used}
    found = [
        pair for pair in _pairs(near, at) if len(tags & {pair[1].thing.tag, pair[2].thing.tag}) == 1
    ]
    return sorted(found, key=lambda pair: pair[0])


def _tape(mark: Mark) -> Tape:
    thing = mark.thing
    placed = {held.entry.number: held for name in ("x", "y") for held in thing.held(name)}
    return Tape(
        landmark=thing.tag,
        what=thing.words("what"),
        length_m=mark.length_m,
        state=thing.words("state"),
        entries=tuple(placed),
    )


def _side(at: tuple[float, float], one: Mark, other: Mark) -> tuple[str, str]:
    """Return on which side of the line of two landmarks a point lies: by compass, and turning."""
    dx, dy = other.x - one.x, other.y - one.y
    left = dx * (at[1] - one.y) - dy * (at[0] - one.x) > 0
    normal = (-dy, dx) if left else (dy, -dx)
    return compass(*normal), "left" if left else "right"


WINDS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


def compass(east: float, north: float) -> str:
    """
    Return the nearest of eight winds on the site grid, north being y.

    >>> compass(0.0, -2.0), compass(-1.0, 1.0)
    ('south', 'north-west')
    """
    return WINDS[round(math.degrees(math.atan2(north, east)) / 45) % 8]
