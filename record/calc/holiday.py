"""The voltage a coating is swept with to find its pinholes."""

from __future__ import annotations

import math

MIL_M = 25.4e-6
SOURCE = "NACE RP0274"
CAUTION = (
    "High voltage near solvent vapour ignites it: only where the film is dry and the air is clear. "
    "Never above what the maker says the film bears."
)


def holiday_test_v(film_m: float) -> float:
    """
    Return the voltage of a pinhole test.  [V]

    Parameters
    ----------
    film_m : float
        Thickness of the dry film or of the tar, 0.25 to 20 mm. [m]

    Raises
    ------
    ValueError
        If the film is outside that range: thinner ones are tested wet, at low voltage.

    Notes
    -----
    V = 1250 √mil [1]_.

    Examples
    --------
    >>> round(holiday_test_v(0.0025))
    12401

    References
    ----------
    .. [1] NACE RP0274.
    """
    if not 0.25e-3 <= film_m <= 20e-3:
        raise ValueError(f"a film of {film_m} m is outside 0.00025 to 0.020 m for this test")
    return 1250.0 * math.sqrt(film_m / MIL_M)
