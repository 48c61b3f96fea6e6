"""How deep a water seal must be that the pressure in a room must not blow out.

h = Δp/(ρ g) + margin: hydrostatics, a column of water that stands against the pressure; with
ρ = 1000 kg/m³ a millimetre stands against 9.80665 Pa. For pressures up to 5000 Pa; water at 40 °C
is 0.8 % lighter, which errs low.
"""

from __future__ import annotations

from dataclasses import dataclass

from record.calc.air_cautions import DRY_TRAP

PA_PER_MM = 9.80665  # of water of 1000 kg/m³
GREATEST_PA = 5000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TrapSeal:
    """
    A seal against a pressure.

    Attributes
    ----------
    pressure_pa : float
        In the room, over the far side. [Pa]
    column_mm, margin_mm : float
        What stands against it, and what is left over for evaporation and swaying. [mm]
    needed_mm : float
        Both. [mm]
    caution : str
        Key of the sentence that goes with it.
    """

    pressure_pa: float
    column_mm: float
    margin_mm: float
    needed_mm: float
    caution: str = DRY_TRAP


def trap_seal(pressure_pa: float, margin_mm: float) -> TrapSeal:
    """
    Return the depth of seal that holds a pressure, with a margin.

    Parameters
    ----------
    pressure_pa : float
        Δp. The highest the room can come to, 0 to 5000. [Pa]
    margin_mm : float
        Of the engineer or the maker, not negative. [mm]

    Raises
    ------
    ValueError
        If either is outside its range.

    Examples
    --------
    By hand: 60 / 9.80665 = 6.118 mm, and 25 over:

    >>> round(trap_seal(60, 25).needed_mm, 3)
    31.118
    """
    if not 0 <= pressure_pa <= GREATEST_PA:
        raise ValueError(f"a pressure of {pressure_pa:g} Pa is outside 0 to {GREATEST_PA:g} Pa")
    if not 0 <= margin_mm < float("inf"):
        raise ValueError(f"a margin of {margin_mm:g} mm is negative or not a number")
    column = pressure_pa / PA_PER_MM
    return TrapSeal(
        pressure_pa=pressure_pa,
        column_mm=column,
        margin_mm=margin_mm,
        needed_mm=column + margin_mm,
    )


def seal_holds_pa(seal_mm: float) -> float:
    """
    Return the pressure at which a seal of that depth is blown out.  [Pa]

    Raises
    ------
    ValueError
        If the depth is negative, or holds more than 5000 Pa.

    Examples
    --------
    >>> round(seal_holds_pa(50), 2)
    490.33
    """
    holds = seal_mm * PA_PER_MM
    if not 0 <= holds <= GREATEST_PA:
        raise ValueError(f"a seal of {seal_mm:g} mm holds {holds:g} Pa, outside 0 to 5000 Pa")
    return holds
