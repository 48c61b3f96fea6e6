"""What pressure it takes to push air through a round pipe and its fittings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

LAMINAR_UP_TO = 2300.0  # Reynolds number
GREATEST_REYNOLDS = 1e8  # end of Moody's chart
ROUGHEST = 0.05  # roughness over diameter; end of Moody's chart
FASTEST_M_S = 100.0  # Mach 0.3, from memory: beyond it the density changes on the way
_ROUNDS = 30  # each takes four fifths of the error away, or more


@dataclass(frozen=True, slots=True, kw_only=True)
class AirDrop:
    """The flow in a pipe and the static pressure it costs."""

    velocity_m_s: float  # mean over the section
    reynolds: float
    friction_factor: float  # Darcy's, four times Fanning's
    velocity_pressure_pa: float
    straight_pa: float
    fittings_pa: float

    @property
    def total_pa(self) -> float:
        """Straight pipe and fittings together.  [Pa]"""
        return self.straight_pa + self.fittings_pa


def air_drop(
    *,
    flow_m3_s: float,
    diameter_m: float,
    length_m: float,
    roughness_m: float,
    density_kg_m3: float,
    viscosity_pa_s: float,
    loss_coefficients: Sequence[float] = (),
) -> AirDrop:
    """
    Return the pressure lost in a straight round pipe and in the fittings of its size.

    Parameters
    ----------
    flow_m3_s : float
        Q. At the density given, above 0. [m³/s]
    diameter_m : float
        D. Inside. [m]
    length_m : float
        L. Of the straight pipe; 0 for fittings alone. [m]
    roughness_m : float
        ε. Equivalent sand roughness of the wall, at most 0.05 D; 0 is a smooth wall. [m]
    density_kg_m3, viscosity_pa_s : float
        ρ, μ. Of the air in the pipe. [kg/m³, Pa s]
    loss_coefficients : sequence of float
        K of every bend, entry, exit, hood or valve, each against the velocity in this pipe. [-]

    Raises
    ------
    ValueError
        If a number is negative or not finite, one that must be above 0 is not, the wall is
        rougher than 0.05 D, the air faster than 100 m/s, or Re above 1e8.

    Notes
    -----
    Δp = (f L/D + ΣK) ½ ρ V² (Darcy–Weisbach [1]_, [2]_), with f as in `friction_factor`.

    Density is held constant; where the drop is a tenth of the absolute pressure or more, this
    errs low. Joints, dents, dirt, standing water and the swirl between fittings set close together
    are left out, which errs low; so is the draught of warm or cold air in a riser, either way.
    Branches and changes of size are worked pipe by pipe.

    Examples
    --------
    By hand, laminar, f = 64/1000, 0.064 × 10/0.1 × ½ × 1.2 × 0.15²:

    >>> drop = air_drop(flow_m3_s=0.15 * 0.0078539816, diameter_m=0.1, length_m=10,
    ...     roughness_m=0, density_kg_m3=1.2, viscosity_pa_s=1.8e-5, loss_coefficients=[0.5, 1])
    >>> round(drop.reynolds), round(drop.straight_pa, 4), round(drop.fittings_pa, 5)
    (1000, 0.0864, 0.02025)

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 21, Darcy and Colebrook equations
       (cited from memory).
    .. [2] Crane, Technical Paper 410 (resistance coefficient K of fittings; cited
       from memory).
    """
    _refuse_negative("length", length_m, "m")
    for coefficient in loss_coefficients:
        _refuse_negative("loss coefficient", coefficient, "")
    _refuse_negative("roughness", roughness_m, "m")
    speed = velocity_m_s(flow_m3_s, diameter_m)
    reynolds = reynolds_number(speed, diameter_m, density_kg_m3, viscosity_pa_s)
    factor = friction_factor(reynolds, roughness_m / diameter_m)
    pressure_pa = velocity_pressure_pa(speed, density_kg_m3)
    return AirDrop(
        velocity_m_s=speed,
        reynolds=reynolds,
        friction_factor=factor,
        velocity_pressure_pa=pressure_pa,
        straight_pa=factor * length_m / diameter_m * pressure_pa,
        fittings_pa=math.fsum(loss_coefficients) * pressure_pa,
    )


def velocity_m_s(flow_m3_s: float, diameter_m: float) -> float:
    """
    Return the mean velocity in a full round pipe, V = Q / (π D²/4).  [m/s]

    Raises
    ------
    ValueError
        If flow or diameter is not above 0, or the air is faster than 100 m/s.

    Examples
    --------
    >>> round(velocity_m_s(0.05, 0.15), 4)
    2.8294
    """
    _refuse_none("flow", flow_m3_s, "m³/s")
    _refuse_none("diameter", diameter_m, "m")
    speed = flow_m3_s / (math.pi * diameter_m**2 / 4)
    if speed > FASTEST_M_S:
        raise ValueError(f"air at {speed:.1f} m/s is faster than {FASTEST_M_S:g} m/s")
    return speed


def reynolds_number(
    velocity_m_s: float, diameter_m: float, density_kg_m3: float, viscosity_pa_s: float
) -> float:
    """
    Return Re = ρ V D / μ.  [-]

    Raises
    ------
    ValueError
        If one of the four is not above 0.

    Examples
    --------
    >>> round(reynolds_number(2.8294, 0.15, 1.2041, 1.813e-5))
    28187
    """
    _refuse_none("velocity", velocity_m_s, "m/s")
    _refuse_none("diameter", diameter_m, "m")
    _refuse_none("density", density_kg_m3, "kg/m³")
    _refuse_none("viscosity", viscosity_pa_s, "Pa s")
    return density_kg_m3 * velocity_m_s * diameter_m / viscosity_pa_s


def velocity_pressure_pa(velocity_m_s: float, density_kg_m3: float) -> float:
    """
    Return the pressure of the air's motion, ½ ρ V².  [Pa]

    Raises
    ------
    ValueError
        If velocity or density is negative or not finite.

    Examples
    --------
    >>> round(velocity_pressure_pa(10, 1.2), 9)
    60.0
    """
    _refuse_negative("velocity", velocity_m_s, "m/s")
    _refuse_negative("density", density_kg_m3, "kg/m³")
    return density_kg_m3 * velocity_m_s**2 / 2


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """
    Return Darcy's friction factor of a round pipe.  [-]

    Parameters
    ----------
    reynolds : float
        Re, above 0, up to 1e8. [-]
    relative_roughness : float
        ε / D, 0 to 0.05. [-]

    Raises
    ------
    ValueError
        If either is outside its range.

    Notes
    -----
    Laminar, Re ≤ 2300: f = 64 / Re. Above: 1/√f = −2 log10(ε/(3.7 D) + 2.51/(Re √f)), Colebrook
    [1]_, put into itself until it stands still; the two walls of the chart are Moody's [2]_.
    Colebrook is proved from Re = 4000. Between 2300 and 4000 the flow may be either; the
    turbulent factor is the greater and is the one given, so there it errs high.
    Charts of ducts with joints read 5 to 14 % more than this with a clean wall's roughness.

    Examples
    --------
    >>> friction_factor(1000, 0), round(friction_factor(1e5, 1e-4), 6)
    (0.064, 0.018514)

    References
    ----------
    .. [1] C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers
       11 (1939), 133–156 (cited from memory).
    .. [2] L. F. Moody, Friction factors for pipe flow, Transactions of the ASME 66 (1944), 671–684
       (cited from memory).
    """
    if not 0 < reynolds <= GREATEST_REYNOLDS:
        raise ValueError(f"Re {reynolds:g} is outside 0 to {GREATEST_REYNOLDS:g}")
    if not 0 <= relative_roughness <= ROUGHEST:
        raise ValueError(
            f"a roughness of {relative_roughness:g} of the diameter is outside 0 to {ROUGHEST:g}"
        )
    if reynolds <= LAMINAR_UP_TO:
        return 64 / reynolds
    root = 5.0  # 1/√f, of f = 0.04
    for _ in range(_ROUNDS):
        root = -2 * math.log10(relative_roughness / 3.7 + 2.51 * root / reynolds)
    return 1 / root**2


def _refuse_none(what: str, value: float, unit: str) -> None:
    if not 0 < value < math.inf:
        raise ValueError(f"{what} {value} {unit} is not above 0")


def _refuse_negative(what: str, value: float, unit: str) -> None:
    if not 0 <= value < math.inf:
        raise ValueError(f"{what} {value} {unit}".rstrip() + " is negative or not a number")
