"""The resistance of a whole way of air: runs, parts with a maker's point, and a valve's opening.

Δp(Q) = Σ runs (Darcy–Weisbach) + Σ parts Δp0 (Q/Q0)ⁿ (ρ/ρ0) + Σ openings
(ASHRAE Handbook – Fundamentals 2017, chapter 21, system curve, cited from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_run import Air, Length, RunDrop, run_drop

STANDARD_KG_M3 = 1.2014  # 0.075 lb/ft³: what makers' sheets are written for
SLOWEST_RISE, FASTEST_RISE = 1.0, 2.0  # laminar through a filter's mat; turbulent through a valve


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """
    A filter, silencer, grille or valve known by one point of its maker's sheet.

    Attributes
    ----------
    name : str
    rated_m3_s, rated_pa : float
        Q0, Δp0. A flow above 0 and the pressure it costs there, in air of ``rated_kg_m3``.
    exponent : float
        n. 1 for a filter's mat, 2 for openings, valves and grilles. [-]
    opening_pa : float
        What it takes before any air passes, as of an overpressure valve; it is added to the
        rest at every flow above 0. [Pa]
    rated_kg_m3 : float
        ρ0. Matters only with n above 1: a laminar drop goes with viscosity, not density.

    Raises
    ------
    ValueError
        If a number is outside its range.
    """

    name: str
    rated_m3_s: float
    rated_pa: float
    exponent: float = 2.0
    opening_pa: float = 0.0
    rated_kg_m3: float = STANDARD_KG_M3

    def __post_init__(self) -> None:
        above = (("flow", self.rated_m3_s, "m³/s"), ("density", self.rated_kg_m3, "kg/m³"))
        for what, value, unit in above:
            if not 0 < value < math.inf:
                raise ValueError(f"{self.name}: a rated {what} of {value:g} {unit} is not above 0")
        for what, value in (("a rated pressure", self.rated_pa), ("an opening", self.opening_pa)):
            if not 0 <= value < math.inf:
                raise ValueError(f"{self.name}: {what} of {value:g} Pa is negative or not a number")
        if not SLOWEST_RISE <= self.exponent <= FASTEST_RISE:
            raise ValueError(f"{self.name}: an exponent of {self.exponent:g} is outside 1 to 2")


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDrop:
    """One part with air through it: what opens it, and what the flow costs. [Pa]"""

    name: str
    opening_pa: float
    flow_pa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemDrop:
    """The whole way with air through it."""

    flow_m3_s: float
    run: RunDrop
    parts: tuple[PartDrop, ...]

    @property
    def parts_pa(self) -> float:
        """What the flow costs in all parts, without their openings.  [Pa]"""
        return math.fsum(each.flow_pa for each in self.parts)

    @property
    def openings_pa(self) -> float:
        """What it takes to open the parts.  [Pa]"""
        return math.fsum(each.opening_pa for each in self.parts)

    @property
    def total_pa(self) -> float:
        """What the fan must give.  [Pa]"""
        return self.run.total_pa + self.parts_pa + self.openings_pa


def system_drop(
    lengths: Sequence[Length], parts: Sequence[Part], flow_m3_s: float, air: Air
) -> SystemDrop:
    """
    Return what a flow costs along a whole way of air, part by part.

    Parameters
    ----------
    lengths : sequence of Length
    parts : sequence of Part
    flow_m3_s : float
        Q. 0 is still air: then nothing is lost, and the openings hold. [m³/s]
    air : Air

    Raises
    ------
    ValueError
        If the flow is negative, or as `run_drop`.

    Notes
    -----
    A dirty filter, a stuck flap and a wet sag cost more than any sheet says: errs low. With n
    between 1 and 2 the density counts to the power n − 1: in full for an opening, not at all for
    a mat.

    Examples
    --------
    By hand: half the rated flow through an opening costs a quarter, through a mat a half.

    >>> air = Air(density_kg_m3=1.2014, viscosity_pa_s=1.814e-5)
    >>> valve = Part(name="valve", rated_m3_s=0.1, rated_pa=80, opening_pa=60)
    >>> mat = Part(name="filter", rated_m3_s=0.1, rated_pa=80, exponent=1)
    >>> drop = system_drop([], [valve, mat], 0.05, air)
    >>> [round(each.flow_pa, 9) for each in drop.parts], round(drop.total_pa, 9)
    ([20.0, 40.0], 120.0)
    """
    if not 0 <= flow_m3_s < math.inf:
        raise ValueError(f"a flow of {flow_m3_s:g} m³/s is negative or not a number")
    return SystemDrop(
        flow_m3_s=flow_m3_s,
        run=run_drop(lengths, flow_m3_s, air),
        parts=tuple(_part_drop(each, flow_m3_s, air.density_kg_m3) for each in parts),
    )


def _part_drop(part: Part, flow_m3_s: float, density_kg_m3: float) -> PartDrop:
    share = (flow_m3_s / part.rated_m3_s) ** part.exponent
    thinner = (density_kg_m3 / part.rated_kg_m3) ** (part.exponent - 1)
    return PartDrop(
        name=part.name,
        opening_pa=part.opening_pa if flow_m3_s > 0 else 0.0,
        flow_pa=part.rated_pa * share * thinner,
    )
