"""What it takes to push air through a run of pipes as built, length by length.

Δp = Σ (f L/D + ΣK) ½ ρ V² over the lengths of the run (Darcy–Weisbach; ASHRAE Handbook –
Fundamentals 2017, chapter 21, cited from memory), each as in `record.calc.air_friction`, whose
limits hold here: Re up to 1e8, ε/D up to 0.05, air up to 100 m/s.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_density import air_density_kg_m3, air_viscosity_pa_s
from record.calc.air_friction import LAMINAR_UP_TO, AirDrop, air_drop

TURBULENT_FROM = 4000.0  # Reynolds number from which Colebrook is proved


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """The air in the pipes: density ρ [kg/m³] and dynamic viscosity μ [Pa s]."""

    density_kg_m3: float
    viscosity_pa_s: float


def air_at(altitude_m: float, temperature_c: float) -> Air:
    """
    Return the air of an altitude, −5000 to 11 000 m, at a temperature, −60 to 60 °C.

    Raises
    ------
    ValueError
        If either is outside its range.

    Examples
    --------
    >>> round(air_at(0, 20).density_kg_m3, 4)
    1.2041
    """
    return Air(
        density_kg_m3=air_density_kg_m3(altitude_m, temperature_c),
        viscosity_pa_s=air_viscosity_pa_s(temperature_c),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """
    One length of a run, of one size throughout.

    Attributes
    ----------
    name : str
        What it is called in what is said of it.
    length_m, diameter_m : float
        Straight pipe, and its inside diameter. [m]
    roughness_m : float
        ε. As in `record.calc.air_walls`. [m]
    coefficients : tuple of float
        K of each fitting in it, against the velocity in it. [-]
    """

    name: str
    length_m: float
    diameter_m: float
    roughness_m: float
    coefficients: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthDrop:
    """One length with air through it. ``regime``: still, laminar, transitional or turbulent."""

    name: str
    velocity_m_s: float
    velocity_pressure_pa: float
    reynolds: float
    regime: str
    friction_factor: float
    straight_pa: float
    fittings_pa: float

    @property
    def total_pa(self) -> float:
        """Straight pipe and fittings of this length.  [Pa]"""
        return self.straight_pa + self.fittings_pa


@dataclass(frozen=True, slots=True)
class RunDrop:
    """A run with air through it: each length, in order."""

    flow_m3_s: float
    lengths: tuple[LengthDrop, ...]

    @property
    def straight_pa(self) -> float:
        """All straight pipe.  [Pa]"""
        return math.fsum(each.straight_pa for each in self.lengths)

    @property
    def fittings_pa(self) -> float:
        """All fittings.  [Pa]"""
        return math.fsum(each.fittings_pa for each in self.lengths)

    @property
    def total_pa(self) -> float:
        """From one end to the other.  [Pa]"""
        return self.straight_pa + self.fittings_pa


def run_drop(lengths: Sequence[Length], flow_m3_s: float, air: Air) -> RunDrop:
    """
    Return the pressure a flow loses along a run, length by length.

    Parameters
    ----------
    lengths : sequence of Length
        In the order of the flow; none is a run that loses nothing.
    flow_m3_s : float
        Q, at the density of ``air``; 0 is still air. [m³/s]
    air : Air

    Raises
    ------
    ValueError
        As `record.calc.air_friction.air_drop`, with the name of the length before it.

    Notes
    -----
    Between Re 2300 and 4000 ("transitional") the flow may be either: the turbulent factor, the
    greater, is given. A change of size itself is a fitting: give its K to the narrower length.
    Draught of warm or cold air between levels is left out, either way.

    Examples
    --------
    By hand, laminar, 64/1000 × 10/0.1 × ½ × 1.2 × 0.15² = 0.0864, and 1.5 × 0.0135:

    >>> pipe = Length(name="a", length_m=10, diameter_m=0.1, roughness_m=0, coefficients=(0.5, 1))
    >>> drop = run_drop([pipe, pipe], 0.15 * 0.0078539816, Air(density_kg_m3=1.2,
    ...                                                        viscosity_pa_s=1.8e-5))
    >>> round(drop.straight_pa, 4), round(drop.fittings_pa, 4), drop.lengths[0].regime
    (0.1728, 0.0405, 'laminar')
    """
    return RunDrop(flow_m3_s, tuple(_length_drop(each, flow_m3_s, air) for each in lengths))


def regime(reynolds: float) -> str:
    """Return how air flows at a Reynolds number: still, laminar, transitional or turbulent."""
    if reynolds <= 0:
        return "still"
    if reynolds <= LAMINAR_UP_TO:
        return "laminar"
    return "transitional" if reynolds < TURBULENT_FROM else "turbulent"


def _length_drop(length: Length, flow_m3_s: float, air: Air) -> LengthDrop:
    still = flow_m3_s == 0
    try:  # a length is checked as strictly in still air as in moving air
        drop = _drop(length, 1e-9 if still else flow_m3_s, air)
    except ValueError as fault:
        raise ValueError(f"{length.name}: {fault}") from None
    moving = 0.0 if still else 1.0
    return LengthDrop(
        name=length.name,
        velocity_m_s=moving * drop.velocity_m_s,
        velocity_pressure_pa=moving * drop.velocity_pressure_pa,
        reynolds=moving * drop.reynolds,
        regime=regime(moving * drop.reynolds),
        friction_factor=moving * drop.friction_factor,
        straight_pa=moving * drop.straight_pa,
        fittings_pa=moving * drop.fittings_pa,
    )


def _drop(length: Length, flow_m3_s: float, air: Air) -> AirDrop:
    return air_drop(
        flow_m3_s=flow_m3_s,
        diameter_m=length.diameter_m,
        length_m=length.length_m,
        roughness_m=length.roughness_m,
        density_kg_m3=air.density_kg_m3,
        viscosity_pa_s=air.viscosity_pa_s,
        loss_coefficients=length.coefficients,
    )
