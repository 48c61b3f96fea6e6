"""Floor area of rooms and hulls."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal


def floor_area_m2(length_m: Decimal, width_m: Decimal) -> Decimal:
    """
    Return the floor area of a rectangle.  [m²]

    Inside measures, wall to wall; lining and what stands on the floor are not taken off.

    Parameters
    ----------
    length_m, width_m : Decimal
        Inside length and width, above zero. [m]

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Notes
    -----
    Length times width; common practice, no source.

    Examples
    --------
    >>> floor_area_m2(Decimal("9.00"), Decimal("2.70"))
    Decimal('24.3000')
    """
    if length_m <= 0 or width_m <= 0:
        raise ValueError(f"a floor of {length_m} m by {width_m} m has no area")
    return length_m * width_m


def width_in_round_m(diameter_m: Decimal, height_m: Decimal) -> Decimal:
    """
    Return how wide a round hull is inside at a height above its bottom.  [m]

    Parameters
    ----------
    diameter_m : Decimal
        Inside diameter, above zero. [m]
    height_m : Decimal
        Height of the walking floor above the inside bottom, between zero and the diameter. [m]

    Raises
    ------
    ValueError
        If the height is not within the hull.

    Notes
    -----
    The chord: half of it squared is the height times the rest of the diameter.
    Euclid, Elements, book III, proposition 35.

    Examples
    --------
    >>> width_in_round_m(Decimal("2.50"), Decimal("0.25"))
    Decimal('1.50')
    """
    if not 0 < height_m < diameter_m:
        raise ValueError(f"{height_m} m is not within a hull of {diameter_m} m")
    half = math.sqrt(height_m * (diameter_m - height_m))
    return 2 * Decimal(half).quantize(Decimal("0.00001")).normalize()


def total_area_m2(areas_m2: Iterable[Decimal]) -> Decimal:
    """Return the sum of areas.  [m²]"""
    return sum(areas_m2, Decimal(0))
