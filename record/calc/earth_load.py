"""The weight of the earth above, as a pressure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

WATER_KN_M3 = 9.81


def check_unit_weights(moist_kn_m3: float, saturated_kn_m3: float) -> None:
    """Raise ValueError where two unit weights are not those of earth."""
    if not 5 <= moist_kn_m3 <= saturated_kn_m3 <= 30:
        raise ValueError(
            f"unit weights of {moist_kn_m3} moist and {saturated_kn_m3} saturated are not in "
            "order between 5 and 30 kN/m³"
        )


@dataclass(frozen=True, slots=True)
class Soil:
    """One layer of earth: thickness [m], unit weights moist and saturated [kN/m³]."""

    thickness_m: float
    moist_kn_m3: float
    saturated_kn_m3: float

    def __post_init__(self) -> None:
        if not 0 <= self.thickness_m < math.inf:
            raise ValueError(f"a layer of {self.thickness_m} m is negative or not a number")
        check_unit_weights(self.moist_kn_m3, self.saturated_kn_m3)


@dataclass(frozen=True, slots=True)
class Load:
    """What bears on a level: all of it, of which water, and what the grains carry. [kPa]"""

    total_kpa: float
    water_kpa: float

    @property
    def effective_kpa(self) -> float:
        return self.total_kpa - self.water_kpa


def earth_load(layers: Sequence[Soil], water_depth_m: float | None = None) -> Load:
    """
    Return the vertical load of the earth above the bottom of ``layers``.

    Parameters
    ----------
    layers : sequence of Soil
        From grade down to the level asked of.
    water_depth_m : float, optional
        Of the groundwater below grade, 0 or more; None, or deeper than the layers, is dry. [m]

    Raises
    ------
    ValueError
        If there is no layer, or the water stands above grade.

    Notes
    -----
    σ = Σ γ h, moist above the water and saturated below it; u = γw × depth below the water [1]_.
    Only the earth: no traffic, no snow, no arching, no point load. Whether anything carries it, an
    engineer says.

    Examples
    --------
    >>> round(earth_load([Soil(1.2, 19, 21)]).total_kpa, 1)
    22.8

    References
    ----------
    .. [1] Total and effective stress, as in any soil mechanics text; common practice.
    """
    if not layers:
        raise ValueError("there is no earth to weigh: not a single layer was given")
    if water_depth_m is not None and not 0 <= water_depth_m < math.inf:
        raise ValueError(f"water {water_depth_m} m below grade is above it, or not a number")
    total, top = 0.0, 0.0
    for layer in layers:
        bottom = top + layer.thickness_m
        dry = _dry(top, bottom, water_depth_m)
        total += layer.moist_kn_m3 * dry + layer.saturated_kn_m3 * (layer.thickness_m - dry)
        top = bottom
    under = 0.0 if water_depth_m is None else max(0.0, top - water_depth_m)
    return Load(total, WATER_KN_M3 * under)


def _dry(top: float, bottom: float, water: float | None) -> float:
    """Return how much of a layer stands above the water."""
    if water is None:
        return bottom - top
    return min(max(water - top, 0.0), bottom - top)
