"""Floor area of rooms and hulls."""

from __future__ import annotations

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


def total_area_m2(areas_m2: Iterable[Decimal]) -> Decimal:
    """Return the sum of areas.  [m²]"""
    return sum(areas_m2, Decimal(0))
