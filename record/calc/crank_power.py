"""What turning an air pump by hand takes: power at the shaft, torque, force at the handle.

P = Q Δp / η; T = P / (2π n); F = T / r (mechanics; the fan-power formula as in ASHRAE Handbook –
HVAC Systems and Equipment, chapter on fans, from memory; in inch-pound units hp = cfm × in.wg /
(6356 η)). Q and Δp are those of the place, at its altitude: thin air costs less.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.air_cautions import STRAIN

PLAN_W = 50.0  # what is planned for one person for hours: published 45 to 60 W
FASTEST_REV_S = 2.0  # 120 a minute; our own limit
SHORTEST_M, LONGEST_M = 0.05, 0.5  # of a crank's radius; our own limits


@dataclass(frozen=True, slots=True, kw_only=True)
class CrankLoad:
    """
    What the person at the crank feels, on the mean of a turn.

    Attributes
    ----------
    air_w : float
        Q Δp. In the air. [W]
    shaft_w : float
        P. At the crank. [W]
    torque_nm, handle_n : float
        T and F. The pull goes up and down within a turn; these are its mean. [N m, N]
    handle_m_s : float
        How fast the handle goes round. [m/s]
    over_plan : bool
        Whether it takes more than the 50 W that is planned with.
    caution : str
        Key of the sentence that goes with it.
    """

    air_w: float
    shaft_w: float
    torque_nm: float
    handle_n: float
    handle_m_s: float
    over_plan: bool
    caution: str = STRAIN


def crank_load(
    *,
    flow_m3_s: float,
    pressure_pa: float,
    efficiency: float,
    rate_rev_s: float,
    radius_m: float,
) -> CrankLoad:
    """
    Return what it takes to crank a flow against a pressure.

    Parameters
    ----------
    flow_m3_s, pressure_pa : float
        Q, Δp. Not negative, as they are at this altitude. [m³/s, Pa]
    efficiency : float
        η. Of blower and gear together, above 0 up to 1; hand blowers come to 0.3 to 0.4. [-]
    rate_rev_s : float
        n. Of the crank, above 0 up to 2. [1/s]
    radius_m : float
        r. From axle to handle, 0.05 to 0.5. [m]

    Raises
    ------
    ValueError
        If a number is outside its range.

    Notes
    -----
    The power to bring it up to speed is left out, and so is a stiff gear in the cold: errs low.

    Examples
    --------
    By hand: 0.03 × 500 / 0.4 = 37.5 W; at one turn a second 37.5 / 2π = 5.968 N m; 29.84 N at 0.2.

    >>> load = crank_load(flow_m3_s=0.03, pressure_pa=500, efficiency=0.4, rate_rev_s=1,
    ...                   radius_m=0.2)
    >>> round(load.shaft_w, 3), round(load.torque_nm, 3), round(load.handle_n, 2), load.over_plan
    (37.5, 5.968, 29.84, False)
    """
    shaft_w = shaft_power_w(flow_m3_s, pressure_pa, efficiency)
    if not 0 < rate_rev_s <= FASTEST_REV_S:
        raise ValueError(
            f"a crank at {rate_rev_s * 60:g} rev/min is outside 0 to {FASTEST_REV_S * 60:g} rev/min"
        )
    if not SHORTEST_M <= radius_m <= LONGEST_M:
        raise ValueError(
            f"a crank of {radius_m:g} m is outside {SHORTEST_M:g} to {LONGEST_M:g} m from axle "
            "to handle"
        )
    torque_nm = shaft_w / (2 * math.pi * rate_rev_s)
    return CrankLoad(
        air_w=flow_m3_s * pressure_pa,
        shaft_w=shaft_w,
        torque_nm=torque_nm,
        handle_n=torque_nm / radius_m,
        handle_m_s=2 * math.pi * rate_rev_s * radius_m,
        over_plan=shaft_w > PLAN_W,
    )


def shaft_power_w(flow_m3_s: float, pressure_pa: float, efficiency: float) -> float:
    """
    Return the power at the shaft, Q Δp / η.  [W]

    Raises
    ------
    ValueError
        If flow or pressure is negative, or the efficiency outside 0 to 1.

    Examples
    --------
    >>> round(shaft_power_w(1.5, 800, 0.4), 6)
    3000.0
    """
    for what, value, unit in (("flow", flow_m3_s, "m³/s"), ("pressure", pressure_pa, "Pa")):
        if not 0 <= value < math.inf:
            raise ValueError(f"a {what} of {value:g} {unit} is negative or not a number")
    if not 0 < efficiency <= 1:
        raise ValueError(f"an efficiency of {efficiency:g} is not above 0 and up to 1")
    return flow_m3_s * pressure_pa / efficiency


def flow_for_power_m3_s(power_w: float, pressure_pa: float, efficiency: float) -> float:
    """
    Return the flow that a power at the shaft drives against a pressure, P η / Δp.  [m³/s]

    Raises
    ------
    ValueError
        If power is negative, the pressure not above 0, or the efficiency outside 0 to 1.

    Examples
    --------
    >>> round(flow_for_power_m3_s(50, 400, 0.35), 5)
    0.04375
    """
    if not 0 <= power_w < math.inf:
        raise ValueError(f"a power of {power_w:g} W is negative or not a number")
    if not 0 < pressure_pa < math.inf:
        raise ValueError(f"a pressure of {pressure_pa:g} Pa is not above 0")
    return power_w / shaft_power_w(1.0, pressure_pa, efficiency)
