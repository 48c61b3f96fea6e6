"""On which day of autumn the mean of the day comes down to a temperature."""

from __future__ import annotations

from math import acos, tau

DAYS = 365


def falls_to_day(
    temperature_c: float, *, mean_c: float, amplitude_k: float, coldest_day: float
) -> float | None:
    """
    Return the day of the year on which the daily mean comes down to a temperature.  [d]

    Parameters
    ----------
    temperature_c : float
        Come down to. [°C]
    mean_c, amplitude_k : float
        Of the yearly wave of daily means; the amplitude more than 0. [°C], [K]
    coldest_day : float
        Day of the year on which the wave is lowest, 1 to 365.

    Returns
    -------
    float or None
        Over 0, up to 365. None where the wave never passes that temperature: it is always
        warmer, or always colder.

    Raises
    ------
    ValueError
        If the amplitude or the day is outside its range.

    Notes
    -----
    T(t) = mean − amplitude cos(2π (t − coldest) / 365), the surface wave of Kusuda and
    Achenbach (1965), solved for T on the falling side.

    Examples
    --------
    A wave of 10 ± 10 °C, coldest on day 20, passes its mean a quarter of a year before that.

    >>> round(falls_to_day(10, mean_c=10, amplitude_k=10, coldest_day=20), 2)  # 20 − 91.25 + 365
    293.75
    >>> falls_to_day(-1, mean_c=10, amplitude_k=10, coldest_day=20) is None
    True
    """
    if not amplitude_k > 0:
        raise ValueError(f"amplitude {amplitude_k:g} K is not more than 0")
    if not 1 <= coldest_day <= DAYS:
        raise ValueError(f"coldest day {coldest_day:g} is not 1 to {DAYS}")
    share = (mean_c - temperature_c) / amplitude_k
    if abs(share) > 1:
        return None
    day = (coldest_day - acos(share) * DAYS / tau) % DAYS
    return day or float(DAYS)
