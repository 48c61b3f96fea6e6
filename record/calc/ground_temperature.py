"""How warm the ground is, by depth and day of the year."""

from __future__ import annotations

import math
from dataclasses import dataclass

YEAR_DAYS = 365.0
DAY_S = 86_400.0
SLOWEST_M2_S, FASTEST_M2_S = 0.05e-6, 1.5e-6  # dry clay 0.10e-6 to wet sand 1.2e-6, with room


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """
    The yearly wave of one site's ground.

    Attributes
    ----------
    mean_c : float
        Tm. Mean of the year at the surface. [°C]
    amplitude_k : float
        A. Half of what lies between the warmest and the coldest day there, 0 or more. [K]
    coldest_day : float
        t₀. Day of the year on which the surface is coldest, counted from 0 at New Year. [d]
    diffusivity_m2_s : float
        α, 0.05e-6 to 1.5e-6. [m²/s]

    Raises
    ------
    ValueError
        If one is outside its range.
    """

    mean_c: float
    amplitude_k: float
    coldest_day: float
    diffusivity_m2_s: float

    def __post_init__(self) -> None:
        if not -60 <= self.mean_c <= 60:
            raise ValueError(f"a yearly mean of {self.mean_c} °C is outside -60 to 60 °C")
        if not 0 <= self.amplitude_k <= 60:
            raise ValueError(f"an amplitude of {self.amplitude_k} K is outside 0 to 60 K")
        if not 0 <= self.coldest_day <= YEAR_DAYS:
            raise ValueError(f"a coldest day of {self.coldest_day} is outside 0 to {YEAR_DAYS:g}")
        if not SLOWEST_M2_S <= self.diffusivity_m2_s <= FASTEST_M2_S:
            raise ValueError(
                f"a diffusivity of {self.diffusivity_m2_s:g} m²/s is outside "
                f"{SLOWEST_M2_S:g} to {FASTEST_M2_S:g} m²/s"
            )


def damping_depth_m(ground: Ground) -> float:
    """
    Return the depth at which the yearly swing is 1/e of what it is at the surface.  [m]

    Notes
    -----
    δ = √(α P / π), P the year of 365 days [1]_.

    Examples
    --------
    >>> soil = Ground(mean_c=12, amplitude_k=10, coldest_day=35, diffusivity_m2_s=0.5e-6)
    >>> round(damping_depth_m(soil), 4)
    2.2403

    References
    ----------
    .. [1] Kusuda and Achenbach, Earth temperature and thermal diffusivity (1965).
    """
    return math.sqrt(ground.diffusivity_m2_s * YEAR_DAYS * DAY_S / math.pi)


def ground_temperature_c(ground: Ground, depth_m: float, day: float) -> float:
    """
    Return the temperature of undisturbed ground.  [°C]

    Parameters
    ----------
    ground : Ground
    depth_m : float
        z. Below the surface, 0 or more. [m]
    day : float
        t. Day of the year; any number, years repeat. [d]

    Raises
    ------
    ValueError
        If the depth is negative or not a number.

    Notes
    -----
    T = Tm − A e^(−z/δ) cos(2π (t − t₀)/P − z/δ) [1]_. One soil all the way, conduction only, one
    wave a year: snow, water that moves, a heated house and cold spells are left out. It is a
    second opinion beside a depth of frost given by the local office, never instead of it.

    Examples
    --------
    >>> soil = Ground(mean_c=12, amplitude_k=10, coldest_day=35, diffusivity_m2_s=0.5e-6)
    >>> round(ground_temperature_c(soil, 3.0, 218), 3)
    12.624

    References
    ----------
    .. [1] Kusuda and Achenbach, Earth temperature and thermal diffusivity (1965).
    """
    depths = _depths(ground, depth_m)
    angle = 2 * math.pi * (day - ground.coldest_day) / YEAR_DAYS - depths
    return ground.mean_c - ground.amplitude_k * math.exp(-depths) * math.cos(angle)


def _depths(ground: Ground, depth_m: float) -> float:
    if not 0 <= depth_m < math.inf:
        raise ValueError(f"a depth of {depth_m} m is negative or not a number")
    return depth_m / damping_depth_m(ground)


def coldest_day_at(ground: Ground, depth_m: float) -> float:
    """
    Return the day of the year on which it is coldest at that depth.  [d]

    It comes z/δ of a radian of the year after the surface's. Errors as for
    `ground_temperature_c`.

    Examples
    --------
    >>> soil = Ground(mean_c=12, amplitude_k=10, coldest_day=35, diffusivity_m2_s=0.5e-6)
    >>> round(coldest_day_at(soil, 2.0), 1)
    86.9
    """
    lag = _depths(ground, depth_m) * YEAR_DAYS / (2 * math.pi)
    return (ground.coldest_day + lag) % YEAR_DAYS


def coldest_c(ground: Ground, depth_m: float) -> float:
    """Return the temperature of that day: Tm − A e^(−z/δ).  [°C]  Errors as before."""
    return ground.mean_c - ground.amplitude_k * math.exp(-_depths(ground, depth_m))


def freezing_reaches_m(ground: Ground) -> float | None:
    """
    Return how deep the yearly wave reaches 0 °C; 0 if never, None if all of the ground is frozen.

    Notes
    -----
    Where Tm = A e^(−z/δ), so z = δ ln(A / Tm). The heat that freezing water gives off is left
    out: it errs deep. Ground with a mean of 0 °C or less stays frozen below.

    Examples
    --------
    >>> upland = Ground(mean_c=6.5, amplitude_k=11.5, coldest_day=20, diffusivity_m2_s=0.5e-6)
    >>> round(freezing_reaches_m(upland), 2)
    1.28
    """
    if ground.mean_c <= 0:
        return None
    if ground.amplitude_k <= ground.mean_c:
        return 0.0
    return damping_depth_m(ground) * math.log(ground.amplitude_k / ground.mean_c)
