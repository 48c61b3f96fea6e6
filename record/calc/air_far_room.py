"""The pressure that a supply of air holds in two rooms in a row, against leaks and a relief valve.

Leak Q = Q0 (Δp/Δp0)ⁿ (power law of tightness tests, ASTM E779; n 0.5 a hole, 1 a long crack);
opening Δp = ½ ρ (Q/(Cd A))², Cd 0.6 (sharp orifice, textbook); valve shut up to its opening
pressure, then Δp = Δpo + Δpv (Q/Qv)². What comes in leaves by these alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.air_cautions import MEASURED_TRIAL
from record.calc.air_curve import rising_root

DISCHARGE = 0.6
GREATEST_PA = 1000.0  # our own limit: a tightness test is made at 10 to 100
LEAST_EXPONENT, MOST_EXPONENT, USUAL_EXPONENT = 0.5, 1.0, 0.65


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak:
    """A leak as a tightness test found it: Q0 [m³/s] at Δp0 [Pa], and n [-]. Q0 of 0 is tight."""

    flow_m3_s: float
    at_pa: float
    exponent: float = USUAL_EXPONENT

    def __post_init__(self) -> None:
        if not 0 <= self.flow_m3_s < math.inf:
            raise ValueError(f"a leak of {self.flow_m3_s:g} m³/s is negative or not a number")
        if not 0 < self.at_pa <= GREATEST_PA:
            raise ValueError(f"a test at {self.at_pa:g} Pa is outside 0 to {GREATEST_PA:g} Pa")
        if not LEAST_EXPONENT <= self.exponent <= MOST_EXPONENT:
            raise ValueError(f"an exponent of {self.exponent:g} is outside 0.5 to 1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief:
    """A relief valve: opens at Δpo [Pa]; Qv [m³/s] passes at Δpv [Pa] over that."""

    opens_pa: float
    flow_m3_s: float
    over_pa: float

    def __post_init__(self) -> None:
        if not 0 <= self.opens_pa < GREATEST_PA:
            raise ValueError(
                f"a valve that opens at {self.opens_pa:g} Pa is outside 0 to {GREATEST_PA:g} Pa"
            )
        for what, value, unit in (("flow", self.flow_m3_s, "m³/s"), ("excess", self.over_pa, "Pa")):
            if not 0 < value < math.inf:
                raise ValueError(f"a valve's {what} of {value:g} {unit} is not above 0")


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoRooms:
    """Pressures over outside [Pa] and flows [m³/s] of two rooms in a row."""

    near_pa: float
    far_pa: float
    between_pa: float  # lost in the opening from near to far
    through_m3_s: float  # by that opening
    near_leak_m3_s: float
    far_leak_m3_s: float
    valve_m3_s: float
    valve_open: bool
    caution: str = MEASURED_TRIAL


def leak_m3_s(leak: Leak, pressure_pa: float) -> float:
    """
    Return what a leak loses at a pressure, Q0 (Δp/Δp0)ⁿ.  [m³/s]

    Raises
    ------
    ValueError
        If the pressure is outside 0 to 1000 Pa.

    Examples
    --------
    >>> leak_m3_s(Leak(flow_m3_s=0.02, at_pa=100, exponent=0.5), 25)
    0.01
    """
    if not 0 <= pressure_pa <= GREATEST_PA:
        raise ValueError(f"a pressure of {pressure_pa:g} Pa is outside 0 to {GREATEST_PA:g} Pa")
    return float(leak.flow_m3_s * (pressure_pa / leak.at_pa) ** leak.exponent)


def relief_m3_s(relief: Relief, pressure_pa: float) -> float:
    """
    Return what a relief valve lets out at a pressure; nothing up to its opening.  [m³/s]

    Examples
    --------
    >>> valve = Relief(opens_pa=60, flow_m3_s=0.03, over_pa=20)
    >>> relief_m3_s(valve, 60), relief_m3_s(valve, 65)
    (0.0, 0.015)
    """
    over = max(pressure_pa - relief.opens_pa, 0.0)
    return relief.flow_m3_s * math.sqrt(over / relief.over_pa)


def two_rooms(
    supply_m3_s: float,
    *,
    near_leak: Leak,
    far_leak: Leak,
    relief: Relief | None,
    opening_m2: float,
    density_kg_m3: float,
) -> TwoRooms:
    """
    Return the pressures in a near room that is supplied and a far room behind an opening.

    Parameters
    ----------
    supply_m3_s : float
        Q. Into the near room, not negative. [m³/s]
    near_leak, far_leak : Leak
        Of each room to outside.
    relief : Relief or None
        The valve in the far room.
    opening_m2 : float
        A. Free area between the rooms, above 0. [m²]
    density_kg_m3 : float
        ρ, above 0. [kg/m³]

    Raises
    ------
    ValueError
        If a number is outside its range, or a room would come to more than 1000 Pa.

    Notes
    -----
    Wind and warm air standing in a shaft move it by tens of pascals, either way. A gauge in the
    far room goes before this.

    Examples
    --------
    By hand: all of 0.03 m³/s leaves by a valve that passes 0.03 at 20 Pa over 60; through 0.05 m²
    it loses 0.6 × (0.03/(0.6 × 0.05))² = 0.6:

    >>> tight = Leak(flow_m3_s=0, at_pa=60)
    >>> found = two_rooms(0.03, near_leak=tight, far_leak=tight, opening_m2=0.05,
    ...     relief=Relief(opens_pa=60, flow_m3_s=0.03, over_pa=20), density_kg_m3=1.2)
    >>> round(found.far_pa, 6), round(found.between_pa, 6), found.valve_open
    (80.0, 0.6, True)
    """
    for what, value, unit in (
        ("an opening", opening_m2, "m²"),
        ("a density", density_kg_m3, "kg/m³"),
    ):
        if not 0 < value < math.inf:
            raise ValueError(f"{what} of {value:g} {unit} is not above 0")
    if not 0 <= supply_m3_s < math.inf:
        raise ValueError(f"a supply of {supply_m3_s:g} m³/s is negative or not a number")

    def rooms(far_pa: float) -> TwoRooms:
        valve = 0.0 if relief is None else relief_m3_s(relief, far_pa)
        far_leak_flow = leak_m3_s(far_leak, far_pa)
        through = far_leak_flow + valve
        lost = density_kg_m3 / 2 * (through / (DISCHARGE * opening_m2)) ** 2
        near = min(far_pa + lost, GREATEST_PA)  # refused below, not within the search
        return TwoRooms(
            near_pa=near,
            far_pa=far_pa,
            between_pa=lost,
            through_m3_s=through,
            near_leak_m3_s=leak_m3_s(near_leak, near),
            far_leak_m3_s=far_leak_flow,
            valve_m3_s=valve,
            valve_open=valve > 0,
        )

    def too_much(far_pa: float) -> float:
        found = rooms(far_pa)
        return found.through_m3_s + found.near_leak_m3_s - supply_m3_s

    told = (
        f"with {supply_m3_s:g} m³/s coming in and so little to leave by, a room would come to "
        f"more than {GREATEST_PA:g} Pa"
    )
    if too_much(GREATEST_PA) < 0:
        raise ValueError(told)
    found = rooms(rising_root(too_much, 0.0, GREATEST_PA))
    if found.far_pa + found.between_pa > GREATEST_PA:
        raise ValueError(told)
    return found
