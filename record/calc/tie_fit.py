"""The least squares behind tape ties: one fit from one start, its ellipses, and the χ² test."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Ellipse", "Fitted", "Tie", "chance", "ellipses", "fit", "turned_m"]

_IN_LINE = 1e-12  # a normal matrix this near to singular comes of ties all in one line
_Z95 = 1.959964  # of a normal distribution: a tolerance at 95 % is so many standard deviations


@dataclass(frozen=True, slots=True)
class Tie:
    """A landmark and the horizontal distance taped from it."""

    x_m: float
    y_m: float
    length_m: float
    tolerance_m: float | None = None  # of the length, ± at 95 %


@dataclass(frozen=True, slots=True)
class Ellipse:
    """Where a point lies at 95 %: half its greatest and least width, and which way it is long."""

    semi_major_m: float
    semi_minor_m: float
    turned_deg: float  # of the long axis, from x towards y, 0 to 180


@dataclass(frozen=True, slots=True)
class Fitted:
    """A place where the weighted sum of squares is least hereabouts."""

    x_m: float
    y_m: float
    residuals_m: tuple[float, ...]  # taped less worked
    weighted_square: float  # vᵀWv; [m²] unless every tie has a tolerance


def fit(ties: Sequence[Tie], start: tuple[float, float]) -> Fitted:
    """
    Return the place that Gauss–Newton comes to from ``start``.

    A step that makes the fit worse is halved until it does not, so it never does worse than its
    start. It stops where the ties are all in one line. Only a least value nearby: start it from
    every place where two ties meet.

    Notes
    -----
    J_i = (P − A_i)/r_i, ΔP = (JᵀWJ)⁻¹JᵀW(d − r) [1]_; W is 1/σ², σ being tolerance/1.96, where
    every tie has a tolerance, and 1 otherwise.

    Examples
    --------
    >>> one = fit([Tie(0, 0, 5), Tie(6, 0, 5), Tie(3, 9, 5)], (2.0, 3.0))
    >>> round(one.x_m, 6), round(one.y_m, 6)
    (3.0, 4.0)

    References
    ----------
    .. [1] Ghilani, Adjustment Computations, ch. 14 (from memory).
    """
    here = _at(ties, *start)
    for _ in range(100):
        step = _step(ties, here)
        while step is not None and math.hypot(*step) > 1e-11:
            there = _at(ties, here.x_m + step[0], here.y_m + step[1])
            if there.weighted_square < here.weighted_square:
                break
            step = (step[0] / 2, step[1] / 2)
        else:
            return here
        here = there
    return here


def ellipses(ties: Sequence[Tie], fitted: Fitted) -> tuple[Ellipse | None, Ellipse | None]:
    """
    Return the ellipse of the stated tolerances, and that of the residuals.

    The first is None where a tie has no tolerance, the second where there are two ties, and both
    where all ties are in one line. Residuals that happen to be small make the second small, and
    of three ties it is very wide: it is a check on the first.

    Notes
    -----
    Axes of (JᵀWJ)⁻¹ times √χ²(0.95; 2) = √(−2 ln 0.05) = 2.4477, or times s0 √(2F(0.95; 2, m))
    with m = n − 2; as the first degree of freedom is 2, F = m/2 (0.05^(−2/m) − 1) [1]_.

    Examples
    --------
    Two ties that meet square, each ±1.96: σ = 1 m both ways.

    >>> square = [Tie(0, 4, 3, 1.959964), Tie(3, 0, 4, 1.959964)]
    >>> one, other = ellipses(square, fit(square, (3.0, 4.0)))
    >>> round(one.semi_major_m, 3), round(one.semi_minor_m, 3), other
    (2.448, 2.448, None)

    References
    ----------
    .. [1] Ghilani, Adjustment Computations, ch. 19 (from memory).
    """
    axes = _axes(ties, fitted)
    if axes is None:
        return None, None
    stated = _ellipse(axes, math.sqrt(-2 * math.log(0.05))) if _weighted(ties) else None
    spare = len(ties) - 2
    if not spare:
        return stated, None
    s0 = math.sqrt(fitted.weighted_square / spare)
    return stated, _ellipse(axes, s0 * math.sqrt(spare * (0.05 ** (-2 / spare) - 1)))


def chance(square: float, freedom: int) -> float:
    """
    Return how likely χ² of ``freedom`` degrees comes out above ``square``.  [-]

    Raises
    ------
    ValueError
        If there is no degree of freedom, or ``square`` is negative.

    Notes
    -----
    The closed sum for a whole number of degrees: e^(−x/2) Σ (x/2)^k/k! if even, and for odd
    erfc √(x/2) + e^(−x/2) Σ (x/2)^(k+½)/Γ(k+3/2) [1]_.

    Examples
    --------
    >>> round(chance(5.991, 2), 3)
    0.05

    References
    ----------
    .. [1] Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5 (number from
       memory).
    """
    if freedom < 1 or not square >= 0:
        raise ValueError(f"no χ² of {square} with {freedom} degrees of freedom")
    half = square / 2
    odd = freedom % 2
    terms = (math.pow(half, k + odd / 2) / math.gamma(k + odd / 2 + 1) for k in range(freedom // 2))
    return (math.erfc(math.sqrt(half)) if odd else 0.0) + math.exp(-half) * sum(terms)


def turned_m(one: Tie, other: Tie, x_m: float, y_m: float) -> float:
    """Return how far a point is to the left of the line from one landmark to the other.  [m]"""
    dx, dy = other.x_m - one.x_m, other.y_m - one.y_m
    return (dx * (y_m - one.y_m) - dy * (x_m - one.x_m)) / math.hypot(dx, dy)


def _weighted(ties: Sequence[Tie]) -> bool:
    return all(tie.tolerance_m is not None for tie in ties)


def _weights(ties: Sequence[Tie]) -> list[float]:
    if not _weighted(ties):
        return [1.0] * len(ties)
    return [(_Z95 / (tie.tolerance_m or math.inf)) ** 2 for tie in ties]


def _at(ties: Sequence[Tie], x_m: float, y_m: float) -> Fitted:
    residuals_m = tuple(tie.length_m - math.hypot(x_m - tie.x_m, y_m - tie.y_m) for tie in ties)
    square = sum(w * v * v for w, v in zip(_weights(ties), residuals_m, strict=True))
    return Fitted(x_m, y_m, residuals_m, square)


def _normal(ties: Sequence[Tie], here: Fitted) -> tuple[float, float, float, float, float]:
    """Return xx, xy, yy of JᵀWJ and x, y of JᵀW(d − r)."""
    xx = xy = yy = x = y = 0.0
    for tie, weight, residual in zip(ties, _weights(ties), here.residuals_m, strict=True):
        dx, dy = here.x_m - tie.x_m, here.y_m - tie.y_m
        length = math.hypot(dx, dy) or 1.0  # on the landmark there is no direction
        dx, dy = dx / length, dy / length
        xx, xy, yy = xx + weight * dx * dx, xy + weight * dx * dy, yy + weight * dy * dy
        x, y = x + weight * dx * residual, y + weight * dy * residual
    return xx, xy, yy, x, y


def _step(ties: Sequence[Tie], here: Fitted) -> tuple[float, float] | None:
    xx, xy, yy, x, y = _normal(ties, here)
    det = xx * yy - xy * xy
    if det <= _IN_LINE * (xx + yy) ** 2:
        return None
    return (yy * x - xy * y) / det, (xx * y - xy * x) / det


def _axes(ties: Sequence[Tie], fitted: Fitted) -> tuple[float, float, float] | None:
    """Return the greatest and least standard deviation at unit weight, and the turn in degrees."""
    xx, xy, yy, _, _ = _normal(ties, fitted)
    det = xx * yy - xy * xy
    if det <= _IN_LINE * (xx + yy) ** 2:
        return None
    middle, spread = (xx + yy) / 2, math.hypot((xx - yy) / 2, xy)
    # The long axis is that of the lesser eigenvalue of JᵀWJ, square to that of the greater.
    turned_deg = (math.degrees(math.atan2(2 * xy, xx - yy)) / 2 + 90) % 180
    greater = middle + spread  # the lesser is det/greater, for a difference would cancel
    return math.sqrt(greater / det), math.sqrt(1 / greater), turned_deg


def _ellipse(axes: tuple[float, float, float], times: float) -> Ellipse:
    return Ellipse(axes[0] * times, axes[1] * times, axes[2])
