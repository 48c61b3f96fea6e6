"""The size of a trunk that feeds several branches, by equal friction.

Every length is given the diameter at which it loses the same pressure a metre
(ASHRAE Handbook – Fundamentals 2017, chapter 21, equal-friction method, cited from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_curve import rising_root
from record.calc.air_friction import ROUGHEST
from record.calc.air_run import Air, Length, LengthDrop, run_drop

WIDEST_M = 3.0
_SPEED_LIMIT_M_S = 99.0  # just inside what a drop can be worked for


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """One pipe: the diameter that just meets the rate, the one to buy, and the air in that one."""

    flow_m3_s: float
    exact_m: float
    nominal_m: float | None  # None where no size on the list is large enough
    in_nominal: LengthDrop | None  # over one metre


@dataclass(frozen=True, slots=True, kw_only=True)
class Trunk:
    """A trunk and its branches, all at one loss a metre. [Pa/m]"""

    rate_pa_m: float
    branches: tuple[Sized, ...]
    trunk: Sized


def rate_pa_m(flow_m3_s: float, diameter_m: float, roughness_m: float, air: Air) -> float:
    """
    Return the pressure a flow loses in one metre of straight pipe.  [Pa/m]

    Raises
    ------
    ValueError
        As `record.calc.air_friction.air_drop`.

    Examples
    --------
    fluids: 100 cfm in 6 in of ε 0.0003 ft lose 20.68 Pa in 30.48 m, 0.678 a metre:

    >>> air = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
    >>> round(rate_pa_m(100 * 4.719474e-4, 0.1524, 0.0003 * 0.3048, air), 3)
    0.678
    """
    return _metre(flow_m3_s, diameter_m, roughness_m, air).straight_pa


def diameter_at_rate_m(flow_m3_s: float, rate: float, roughness_m: float, air: Air) -> float:
    """
    Return the inside diameter at which a flow loses ``rate`` pascals a metre.  [m]

    Raises
    ------
    ValueError
        If flow or rate is not above 0, or no pipe up to 3 m wide, with air up to 99 m/s and a wall
        within 0.05 D, loses that.

    Notes
    -----
    By halving: the wider, the less it loses. At the edge from laminar to turbulent the loss jumps;
    a rate within the jump gets the diameter at which it jumps.

    Examples
    --------
    fluids: 1000 cfm at 0.1 in.wg in 100 ft want 13.66 in:

    >>> air = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
    >>> round(diameter_at_rate_m(0.4719474, 24.9089 / 30.48, 0.0003 * 0.3048, air) / 0.0254, 1)
    13.7
    """
    for what, value, unit in (("flow", flow_m3_s, "m³/s"), ("rate", rate, "Pa/m")):
        if not 0 < value < math.inf:
            raise ValueError(f"a {what} of {value:g} {unit} is not above 0")
    narrowest_m = max(math.sqrt(4 * flow_m3_s / math.pi / _SPEED_LIMIT_M_S), roughness_m / ROUGHEST)
    try:
        return rising_root(
            lambda diameter: rate - rate_pa_m(flow_m3_s, diameter, roughness_m, air),
            narrowest_m * (1 + 1e-12),
            WIDEST_M,
        )
    except ValueError:
        raise ValueError(
            f"no pipe up to {WIDEST_M:g} m wide loses {rate:g} Pa/m with {flow_m3_s:g} m³/s in it"
        ) from None


def trunk_size(
    flows_m3_s: Sequence[float],
    rate: float,
    roughness_m: float,
    air: Air,
    nominal_m: Sequence[float] = (),
) -> Trunk:
    """
    Return the sizes of branches and of the trunk that feeds them, all losing alike a metre.

    Parameters
    ----------
    flows_m3_s : sequence of float
        Of each branch, at least one. [m³/s]
    rate : float
        What each may lose. [Pa/m]
    roughness_m : float
        ε, of all. [m]
    air : Air
    nominal_m : sequence of float
        Inside diameters that can be had, in any order; the next wider one is named. [m]

    Raises
    ------
    ValueError
        If there is no branch, or as `diameter_at_rate_m`.

    Notes
    -----
    The trunk carries the sum. Branches of unequal length do not share the flow so by themselves:
    dampers do. The rule of a constant factor, branch = trunk/2^(2/5), is not used: it makes
    branches too narrow.

    Examples
    --------
    fluids: 200 and 100 cfm at 0.1 in.wg in 100 ft want 7.475 and 5.776 in, their trunk 8.696:

    >>> air, cfm = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5), 4.719474e-4
    >>> all_of = trunk_size([200 * cfm, 100 * cfm], 24.9089 / 30.48, 0.0003 * 0.3048, air)
    >>> [round(each.exact_m / 0.0254, 1) for each in (*all_of.branches, all_of.trunk)]
    [7.5, 5.8, 8.7]
    """
    if not flows_m3_s:
        raise ValueError("a trunk needs at least one branch")

    def sized(flow: float) -> Sized:
        exact = diameter_at_rate_m(flow, rate, roughness_m, air)
        wider = [each for each in nominal_m if each >= exact]
        chosen = min(wider, default=None)
        inside = None if chosen is None else _metre(flow, chosen, roughness_m, air)
        return Sized(flow_m3_s=flow, exact_m=exact, nominal_m=chosen, in_nominal=inside)

    return Trunk(
        rate_pa_m=rate,
        branches=tuple(sized(flow) for flow in flows_m3_s),
        trunk=sized(math.fsum(flows_m3_s)),
    )


def _metre(flow_m3_s: float, diameter_m: float, roughness_m: float, air: Air) -> LengthDrop:
    one = Length(name="pipe", length_m=1.0, diameter_m=diameter_m, roughness_m=roughness_m)
    return run_drop([one], flow_m3_s, air).lengths[0]
