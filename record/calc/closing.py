"""How well a level run closes on a known mark: what may be allowed, and how it is shared out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Closure:
    """How a run came back: levelled less known, and how much of that is allowed."""

    misclosure_m: float
    allowable_m: float

    @property
    def holds(self) -> bool:
        return abs(self.misclosure_m) <= self.allowable_m + 1e-9


def allowable_m(k_mm: float, length_km: float) -> float:
    """
    Return the misclosure allowed over ``length_km``, k√K.  [m]

    Parameters
    ----------
    k_mm : float
        Set by the class of levelling the job asks for, 12 for third order in [1]_.
    length_km : float
        K. Length of the route, one way. [km]

    Raises
    ------
    ValueError
        If either is not above 0.

    Examples
    --------
    By hand, 12 √0.06 = 2.94:

    >>> round(allowable_m(12, 0.06) * 1000, 2)
    2.94

    References
    ----------
    .. [1] South Australia, Surveyor-General, table of levelling orders for the height datum.
    """
    for what, value in (("k", k_mm), ("the length", length_km)):
        if not 0 < value < math.inf:
            raise ValueError(f"{what}, {value}, must be above 0")
    return k_mm * math.sqrt(length_km) / 1000


def closure(levelled_m: float, known_m: float, k_mm: float, length_km: float) -> Closure:
    """
    Return how far a run came back from a known benchmark, and how much is allowed.

    Says nothing of blunders that cancel, nor of a run that came back to the wrong mark.
    Errors as for `allowable_m`, and ValueError if a level is not a number.

    Examples
    --------
    >>> one = closure(50.414, 50.412, 12, 0.06)
    >>> round(one.misclosure_m, 3), round(one.allowable_m, 4), one.holds
    (0.002, 0.0029, True)
    """
    if not math.isfinite(levelled_m - known_m):
        raise ValueError(f"a level of {levelled_m} m against {known_m} m is not a number")
    return Closure(levelled_m - known_m, allowable_m(k_mm, length_km))


def adjusted_m(
    levels_m: Sequence[float], along: Sequence[float], misclosure_m: float
) -> tuple[float, ...]:
    """
    Return the levels with the misclosure shared out along the run.  [m]

    Only for a run that closes within what is allowed: a blunder is not to be shared out.

    Parameters
    ----------
    levels_m : sequence of float
        As reduced, the last that of the closing benchmark. [m]
    along : sequence of float
        How far along each is: from which set-up (`setup_numbers`), or distance. Starts at 0 or
        above, never goes back, ends above 0.
    misclosure_m : float
        e. Levelled less known, at the last point. [m]

    Raises
    ------
    ValueError
        If there is not one place for each level, or they go back or nowhere.

    Notes
    -----
    Correction at i of n is −e i/n [1]_. By set-ups an intermediate takes the correction of the
    foresight it was levelled beside.

    Examples
    --------
    >>> adjusted_m([100.0, 101.5, 102.504], [0, 1, 2], 0.004)
    (100.0, 101.498, 102.5)

    References
    ----------
    .. [1] Ghilani & Wolf, Elementary Surveying, ch. 5 (chapter from memory).
    """
    if len(levels_m) != len(along) or not along:
        raise ValueError(f"{len(levels_m)} levels have {len(along)} places along the run")
    if list(along) != sorted(along) or along[0] < 0 or not 0 < along[-1] < math.inf:
        raise ValueError(f"places along the run, {list(along)}, go back or nowhere")
    if not math.isfinite(misclosure_m):
        raise ValueError(f"a misclosure of {misclosure_m} m is not a number")
    shares = [place / along[-1] for place in along]
    return tuple(
        level_m - misclosure_m * share for level_m, share in zip(levels_m, shares, strict=True)
    )
