"""How cold a surface gets through its layers, and how much insulation keeps it dry."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

#: Resistance of still air at an inside surface, by the way heat goes. [m² K/W]
#: ISO 6946, table of surface resistances; from memory.
RSI = {"wall": 0.13, "up": 0.10, "down": 0.17}
RSE = 0.04  # the outside face in open air; a face against earth has none
_HALVINGS = 100
_THICKEST_M = 2.0


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer: thickness, 0 or more [m], and conductivity, above 0 [W/(m K)]."""

    thickness_m: float
    conductivity_w_mk: float

    def __post_init__(self) -> None:
        if not 0 <= self.thickness_m < math.inf:
            raise ValueError(f"a thickness of {self.thickness_m} m is negative or not a number")
        _conducts(self.conductivity_w_mk)


def _conducts(value: float) -> None:
    if not 0 < value < math.inf:
        raise ValueError(f"a conductivity of {value} W/mK is not above 0")


@dataclass(frozen=True, slots=True)
class Surface:
    """The temperature of a surface [°C] and what flows through it [W/m², or W/m of a pipe]."""

    temperature_c: float
    heat: float


def resistance_m2k_w(layers: Sequence[Layer]) -> float:
    """
    Return the thermal resistance of flat layers without their surfaces: Σ t/k.  [m² K/W]

    Examples
    --------
    Two inches at R 6.5 an inch:

    >>> round(resistance_m2k_w([Layer(0.0508, 0.022190)]), 3)
    2.289
    """
    return math.fsum(layer.thickness_m / layer.conductivity_w_mk for layer in layers)


def flat_surface(
    layers: Sequence[Layer], *, inside_c: float, outside_c: float, rsi: float, rse: float
) -> Surface:
    """
    Return the temperature of the inside face of a wall, roof or floor.

    Parameters
    ----------
    layers : sequence of Layer
        From the room outward.
    inside_c, outside_c : float
        Of the room, and of the air or earth at the outside of the last layer. [°C]
    rsi, rse : float
        Resistance of the two surfaces, `rsi` above 0, `rse` 0 or more (0 against earth). [m² K/W]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    U = 1/(Rsi + Σ t/k + Rse); q = U (Ti − Te); Tsi = Ti − Rsi q [1]_. One way for the heat and a
    steady state: furring, studs, welds and corners are colder than this says.

    Examples
    --------
    Bare steel of 6 mm, 20 °C inside and 10 °C at its outside:

    >>> round(flat_surface([Layer(0.006, 50)], inside_c=20, outside_c=10, rsi=0.13, rse=0)
    ...       .temperature_c, 2)
    10.01

    References
    ----------
    .. [1] ISO 6946 (from memory).
    """
    if not 0 < rsi < math.inf:
        raise ValueError(f"an inside surface resistance of {rsi} is not above 0")
    if not 0 <= rse < math.inf:
        raise ValueError(f"an outside surface resistance of {rse} is negative or not a number")
    heat = (inside_c - outside_c) / (rsi + resistance_m2k_w(layers) + rse)
    return Surface(inside_c - rsi * heat, heat)


