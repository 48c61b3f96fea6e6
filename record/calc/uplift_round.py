"""Uplift of a buried cylinder lying on its side, with the earth over its haunches."""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.earth_load import WATER_KN_M3, check_unit_weights
from record.calc.uplift import G_M_S2, Uplift

CONVENTION = (
    "own weight and the earth straight above the upper half, haunches included, moist above the "
    "water and submerged below it; no friction at the sides, no earth beside; over the weight of "
    "the water the cylinder displaces below the groundwater"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuriedRound:
    """
    A buried cylinder, by its outside.

    Attributes
    ----------
    mass_kg : float
        The least it can weigh, above 0. [kg]
    diameter_m, length_m : float
        Outside, above 0. [m]
    underside_m, grade_m : float
        Levels of its lowest line and of finished grade, which is not below its crown. [m]
    moist_kn_m3, saturated_kn_m3 : float
        Unit weight of the earth, 5 to 30, the second not less. [kN/m³]
    """

    mass_kg: float
    diameter_m: float
    length_m: float
    underside_m: float
    grade_m: float
    moist_kn_m3: float
    saturated_kn_m3: float

    def __post_init__(self) -> None:
        for what, value in (
            ("mass", self.mass_kg),
            ("diameter", self.diameter_m),
            ("length", self.length_m),
        ):
            if not 0 < value < math.inf:
                raise ValueError(f"a {what} of {value} is not above 0")
        if not self.underside_m + self.diameter_m <= self.grade_m:
            raise ValueError(f"its crown stands above grade at {self.grade_m}")
        check_unit_weights(self.moist_kn_m3, self.saturated_kn_m3)

    @property
    def axis_m(self) -> float:
        return self.underside_m + self.diameter_m / 2


def below_m2(diameter_m: float, height_m: float) -> float:
    """
    Return the area of a circle below a level ``height_m`` over its lowest point.  [m²]

    Notes
    -----
    R² arccos((R − h)/R) − (R − h) √(2Rh − h²): the segment of a circle.

    Examples
    --------
    >>> round(below_m2(2.0, 1.0) / math.pi, 6), below_m2(2.0, -1.0)
    (0.5, 0.0)
    """
    radius = diameter_m / 2
    height = min(max(height_m, 0.0), diameter_m)
    rest = radius - height
    chord = math.sqrt(max(2 * radius * height - height * height, 0.0))
    return radius * radius * math.acos(rest / radius) - rest * chord


def _earth_below_m2(box: BuriedRound, level_m: float) -> float:
    """Return the cross-section of earth over the upper half, from the axis up to a level."""
    up = max(level_m - box.axis_m, 0.0)
    steel = below_m2(box.diameter_m, box.diameter_m / 2 + up) - below_m2(
        box.diameter_m, box.diameter_m / 2
    )
    return box.diameter_m * up - steel


def uplift_round(buried: BuriedRound, water_m: float) -> Uplift:
    """
    Return what holds a buried cylinder down, and what lifts it, with groundwater at a level.

    Parameters
    ----------
    buried : BuriedRound
    water_m : float
        Level of the groundwater, at most at grade. [m, datum]

    Raises
    ------
    ValueError
        If the water stands above grade.

    Notes
    -----
    By `CONVENTION`; as `uplift`, with the segment of the circle below the water. Earth over the
    upper half is D L (h + D/2) − V/2 with h the cover over the crown. The flat ends are taken to
    be upright.

    Examples
    --------
    >>> tank = BuriedRound(mass_kg=4497, diameter_m=2.44, length_m=6.10, underside_m=0.0,
    ...                    grade_m=3.44, moist_kn_m3=18, saturated_kn_m3=20)
    >>> round(uplift_round(tank, 2.44).ratio, 3)
    1.257
    """
    if not water_m <= buried.grade_m:
        raise ValueError(f"groundwater at {water_m} stands above grade at {buried.grade_m}")
    submerged = _earth_below_m2(buried, water_m)
    moist = _earth_below_m2(buried, buried.grade_m) - submerged
    weight = buried.moist_kn_m3 * moist + (buried.saturated_kn_m3 - WATER_KN_M3) * submerged
    wet = below_m2(buried.diameter_m, water_m - buried.underside_m)
    return Uplift(
        water_m,
        buried.mass_kg * G_M_S2 / 1000,
        weight * buried.length_m,
        WATER_KN_M3 * wet * buried.length_m,
    )
