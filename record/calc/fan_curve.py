"""The curve of a fan or of a cranked blower: points as on the maker's sheet, never beyond them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from record.calc.air_curve import between
from record.calc.air_system import STANDARD_KG_M3

#: How far from the speed on the sheet the fan laws are trusted; our own limit.
SLOWEST, FASTEST = 0.5, 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class FanCurve:
    """
    What pressure a fan gives at each flow, at one speed and in one air.

    Attributes
    ----------
    points : tuple of (float, float)
        Flow [m³/s] and pressure [Pa], at least two, flows rising, pressures never rising.
    density_kg_m3 : float
        ρ. Of the air it was measured in. [kg/m³]

    Raises
    ------
    ValueError
        If there are fewer than two points, a flow does not rise, a pressure rises, or a number is
        negative or not finite.

    Notes
    -----
    A part of a curve that rises with the flow (left of the peak, where a fan surges) is refused:
    there two flows answer to one pressure, and which one holds cannot be told.
    """

    points: tuple[tuple[float, float], ...]
    density_kg_m3: float = STANDARD_KG_M3

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise ValueError("a curve needs at least two points of flow and pressure")
        if not 0 < self.density_kg_m3 < math.inf:
            raise ValueError(f"a density of {self.density_kg_m3:g} kg/m³ is not above 0")
        for flow, pressure in self.points:
            if not (0 <= flow < math.inf and 0 <= pressure < math.inf):
                raise ValueError(f"{pressure:g} Pa at {flow:g} m³/s is negative or not a number")
        for (one, high), (other, low) in pairwise(self.points):
            if not one < other:
                raise ValueError(f"the flows do not rise: {other:g} m³/s comes after {one:g}")
            if low > high:
                raise ValueError(
                    f"the pressure rises from {high:g} to {low:g} Pa between {one:g} and "
                    f"{other:g} m³/s: give the part right of the peak only"
                )

    @property
    def least_m3_s(self) -> float:
        """The lowest flow on the sheet.  [m³/s]"""
        return self.points[0][0]

    @property
    def most_m3_s(self) -> float:
        """The highest flow on the sheet.  [m³/s]"""
        return self.points[-1][0]


def fan_pressure_pa(curve: FanCurve, flow_m3_s: float) -> float:
    """
    Return the pressure a fan gives at a flow.  [Pa]

    Raises
    ------
    ValueError
        If the flow is outside the points of the sheet: nothing is drawn on beyond them.

    Notes
    -----
    Straight lines between the points. The curve of a fan is bowed upward, so between two points
    this errs low.

    Examples
    --------
    >>> round(fan_pressure_pa(FanCurve(points=((0, 300), (0.1, 250), (0.2, 100))), 0.15), 9)
    175.0
    """
    if not curve.least_m3_s <= flow_m3_s <= curve.most_m3_s:
        raise ValueError(
            f"a flow of {flow_m3_s:g} m³/s is outside the sheet, which goes from "
            f"{curve.least_m3_s:g} to {curve.most_m3_s:g} m³/s"
        )
    return between(curve.points, flow_m3_s)


def fan_in(curve: FanCurve, *, density_kg_m3: float, speed: float = 1.0) -> FanCurve:
    """
    Return the same fan's curve in other air and at another speed, by the fan laws.

    Parameters
    ----------
    curve : FanCurve
    density_kg_m3 : float
        ρ. Of the air where it stands. [kg/m³]
    speed : float
        N/N0. Its speed, or the crank's, over that of the sheet, 0.5 to 1.5. [-]

    Raises
    ------
    ValueError
        If the density is not above 0 or the speed is outside 0.5 to 1.5.

    Notes
    -----
    Q = Q0 N/N0, Δp = Δp0 (N/N0)² ρ/ρ0 [1]_. Slip of a motor that is loaded less is left out.

    Examples
    --------
    By hand: nine tenths of the speed in air of half the density, 0.9² × 0.5 of the pressure.

    >>> slow = fan_in(FanCurve(points=((0, 400), (1, 200)), density_kg_m3=1.2),
    ...               density_kg_m3=0.6, speed=0.9)
    >>> [(q, round(p, 9)) for q, p in slow.points]
    [(0.0, 162.0), (0.9, 81.0)]

    References
    ----------
    .. [1] ANSI/AMCA 210, fan laws (cited from memory).
    """
    if not SLOWEST <= speed <= FASTEST:
        raise ValueError(f"a speed of {speed:g} of the sheet's is outside 0.5 to 1.5")
    rise = speed**2 * density_kg_m3 / curve.density_kg_m3
    return FanCurve(
        points=tuple((flow * speed, pressure * rise) for flow, pressure in curve.points),
        density_kg_m3=density_kg_m3,
    )
