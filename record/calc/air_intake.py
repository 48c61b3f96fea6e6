"""How far an air intake is from what must not be drawn in, against a least distance.

International Mechanical Code 401.4, item 2, as quoted from the 2009 edition: not less than 10 ft
horizontally from vents, streets, alleys, parking lots and loading docks; item 3: within that, not
less than 3 ft below the source. Later editions let it be nearer to a street or a parking lot that
is 25 ft below it. The local code decides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.air_cautions import LOCAL_CODE

LEAST_M = 3.048  # 10 ft
BELOW_M = 0.9144  # 3 ft
_SAME_M = 1e-9  # what adding coordinates up may be off by

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """
    An intake and a source of bad air.

    Attributes
    ----------
    horizontal_m, straight_m : float
        In plan, as the code counts it, and through the air. [m]
    intake_below_m : float
        How far the intake is below the source; negative is above it. [m]
    least_m : float
        What was asked for. [m]
    under : bool
        Whether it is nearer in plan than that.
    short_m : float
        By how much; 0 where it is not. [m]
    low_enough : bool
        Whether the intake is 3 ft or more below the source.
    caution : str
        Key of the sentence that goes with it.
    """

    horizontal_m: float
    straight_m: float
    intake_below_m: float
    least_m: float
    under: bool
    short_m: float
    low_enough: bool
    caution: str = LOCAL_CODE


def intake_apart(intake: Point, source: Point, least_m: float = LEAST_M) -> Apart:
    """
    Return how far an intake is from a source of bad air, and whether that is too near.

    Parameters
    ----------
    intake, source : (float, float, float)
        East, north and level of the nearest points of the two openings. [m]
    least_m : float
        The least distance in plan that holds here, above 0. [m]

    Raises
    ------
    ValueError
        If a coordinate is not finite or the least distance not above 0.

    Notes
    -----
    √(Δx² + Δy²). Exactly the least distance is not under. Wind, a hedge or a pit that holds fumes
    are not in it.

    Examples
    --------
    >>> found = intake_apart((27.0, 2.0, 50.45), (30.0, 2.0, 49.5))
    >>> found.horizontal_m, found.under, round(found.short_m, 3), found.low_enough
    (3.0, True, 0.048, False)
    """
    if not all(math.isfinite(each) for each in (*intake, *source)):
        raise ValueError(f"a place of {intake} or {source} is not three numbers")
    if not 0 < least_m < math.inf:
        raise ValueError(f"a least distance of {least_m:g} m is not above 0")
    horizontal = math.hypot(intake[0] - source[0], intake[1] - source[1])
    below = source[2] - intake[2]
    under = horizontal < least_m - _SAME_M
    return Apart(
        horizontal_m=horizontal,
        straight_m=math.hypot(horizontal, below),
        intake_below_m=below,
        least_m=least_m,
        under=under,
        short_m=least_m - horizontal if under else 0.0,
        low_enough=below >= BELOW_M - _SAME_M,
    )
