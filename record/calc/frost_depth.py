"""How deep frost goes into the ground in one winter."""

from __future__ import annotations

import math
from dataclasses import dataclass

LATENT_WATER_J_KG = 334_000.0
DAY_S = 86_400.0
_HALVINGS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """
    What freezes, as two bulk figures and the water in it.

    Attributes
    ----------
    conductivity_w_mk : float
        k. Mean of frozen and thawed, above 0. [W/(m K)]
    dry_density_kg_m3 : float
        ρd. [kg/m³]
    water : float
        w. Mass of water over mass of dry soil, above 0, to 1; 0.15 is 15 %. [-]
    """

    conductivity_w_mk: float
    dry_density_kg_m3: float
    water: float

    def __post_init__(self) -> None:
        if not 0.1 <= self.conductivity_w_mk <= 5:
            raise ValueError(f"a conductivity of {self.conductivity_w_mk} is outside 0.1 to 5 W/mK")
        if not 500 <= self.dry_density_kg_m3 <= 2500:
            raise ValueError(
                f"a dry density of {self.dry_density_kg_m3} is outside 500 to 2500 kg/m³"
            )
        if not 0 < self.water <= 1:
            raise ValueError(f"a water content of {self.water} is not above 0, to 1")

    @property
    def latent_j_m3(self) -> float:
        """L = 334e3 ρd w: the heat one cubic metre gives off while its water freezes."""
        return LATENT_WATER_J_KG * self.dry_density_kg_m3 * self.water

    @property
    def heat_j_m3k(self) -> float:
        """C = ρd (0.17 + 0.75 w) of water's 4187 J/(kg K): mean of frozen and thawed [1]_."""
        return 4187.0 * self.dry_density_kg_m3 * (0.17 + 0.75 * self.water)


def stefan_m(soil: Soil, freezing_index_k_d: float) -> float:
    """
    Return the depth of frost where the ground below is at 0 °C already.  [m]

    Parameters
    ----------
    soil : Soil
    freezing_index_k_d : float
        I. Sum over the winter of degrees below freezing at the ground's surface: that of the air
        times the factor of the surface (see `SURFACES`). 0 or more. [K d]

    Raises
    ------
    ValueError
        If the index is negative or not a number.

    Notes
    -----
    X = √(2 k I / L) [1]_. The heat of the ground below is left out: errs deep.

    Examples
    --------
    >>> round(stefan_m(Soil(conductivity_w_mk=1.5, dry_density_kg_m3=1600, water=0.15), 500), 3)
    1.272

    References
    ----------
    .. [1] UFC 3-130-06 (2004), Stefan equation.
    """
    if not 0 <= freezing_index_k_d < math.inf:
        raise ValueError(f"a freezing index of {freezing_index_k_d} is negative or not a number")
    index_k_s = freezing_index_k_d * DAY_S
    return math.sqrt(2 * soil.conductivity_w_mk * index_k_s / soil.latent_j_m3)


#: Freezing index at the surface over that of the air: TM 5-852-4, Table 4-1.
SURFACES = {
    "snow": 1.0,
    "concrete": 0.75,
    "asphalt": 0.7,
    "bare soil": 0.7,
    "shaded": 0.9,
    "turf": 0.5,
    "trees": 0.3,
}


def frost_factor(fusion: float, thermal_ratio: float) -> float:
    """
    Return by how much less than Stefan's the frost goes, because the ground below is warm.  [-]

    Parameters
    ----------
    fusion : float
        μ = C vs / L, above 0: sensible over latent heat. [-]
    thermal_ratio : float
        α = v0 / vs, 0 or more: yearly mean above freezing over winter below it. [-]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    λ = γ √(2/μ), where e^(−γ²)/erf γ − α e^(−γ²)/erfc γ = √π γ/μ: Neumann's solution with equal
    properties frozen and thawed, which the chart of the modified Berggren method draws [1]_. It is
    solved, not read off the short form 1/√(1 + μ(α + 0.5)), which errs by a fifth in mild places.

    Examples
    --------
    >>> round(frost_factor(0.2, 0.33), 4)
    0.8976

    References
    ----------
    .. [1] Aldrich and Paynter (1953); from memory, with the derivation our own.
    """
    if not 0 < fusion <= 20:
        raise ValueError(f"a fusion parameter of {fusion} is not above 0, to 20")
    if not 0 <= thermal_ratio <= 100:
        raise ValueError(f"a thermal ratio of {thermal_ratio} is outside 0 to 100")

    def left_over(gamma: float) -> float:
        bell = math.exp(-gamma * gamma)
        frozen = bell / math.erf(gamma)
        thawed = thermal_ratio * bell / math.erfc(gamma)
        return frozen - thawed - math.sqrt(math.pi) * gamma / fusion

    low, high = 1e-9, 4.0  # it falls all the way, from without end to below zero
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if left_over(middle) > 0:
            low = middle
        else:
            high = middle
    return low * math.sqrt(2 / fusion)


@dataclass(frozen=True, slots=True)
class Frost:
    """A depth of frost and what it was worked from."""

    depth_m: float
    stefan_m: float
    factor: float  # λ
    fusion: float  # μ
    thermal_ratio: float  # α


def frost_depth(
    soil: Soil, *, freezing_index_k_d: float, winter_days: float, mean_c: float
) -> Frost:
    """
    Return how deep frost goes by the modified Berggren method.

    Parameters
    ----------
    soil : Soil
    freezing_index_k_d : float
        As for `stefan_m`, above 0. [K d]
    winter_days : float
        t. How long it freezes, above 0, to 365. [d]
    mean_c : float
        Mean of the year, 0 °C or more. [°C]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    X = λ X of Stefan, with vs = I/t, α = mean/vs, μ = C vs/L [1]_. One soil, no snow, no water that
    moves. The depth the local building office gives goes before it.

    Examples
    --------
    >>> silt = Soil(conductivity_w_mk=1.35, dry_density_kg_m3=1602, water=0.15)
    >>> round(frost_depth(silt, freezing_index_k_d=1389, winter_days=160, mean_c=2.89).depth_m, 2)
    1.8

    References
    ----------
    .. [1] UFC 3-130-06 (2004), modified Berggren equation.
    """
    if not 0 < freezing_index_k_d < math.inf:
        raise ValueError(f"a freezing index of {freezing_index_k_d} is not above 0")
    if not 0 < winter_days <= 365:
        raise ValueError(f"a winter of {winter_days} days is not above 0, to 365")
    if not 0 <= mean_c <= 60:
        raise ValueError(
            f"a yearly mean of {mean_c} °C is outside 0 to 60 °C: below 0 the ground stays frozen"
        )
    below_k = freezing_index_k_d / winter_days
    fusion = soil.heat_j_m3k * below_k / soil.latent_j_m3
    ratio = mean_c / below_k
    factor, plain = frost_factor(fusion, ratio), stefan_m(soil, freezing_index_k_d)
    return Frost(factor * plain, plain, factor, fusion, ratio)
