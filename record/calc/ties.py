"""Where tape ties put a point, how well, and whether they agree with one another.

Ties are horizontal, and landmarks are taken as exact: what the landmarks themselves are out by
comes on top, in full where they share it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from record.calc.tape import horizontal_m, tape_tolerance_m
from record.calc.tie_fit import Ellipse, Fitted, Tie, chance, ellipses, fit, turned_m

__all__ = [
    "Ellipse",
    "Fix",
    "NoSuchPoint",
    "Tie",
    "chance",
    "fixes",
    "horizontal_m",
    "tape_tolerance_m",
]

Side = Literal["left", "right"]
Agreement = Literal["agree", "disagree", "cannot be told"]

_LIKELY = 0.05  # ties that agree do worse than this by chance one time in twenty
_DOUBT_M = 0.05  # without tolerances, a second place that fits this well is kept in doubt
_SAME_M = 1e-5  # two places nearer than this are one
_WEAK_BELOW_DEG, _WEAK_ABOVE_DEG = 30.0, 150.0  # common practice, no source


class NoSuchPoint(ValueError):
    """The ties meet nowhere, or not on the side that was stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """One place the ties allow."""

    x_m: float
    y_m: float
    residuals_m: tuple[float, ...]  # taped less worked, in the order of the ties
    s0: float | None  # of a tie of unit weight; [m] unless every tie has a tolerance; None for two
    angle_deg: float  # of the two ties that meet nearest to square
    ellipse: Ellipse | None  # 95 %, from the tolerances; None if a tie has none or all are in line
    ellipse_from_residuals: Ellipse | None  # 95 %, from s0; None for two ties
    chance: float | None  # of ties as good as stated doing this badly; None as `agreement`
    suspects: tuple[int, ...]  # places of ties, each of which alone would explain a disagreement

    @property
    def weak(self) -> bool:
        """Whether no two ties meet at 30° to 150°."""
        return not _WEAK_BELOW_DEG <= self.angle_deg <= _WEAK_ABOVE_DEG

    @property
    def agreement(self) -> Agreement:
        """Two ties have no check; without tolerances there is nothing to hold a residual to."""
        if self.chance is None:
            return "cannot be told"
        return "disagree" if self.chance < _LIKELY else "agree"


def fixes(ties: Sequence[Tie], side: Side | None = None) -> tuple[Fix, ...]:
    """
    Return every place the ties allow: one, or two that mirror each other.

    Two ties leave two places, and so do more from landmarks in one line; the side settles it.

    Parameters
    ----------
    ties : sequence of Tie
        At least two, horizontal, from landmarks that are not all in one place. [m]
    side : 'left' or 'right', optional
        Of the line from the first landmark to the second, looking along it.

    Raises
    ------
    NoSuchPoint
        If two ties do not meet, with the gap, or none of the places is on ``side``.
    ValueError
        If there are fewer than two ties, a number is wrong, or two landmarks are in one place.

    Notes
    -----
    Two: p = (a² − b² + D²)/2D along the line of landmarks, h = √(a² − p²) square to it [1]_.
    More: least squares of the residuals, weighted by tolerance if every tie has one, else all
    alike, by Gauss–Newton with halved steps [2]_. The start is where each pair of ties meets.

    Three ties that disagree show that one is wrong and cannot say which: any of them, left out,
    lets the rest meet. Of more, a tie is a suspect if the others agree without it, so the wrong
    one is named where only one is. Where its landmark lies opposite another's both stay suspect,
    for a line along both cannot tell a long tie from a short one.

    Examples
    --------
    A right angle of sides 6 and 8, then which side:

    >>> pair = [Tie(0, 0, 6), Tie(10, 0, 8)]
    >>> [(round(one.x_m, 3), round(one.y_m, 3)) for one in fixes(pair)]
    [(3.6, 4.8), (3.6, -4.8)]
    >>> [one.y_m < 0 for one in fixes(pair, "right")]
    [True]

    A third tie, 0.2 m too long:

    >>> [one] = fixes([Tie(0, 0, 6, 0.01), Tie(10, 0, 8, 0.01), Tie(3.6, 9.8, 5.2, 0.01)])
    >>> one.agreement, one.suspects
    ('disagree', (0, 1, 2))

    References
    ----------
    .. [1] J. Mahun, Coordinate geometry, ch. E (distance–distance intersection).
    .. [2] Ghilani, Adjustment Computations, ch. 14, and ch. 19 for the ellipse (from memory).
    """
    _refuse(ties)
    if side not in (None, "left", "right"):
        raise ValueError(f"side {side!r} is neither left nor right")
    places = _exact(ties) if len(ties) == 2 else _least_squares(ties)
    kept = [one for one in places if side is None or _on(ties, one, side)]
    if not kept:
        raise NoSuchPoint(f"the ties put no point on the {side} of the first two landmarks")
    return tuple(_fix(ties, one) for one in kept)


