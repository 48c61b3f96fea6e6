"""Where a fan's curve meets the resistance of its way of air: the flow that there will be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_curve import rising_root
from record.calc.air_run import Air, Length
from record.calc.air_system import Part, SystemDrop, system_drop
from record.calc.fan_curve import FanCurve, fan_in, fan_pressure_pa


@dataclass(frozen=True, slots=True, kw_only=True)
class FanPoint:
    """The flow at which fan and way of air agree, and how that flow's pressure is spent."""

    flow_m3_s: float
    fan_pa: float  # what the fan gives there
    system: SystemDrop  # what the way takes there, part by part
    curve: FanCurve  # the fan's curve in this air and at this speed

    @property
    def air_w(self) -> float:
        """Power in the air itself, Q Δp; the shaft takes more.  [W]"""
        return self.flow_m3_s * self.fan_pa


def fan_point(
    curve: FanCurve,
    lengths: Sequence[Length],
    parts: Sequence[Part],
    air: Air,
    *,
    speed: float = 1.0,
) -> FanPoint:
    """
    Return the operating point of a fan on a way of air.

    Parameters
    ----------
    curve : FanCurve
        As on the maker's sheet; it is brought to ``air`` and ``speed`` by the fan laws.
    lengths, parts, air
        As for `system_drop`.
    speed : float
        Of the fan, or of the crank, over that of the sheet, 0.5 to 1.5. [-]

    Raises
    ------
    ValueError
        If the fan is too weak at the lowest flow of its sheet, or still too strong at the highest:
        the point then lies where the sheet says nothing. And as `fan_in` and `system_drop`.

    Notes
    -----
    Q with fan(Q) = system(Q), by halving; the first never rises with Q and the second never
    falls, so there is at most one (ASHRAE Handbook – Fundamentals 2017, chapter 21, from memory).
    Leaks between fan and room, and a fan set against a bend, give less: errs high. A measured flow
    goes before this one.

    Examples
    --------
    By hand: 300 − 2000 Q meets 100 (Q/0.1) at 1/10.

    >>> fan = FanCurve(points=((0.0, 300.0), (0.15, 0.0)))
    >>> mat = Part(name="mat", rated_m3_s=0.1, rated_pa=100, exponent=1)
    >>> found = fan_point(fan, [], [mat], Air(density_kg_m3=1.2014, viscosity_pa_s=1.8e-5))
    >>> round(found.flow_m3_s, 9), round(found.fan_pa, 9), round(found.air_w, 9)
    (0.1, 100.0, 10.0)
    """
    here = fan_in(curve, density_kg_m3=air.density_kg_m3, speed=speed)

    def lacking_pa(flow_m3_s: float) -> float:
        taken_pa = system_drop(lengths, parts, flow_m3_s, air).total_pa
        return taken_pa - fan_pressure_pa(here, flow_m3_s)

    least, most = here.least_m3_s, here.most_m3_s
    if lacking_pa(least) > 0:
        raise ValueError(
            f"at {least:g} m³/s, the lowest flow of its sheet, the fan is "
            f"{lacking_pa(least):.0f} Pa too weak for this way of air"
        )
    if lacking_pa(most) < 0:
        raise ValueError(
            f"at {most:g} m³/s, the highest flow of its sheet, the fan has "
            f"{-lacking_pa(most):.0f} Pa to spare: the flow is higher than the sheet goes"
        )
    flow = rising_root(lacking_pa, least, most)
    return FanPoint(
        flow_m3_s=flow,
        fan_pa=fan_pressure_pa(here, flow),
        system=system_drop(lengths, parts, flow, air),
        curve=here,
    )
