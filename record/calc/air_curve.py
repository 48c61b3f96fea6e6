"""Reading a figure between two written ones, and the one root of what only rises.

Straight lines between points: no peak, dip or overshoot that nobody measured, and nothing beyond
the first and the last point.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

Points = Sequence[tuple[float, float]]

_HALVINGS = 200  # more than a float has digits: it stops when nothing is left to halve


def between(points: Points, at: float) -> float:
    """
    Return the figure at ``at`` on straight lines between points.  [unit of the second figures]

    Parameters
    ----------
    points : sequence of (float, float)
        At least one, the first figures rising.
    at : float
        From the first figure of the first point to that of the last.

    Raises
    ------
    ValueError
        If ``at`` is outside the points, the points do not rise, or there are none.

    Examples
    --------
    >>> between([(0, 300), (100, 250), (200, 100)], 150)
    175.0
    """
    if not points:
        raise ValueError("no points to read between")
    for (left, _), (right, _) in pairwise(points):
        if not left < right:
            raise ValueError(f"the points do not rise: {right:g} comes after {left:g}")
    first, last = points[0][0], points[-1][0]
    if not first <= at <= last:
        raise ValueError(f"{at:g} is outside {first:g} to {last:g}, where the points end")
    for (left, low), (right, high) in pairwise(points):
        if at <= right:
            return low + (high - low) * (at - left) / (right - left)
    return points[0][1]  # one point alone


def rising_root(f: Callable[[float], float], low: float, high: float) -> float:
    """
    Return where a function that never falls comes up to zero.  [unit of the bounds]

    Parameters
    ----------
    f : callable
        Never falling from ``low`` to ``high``; it may jump.
    low, high : float
        With f(low) not above zero and f(high) not below it.

    Raises
    ------
    ValueError
        If zero is not between the two.

    Examples
    --------
    >>> round(rising_root(lambda x: x**2 - 2, 0, 2), 12)
    1.414213562373
    """
    if not f(low) <= 0 <= f(high):
        raise ValueError(f"no answer lies between {low:g} and {high:g}")
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return low