def _refuse(ties: Sequence[Tie]) -> None:
    if len(ties) < 2:
        raise ValueError(f"a point needs two ties, and has {len(ties)}")
    for number, tie in enumerate(ties, 1):
        if not math.isfinite(tie.x_m + tie.y_m):
            raise ValueError(f"tie {number}: its landmark, {tie.x_m}, {tie.y_m}, is nowhere")
        if not 0 < tie.length_m < math.inf:
            raise ValueError(f"tie {number}: a length of {tie.length_m} m must be above 0")
        if tie.tolerance_m is not None and not 0 < tie.tolerance_m < math.inf:
            raise ValueError(f"tie {number}: a tolerance of {tie.tolerance_m} m must be above 0")
    for (first, one), (second, other) in combinations(enumerate(ties, 1), 2):
        if math.hypot(one.x_m - other.x_m, one.y_m - other.y_m) < _SAME_M:
            raise ValueError(f"ties {first} and {second} are from one landmark; give their mean")


def _meet(one: Tie, other: Tie) -> tuple[float, list[tuple[float, float]]]:
    """Return the gap by which two ties miss each other, and where they meet, left first.

    Where they miss, the nearest place on the line of landmarks is given.
    """
    dx, dy = other.x_m - one.x_m, other.y_m - one.y_m
    apart = math.hypot(dx, dy)
    a, b = one.length_m, other.length_m
    along = (a**2 - b**2 + apart**2) / (2 * apart)
    square = a**2 - along**2
    gap = max(apart - a - b, abs(a - b) - apart, 0.0)
    off = math.sqrt(square) if square > 1e-12 * apart**2 else 0.0
    x, y = one.x_m + along * dx / apart, one.y_m + along * dy / apart
    left = (x - off * dy / apart, y + off * dx / apart)
    right = (x + off * dy / apart, y - off * dx / apart)
    return gap, [left, right] if off else [left]


def _exact(ties: Sequence[Tie]) -> list[Fitted]:
    gap, places = _meet(*ties)
    if gap > 1e-9:
        raise NoSuchPoint(f"the two ties miss each other by {gap:.3f} m")
    return [Fitted(x, y, (0.0, 0.0), 0.0) for x, y in places]


def _least_squares(ties: Sequence[Tie]) -> list[Fitted]:
    """Return the place the ties fit best, and its mirror where that cannot be ruled out."""
    pairs = combinations(ties, 2)
    starts = [place for one, other in pairs for place in _meet(one, other)[1]]
    found = sorted((fit(ties, start) for start in starts), key=lambda one: one.weighted_square)
    best = found[0]
    far = (one for one in found if math.hypot(one.x_m - best.x_m, one.y_m - best.y_m) > _SAME_M)
    second = next(far, None)
    return [best] if second is None or not _possible(ties, second, best) else [best, second]


def _possible(ties: Sequence[Tie], second: Fitted, best: Fitted) -> bool:
    if second.weighted_square <= best.weighted_square * (1 + 1e-6) + 1e-12:
        return True
    likely = _chance(ties, second)
    if likely is not None:
        return likely >= _LIKELY
    return math.sqrt(second.weighted_square / len(ties)) <= _DOUBT_M


def _chance(ties: Sequence[Tie], fitted: Fitted) -> float | None:
    if len(ties) < 3 or any(tie.tolerance_m is None for tie in ties):
        return None
    return chance(fitted.weighted_square, len(ties) - 2)


def _on(ties: Sequence[Tie], fitted: Fitted, side: Side) -> bool:
    left_m = turned_m(ties[0], ties[1], fitted.x_m, fitted.y_m)
    return (left_m if side == "left" else -left_m) >= -_SAME_M


def _suspects(ties: Sequence[Tie]) -> Iterator[int]:
    for place in range(len(ties)):
        rest = [tie for number, tie in enumerate(ties) if number != place]
        if len(rest) == 2:
            fits = _meet(rest[0], rest[1])[0] <= max(tie.tolerance_m or 0.0 for tie in rest)
        else:
            fits = (_chance(rest, _least_squares(rest)[0]) or 0.0) >= _LIKELY
        if fits:
            yield place


def _fix(ties: Sequence[Tie], fitted: Fitted) -> Fix:
    spare = len(ties) - 2
    likely = _chance(ties, fitted)
    stated, from_residuals = ellipses(ties, fitted)
    return Fix(
        x_m=fitted.x_m,
        y_m=fitted.y_m,
        residuals_m=fitted.residuals_m,
        s0=math.sqrt(fitted.weighted_square / spare) if spare else None,
        angle_deg=min(_angles_deg(ties, fitted), key=lambda angle: abs(angle - 90)),
        ellipse=stated,
        ellipse_from_residuals=from_residuals,
        chance=likely,
        suspects=tuple(_suspects(ties)) if likely is not None and likely < _LIKELY else (),
    )


def _angles_deg(ties: Sequence[Tie], fitted: Fitted) -> Iterator[float]:
    ways = [math.atan2(fitted.y_m - tie.y_m, fitted.x_m - tie.x_m) for tie in ties]
    for one, other in combinations(ways, 2):
        apart = abs(math.degrees(one - other)) % 360
        yield min(apart, 360 - apart)
