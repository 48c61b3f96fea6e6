"""How fast dry sand runs out of an opening: an upper bound, and only for dry sand."""

from __future__ import annotations

import math
from dataclasses import dataclass

G_M_S2 = 9.80665
DAMP = (
    "Damp sand arches, sticks, and lets go all at once. This is for dry sand only, the fastest it "
    "can run; it is no promise that it runs at all, or that it has stopped."
)
LEAST_GRAINS = 6.0  # the opening, in grains
SHAFT_OVER_OPENING = 2.5
SHAFT_OVER_GRAIN = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """
    An opening at the bottom of a shaft of sand.

    Attributes
    ----------
    opening_m : float
        D. Diameter of the opening. [m]
    grain_m : float
        d. Diameter of the grains, above 0. [m]
    shaft_m : float
        Least width of the shaft. [m]
    density_kg_m3 : float
        ρb. Of the sand as it lies, 1,000 to 2,000. [kg/m³]
    c, k : float
        The two constants fitted by those who measured: 0.55 to 0.65, and 1.2 to 3. [-]
    """

    opening_m: float
    grain_m: float
    shaft_m: float
    density_kg_m3: float = 1600.0
    c: float = 0.58
    k: float = 1.4

    def __post_init__(self) -> None:
        if not 0 < self.grain_m < math.inf:
            raise ValueError(f"grains of {self.grain_m} m are not above 0")
        if not self.opening_m >= LEAST_GRAINS * self.grain_m:
            raise ValueError(
                f"an opening of {self.opening_m} m is less than {LEAST_GRAINS:g} grains of "
                f"{self.grain_m} m: they arch over it"
            )
        least = max(SHAFT_OVER_OPENING * self.opening_m, SHAFT_OVER_GRAIN * self.grain_m)
        if not self.shaft_m >= least:
            raise ValueError(
                f"a shaft of {self.shaft_m} m is narrower than {least:g} m: the law is for an "
                f"opening small beside its shaft, not for one of {self.opening_m} m"
            )
        if not 1000 <= self.density_kg_m3 <= 2000:
            raise ValueError(f"sand of {self.density_kg_m3} kg/m³ is outside 1000 to 2000 kg/m³")
        if not 0.55 <= self.c <= 0.65:
            raise ValueError(f"a constant C of {self.c} is outside 0.55 to 0.65")
        if not 1.2 <= self.k <= 3:
            raise ValueError(f"a constant k of {self.k} is outside 1.2 to 3")


def sand_flow_kg_s(outlet: Outlet) -> float:
    """
    Return how much dry sand runs out a second.  [kg/s]

    Notes
    -----
    W = C ρb √g (D − k d)^(5/2) [1]_. It does not hang on how high the sand stands.

    Examples
    --------
    >>> round(sand_flow_kg_s(Outlet(opening_m=0.10, grain_m=0.0005, shaft_m=0.76)), 2)
    9.03

    References
    ----------
    .. [1] Beverloo and others, Chem. Eng. Sci. 15 (1961) 260; from memory.
    """
    free = outlet.opening_m - outlet.k * outlet.grain_m
    return float(outlet.c * outlet.density_kg_m3 * math.sqrt(G_M_S2) * free**2.5)


def least_time_s(outlet: Outlet, mass_kg: float) -> float:
    """
    Return the least time in which a mass of dry sand can run out.  [s]

    Raises
    ------
    ValueError
        If the mass is negative or not a number.
    """
    if not 0 <= mass_kg < math.inf:
        raise ValueError(f"a mass of {mass_kg} kg is negative or not a number")
    return mass_kg / sand_flow_kg_s(outlet)