def least_resistance_m2k_w(
    *, inside_c: float, outside_c: float, dew_point_c: float, rsi: float, rse: float
) -> float:
    """
    Return the resistance of layers at which the inside face is just at the dew point.  [m² K/W]

    0 where the bare face is dry. It is the edge, not a margin: add what doubt there is.

    Parameters
    ----------
    inside_c, outside_c, rsi, rse : float
        As for `flat_surface`.
    dew_point_c : float
        Of the air inside; below its temperature. [°C]

    Raises
    ------
    ValueError
        If the dew point is not below the temperature inside: then no insulation keeps it dry.

    Notes
    -----
    R = Rsi (Ti − Te)/(Ti − Td) − Rsi − Rse, from Tsi = Td.

    Examples
    --------
    20 °C at 70 % (dew point 14.37 °C) against 8 °C: 3.5 mm of foam with k 0.024.

    >>> r = least_resistance_m2k_w(inside_c=20, outside_c=8, dew_point_c=14.37, rsi=0.13, rse=0)
    >>> round(r * 0.024 * 1000, 1)
    3.5
    """
    if not dew_point_c < inside_c:
        raise ValueError(
            f"a dew point of {dew_point_c} °C is not below the room at {inside_c} °C: "
            "no insulation keeps that surface dry"
        )
    needed = rsi * (inside_c - outside_c) / (inside_c - dew_point_c) - rsi - rse
    return max(0.0, needed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """A cold pipe in warm air: outside diameter [m], what is in it [°C], the air round it [°C]."""

    outside_m: float
    inside_c: float
    air_c: float
    film_w_m2k: float  # h, from the surface to the air; 8 to 10 in still air

    def __post_init__(self) -> None:
        if not 0 < self.outside_m < math.inf:
            raise ValueError(f"an outside diameter of {self.outside_m} m is not above 0")
        if not 0 < self.film_w_m2k < math.inf:
            raise ValueError(f"a film of {self.film_w_m2k} W/m²K is not above 0")


def pipe_surface(pipe: Pipe, insulation: Layer) -> Surface:
    """
    Return the temperature of the outside of the insulation of a pipe.

    Notes
    -----
    Per metre of pipe R' = ln(r2/r1)/(2πk) + 1/(2π r2 h); the wall of the pipe and the film in it
    are left out, which errs cold, to the safe side. Its heat is W per metre, below 0 into the pipe.

    Examples
    --------
    >>> cold = Pipe(outside_m=0.1143, inside_c=10, air_c=25, film_w_m2k=8)
    >>> round(pipe_surface(cold, Layer(0.013, 0.035)).temperature_c, 1)
    21.5
    """
    inner = pipe.outside_m / 2
    outer = inner + insulation.thickness_m
    layer = math.log(outer / inner) / (2 * math.pi * insulation.conductivity_w_mk)
    film = 1 / (2 * math.pi * outer * pipe.film_w_m2k)
    heat = (pipe.inside_c - pipe.air_c) / (layer + film)
    return Surface(pipe.air_c + heat * film, heat)


def least_pipe_insulation_m(pipe: Pipe, conductivity_w_mk: float, dew_point_c: float) -> float:
    """
    Return the thickness at which the outside of a cold pipe's insulation is at the dew point.  [m]

    0 where the bare pipe is dry. It is the edge, not a margin.

    Raises
    ------
    ValueError
        If the dew point is not below the air's temperature, or no thickness up to 2 m is enough.

    Examples
    --------
    >>> cold = Pipe(outside_m=0.1143, inside_c=10, air_c=25, film_w_m2k=8)
    >>> round(least_pipe_insulation_m(cold, 0.035, 21.31) * 1000, 1)
    12.2
    """
    _conducts(conductivity_w_mk)
    if not dew_point_c < pipe.air_c:
        raise ValueError(
            f"a dew point of {dew_point_c} °C is not below the air at {pipe.air_c} °C: "
            "no insulation keeps that surface dry"
        )

    def wet(thickness_m: float) -> bool:
        return pipe_surface(pipe, Layer(thickness_m, conductivity_w_mk)).temperature_c < dew_point_c

    if not wet(0.0):
        return 0.0
    if wet(_THICKEST_M):
        raise ValueError(f"no insulation up to {_THICKEST_M:g} m keeps this pipe dry")
    low, high = 0.0, _THICKEST_M  # the more, the warmer its outside, whatever the heat does
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if wet(middle):
            low = middle
        else:
            high = middle
    return high


def conductivity_of_r_per_inch(r_per_inch: float) -> float:
    """
    Return k of what is sold by its R an inch: 0.144228 / R.  [W/(m K)]

    Examples
    --------
    >>> round(conductivity_of_r_per_inch(6.5), 5)
    0.02219
    """
    if not 0 < r_per_inch < math.inf:
        raise ValueError(f"R {r_per_inch} an inch is not above 0")
    return 0.144227889 / r_per_inch
