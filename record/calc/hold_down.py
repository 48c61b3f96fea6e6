"""How much a tank must be held down with, by a stated factor."""

from __future__ import annotations

import math


def hold_down_n(*, volume_m3: float, weight_n: float, water_n_m3: float, factor: float) -> float:
    """
    Return the force that must hold an empty tank under water; below 0 none is needed.  [N]

    Parameters
    ----------
    volume_m3 : float
        What it displaces, above 0. [m³]
    weight_n : float
        The least it weighs, 0 or more. [N]
    water_n_m3 : float
        Unit weight of the water, fresh 9,802, the sea 10,070; 9,000 to 13,000. [N/m³]
    factor : float
        On the lift, 1 or more; who chose it is to be printed beside it. [-]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    F = V γ FS − W [1]_. The source writes 0.134 for the cubic feet of a US gallon, which is
    0.133681: its figure is 0.2 % more.

    References
    ----------
    .. [1] FEMA P-259, example C7.
    """
    if not 0 < volume_m3 < math.inf:
        raise ValueError(f"a volume of {volume_m3} m³ is not above 0")
    if not 0 <= weight_n < math.inf:
        raise ValueError(f"a weight of {weight_n} N is negative or not a number")
    if not 9_000 <= water_n_m3 <= 13_000:
        raise ValueError(f"water of {water_n_m3} N/m³ is outside 9000 to 13000 N/m³")
    if not 1 <= factor < math.inf:
        raise ValueError(f"a factor of {factor} is less than 1")
    return volume_m3 * water_n_m3 * factor - weight_n


def concrete_m3(force_n: float, *, concrete_n_m3: float, water_n_m3: float) -> float:
    """
    Return the concrete, itself under water, that holds a force down: F/(γc − γw).  [m³]

    Raises
    ------
    ValueError
        If the force is negative, or the concrete not heavier than the water.

    References
    ----------
    .. [1] FEMA P-259, example C7.
    """
    if not 0 <= force_n < math.inf:
        raise ValueError(f"a force of {force_n} N is negative or not a number")
    if not 0 < water_n_m3 < concrete_n_m3 < math.inf:
        raise ValueError(f"concrete of {concrete_n_m3} N/m³ is not heavier than the water")
    return force_n / (concrete_n_m3 - water_n_m3)
