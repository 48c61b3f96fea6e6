"""When groundwater lifts what is buried: the float level of an open pit, and uplift later."""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.earth_load import WATER_KN_M3, check_unit_weights

WATER_KG_M3 = 1000.0
G_M_S2 = 9.80665
#: What is weighed against the water. Printed with every figure: there is no one convention.
CONVENTION = (
    "own weight and the earth straight above the outside of the roof, moist above the water and "
    "submerged below it; no friction at the sides, no earth beside; over the weight of the water "
    "the outside of the box displaces below the groundwater"
)


def float_level_m(*, mass_kg: float, plan_m2: float, underside_m: float) -> float:
    """
    Return the level of water in an open pit at which an empty box begins to float.  [m, datum]

    Parameters
    ----------
    mass_kg : float
        The least it can weigh as it stands, above 0. [kg]
    plan_m2 : float
        Outside plan, above 0. [m²]
    underside_m : float
        Level of its underside. [m]

    Raises
    ------
    ValueError
        If mass or plan is not above 0.

    Notes
    -----
    h = m/(ρw A), Archimedes, for a box with upright sides and water that has got under it. It is a
    mark for the wall of the pit. Water below the mark proves nothing: mud, suction, one corner
    lower, rain running in. Nobody may be told that it will not float.

    Examples
    --------
    6,500 kg on 24.44 m² floats in 266 mm:

    >>> round(float_level_m(mass_kg=6500, plan_m2=24.44, underside_m=46.194), 3)
    46.46
    """
    for what, value in (("mass", mass_kg), ("plan", plan_m2)):
        if not 0 < value < math.inf:
            raise ValueError(f"a {what} of {value} is not above 0")
    return underside_m + mass_kg / (WATER_KG_M3 * plan_m2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Buried:
    """
    A buried box with upright sides, by its outside.

    Attributes
    ----------
    mass_kg : float
        The least it can weigh, above 0. [kg]
    plan_m2 : float
        Outside plan, above 0. [m²]
    underside_m, top_m, grade_m : float
        Levels of its underside, of its outside top and of finished grade, in that order. [m]
    moist_kn_m3, saturated_kn_m3 : float
        Unit weight of the earth above, 5 to 30, the second not less. [kN/m³]
    """

    mass_kg: float
    plan_m2: float
    underside_m: float
    top_m: float
    grade_m: float
    moist_kn_m3: float
    saturated_kn_m3: float

    def __post_init__(self) -> None:
        for what, value in (("mass", self.mass_kg), ("plan", self.plan_m2)):
            if not 0 < value < math.inf:
                raise ValueError(f"a {what} of {value} is not above 0")
        if not self.underside_m < self.top_m <= self.grade_m:
            raise ValueError(
                f"underside {self.underside_m}, top {self.top_m} and grade {self.grade_m} "
                "do not stand one above the other"
            )
        check_unit_weights(self.moist_kn_m3, self.saturated_kn_m3)


@dataclass(frozen=True, slots=True)
class Uplift:
    """What holds it down and what lifts it, with groundwater at a level. [kN]"""

    water_m: float
    own_kn: float
    earth_kn: float
    lift_kn: float

    @property
    def ratio(self) -> float:
        """Held down over lifted; infinite where the water does not reach it."""
        down = self.own_kn + self.earth_kn
        return math.inf if self.lift_kn == 0 else down / self.lift_kn


def uplift(buried: Buried, water_m: float) -> Uplift:
    """
    Return what holds a buried box down, and what lifts it, with groundwater at a level.

    Parameters
    ----------
    buried : Buried
    water_m : float
        Level of the groundwater, at most at grade. [m, datum]

    Raises
    ------
    ValueError
        If the water stands above grade.

    Notes
    -----
    By `CONVENTION`. Lift = γw A (water within the height of the box); earth = A (γ moist above the
    water, γ saturated − γw below it). Which ratio is enough, and at what level to act, the engineer
    of record says.

    References
    ----------
    .. [1] FEMA P-259 does the same with its own factor; conventions differ, see its example C7.
    """
    if not water_m <= buried.grade_m:
        raise ValueError(f"groundwater at {water_m} stands above grade at {buried.grade_m}")
    wet_box = min(max(water_m - buried.underside_m, 0.0), buried.top_m - buried.underside_m)
    cover = buried.grade_m - buried.top_m
    wet_cover = min(max(water_m - buried.top_m, 0.0), cover)
    weight = buried.moist_kn_m3 * (cover - wet_cover)
    weight += (buried.saturated_kn_m3 - WATER_KN_M3) * wet_cover
    return Uplift(
        water_m,
        buried.mass_kg * G_M_S2 / 1000,
        weight * buried.plan_m2,
        WATER_KN_M3 * buried.plan_m2 * wet_box,
    )


def level_for_ratio_m(buried: Buried, ratio: float) -> float | None:
    """
    Return the level of groundwater at which held down over lifted comes down to ``ratio``.  [m]

    None where it stays above that with water up to grade.

    Raises
    ------
    ValueError
        If the ratio is not above 0.

    Examples
    --------
    >>> box = Buried(mass_kg=6500, plan_m2=24.44, underside_m=46.194, top_m=48.706, grade_m=50.0,
    ...              moist_kn_m3=18, saturated_kn_m3=20)
    >>> [round(level_for_ratio_m(box, ratio), 2) for ratio in (1.5, 1.2, 1.0)]
    [47.95, 48.39, 48.87]
    """
    if not 0 < ratio < math.inf:
        raise ValueError(f"a ratio of {ratio} is not above 0")
    low, high = buried.underside_m, buried.grade_m
    if uplift(buried, high).ratio > ratio:
        return None
    for _ in range(100):  # the higher the water, the less the ratio, all the way
        middle = (low + high) / 2
        if uplift(buried, middle).ratio > ratio:
            low = middle
        else:
            high = middle
    return high
