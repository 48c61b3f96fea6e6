"""How tolerances add up, and what is left of them in one direction."""

from __future__ import annotations

import math

Vector = tuple[float, float, float]


def root_sum_square(*tolerances: float) -> float:
    """
    Return the tolerance of a sum or difference of independent values.  [unit of the arguments]

    Only for independent sources. Two levels taken from one benchmark share its error: it cancels
    between them, and adds in full against anything else.

    Parameters
    ----------
    *tolerances : float
        At 95 %, all in one unit, none negative.

    Raises
    ------
    ValueError
        If there is none, or one is negative or not a number.

    Examples
    --------
    >>> root_sum_square(3.0, 4.0, 12.0)
    13.0

    References
    ----------
    .. [1] JCGM 100:2008 (GUM), 5.1.2, eq. 10, with every sensitivity 1.
    """
    if not tolerances:
        raise ValueError("no tolerance to combine")
    for tolerance in tolerances:
        _refuse_negative("tolerance", tolerance)
    return math.hypot(*tolerances)


def across(normal: Vector, horizontal_m: float, vertical_m: float) -> float:
    """
    Return the tolerance along ``normal`` of a point known differently in plan and in level.  [m]

    Parameters
    ----------
    normal : (float, float, float)
        n. Unit vector; the third is up. [-]
    horizontal_m : float
        h. Tolerance along any direction in plan. [m]
    vertical_m : float
        v. Tolerance of the level. [m]

    Raises
    ------
    ValueError
        If ``normal`` is not of length 1 within a millionth, or a tolerance is negative.

    Notes
    -----
    t = √(h²(nx² + ny²) + v²nz²): a variance along n, with plan and level independent [1]_.

    Examples
    --------
    A wall sees the plan only, a floor the level only:

    >>> across((0.0, 1.0, 0.0), 0.05, 0.01), across((0.0, 0.0, 1.0), 0.05, 0.01)
    (0.05, 0.01)

    References
    ----------
    .. [1] JCGM 100:2008 (GUM), 5.1.2, eq. 10, with sensitivities nx, ny, nz.
    """
    x, y, z = normal
    length = math.hypot(x, y, z)
    if not abs(length - 1) <= 1e-6:
        raise ValueError(f"a normal of length {length} is not a unit vector")
    _refuse_negative("horizontal tolerance", horizontal_m)
    _refuse_negative("vertical tolerance", vertical_m)
    return math.hypot(horizontal_m * x, horizontal_m * y, vertical_m * z)


def lever_arm_m(angle_deg: float, distance_m: float) -> float:
    """
    Return how far off a point is that was set out with a bearing wrong by ``angle_deg``.  [m]

    The arc, which is never less than the straight distance between the two points.

    Parameters
    ----------
    angle_deg : float
        Error of the bearing, 0 to 180. [deg]
    distance_m : float
        From the point the bearing was taken at. [m]

    Raises
    ------
    ValueError
        If the angle is outside 0 to 180, or the distance negative.

    Examples
    --------
    Half a degree at 9 m; by hand, 0.5 π / 180 × 9 = 0.0785:

    >>> round(lever_arm_m(0.5, 9.0), 3)
    0.079
    """
    if not 0 <= angle_deg <= 180:
        raise ValueError(f"an error of bearing of {angle_deg}° is not between 0 and 180")
    _refuse_negative("distance", distance_m)
    return math.radians(angle_deg) * distance_m


def _refuse_negative(what: str, value: float) -> None:
    if not 0 <= value < math.inf:
        raise ValueError(f"{what} {value} is negative or not a number")
