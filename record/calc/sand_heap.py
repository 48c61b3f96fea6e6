"""The sand of a filled shaft: how much, how heavy, and how it lies on the floor below."""

from __future__ import annotations

import math
from dataclasses import dataclass

DRY_SAND_KG_M3 = 1600.0  # porosity 0.40, De Vries (1963)
DRY_REPOSE_DEG = 34.0  # USBR Hyd-299 (1950): 34 ± 3
BULKING = 0.30  # damp, at 5 to 8 % water: 20 to 40 %


def fill_m3(section_m2: float, from_m: float, to_m: float) -> float:
    """
    Return the volume of a fill between two levels of an upright shaft.  [m³]

    Raises
    ------
    ValueError
        If the section is not above 0, or the upper level not above the lower.

    Examples
    --------
    >>> round(fill_m3(0.75 * 0.75, 46.95, 49.65), 3)
    1.519
    """
    if not 0 < section_m2 < math.inf:
        raise ValueError(f"a section of {section_m2} m² is not above 0")
    if not from_m < to_m:
        raise ValueError(f"a fill from {from_m} to {to_m} does not rise")
    return section_m2 * (to_m - from_m)


def _check(volume_m3: float, repose_deg: float) -> None:
    if not 0 < volume_m3 < math.inf:
        raise ValueError(f"a volume of {volume_m3} m³ is not above 0")
    if not 15 <= repose_deg <= 45:
        raise ValueError(f"an angle of repose of {repose_deg}° is outside 15 to 45°")


def bulked_m3(volume_m3: float, bulking: float = BULKING) -> float:
    """
    Return the volume dry sand takes up once it is damp.  [m³]

    Parameters
    ----------
    volume_m3 : float
        Dry, above 0. [m³]
    bulking : float
        0 to 0.5; 0.3 is 30 %. [-]

    Raises
    ------
    ValueError
        If one is outside its range.
    """
    if not 0 < volume_m3 < math.inf:
        raise ValueError(f"a volume of {volume_m3} m³ is not above 0")
    if not 0 <= bulking <= 0.5:
        raise ValueError(f"a bulking of {bulking} is outside 0 to 0.5")
    return volume_m3 * (1 + bulking)


@dataclass(frozen=True, slots=True)
class Heap:
    """How far sand runs out over the floor from where it comes in, and how high it stands."""

    run_m: float
    height_m: float


def cone(volume_m3: float, repose_deg: float = DRY_REPOSE_DEG) -> Heap:
    """
    Return the heap of sand that falls on an open floor, from above.

    Parameters
    ----------
    volume_m3 : float
        Above 0. [m³]
    repose_deg : float
        θ. 15 to 45. [deg]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    V = π r² h/3 with h = r tan θ.

    Examples
    --------
    >>> heap = cone(1.0, 34)
    >>> round(heap.run_m, 4), round(heap.height_m, 4)
    (1.1229, 0.7574)
    """
    _check(volume_m3, repose_deg)
    slope = math.tan(math.radians(repose_deg))
    radius = (3 * volume_m3 / (math.pi * slope)) ** (1 / 3)
    return Heap(radius, radius * slope)


def wedge(volume_m3: float, width_m: float, repose_deg: float = DRY_REPOSE_DEG) -> Heap:
    """
    Return the heap of sand that runs in at a wall and lies from side wall to side wall.

    Parameters
    ----------
    volume_m3, repose_deg : float
        As for `cone`.
    width_m : float
        w. Of the floor between its side walls, above 0. [m]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    V = w run h/2 with h = run tan θ, so h = √(2 V tan θ/w). Sand that has not spread to the walls
    stands higher and runs less far; wet sand that flows runs farther. People and tools behind its
    toe are not thereby safe, and it does not say that a hatch may be opened.

    Examples
    --------
    1.519 m³ on a floor 2.70 m wide, dry, then 30 % bulked:

    >>> heap = wedge(1.519, 2.70)
    >>> round(heap.run_m, 2), round(heap.height_m, 2)
    (1.29, 0.87)
    >>> heap = wedge(bulked_m3(1.519, 0.30), 2.70)
    >>> round(heap.run_m, 2), round(heap.height_m, 2)
    (1.47, 0.99)
    """
    _check(volume_m3, repose_deg)
    if not 0 < width_m < math.inf:
        raise ValueError(f"a floor of width {width_m} m is not above 0")
    slope = math.tan(math.radians(repose_deg))
    height = math.sqrt(2 * volume_m3 * slope / width_m)
    return Heap(height / slope, height)
