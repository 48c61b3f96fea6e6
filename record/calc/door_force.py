"""The force it takes to set a side-hinged door in motion against air pressure.

F = Fdc + K W A Δp / (2 (W − d)), K = 1 in newtons, metres and pascals (5.2 in pounds, feet and
inches of water): International Building Code 909.6.2, equation 9-1, as quoted from BC § 909.6.2.
It is the balance of moments about the hinge. The code official decides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.air_cautions import CODE_OFFICIAL

#: IBC 1010.1.3 (2009: 1008.1.3): 30 lb sets the door in motion, as quoted from the code.
SET_IN_MOTION_N = 133.4466
GREATEST_PA = 5000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """
    A side-hinged door.

    Attributes
    ----------
    width_m, height_m : float
        W, and with it A. Of the leaf, above 0. [m]
    handle_m : float
        d. From the handle to the latch edge, less than the width. [m]

    Raises
    ------
    ValueError
        If a measure is outside its range.
    """

    width_m: float
    height_m: float
    handle_m: float

    def __post_init__(self) -> None:
        for what, value in (("width", self.width_m), ("height", self.height_m)):
            if not 0 < value < math.inf:
                raise ValueError(f"a door's {what} of {value:g} m is not above 0")
        if not 0 <= self.handle_m < self.width_m:
            raise ValueError(
                f"a handle {self.handle_m:g} m from the latch edge is not on a door "
                f"{self.width_m:g} m wide"
            )

    @property
    def area_m2(self) -> float:
        """A.  [m²]"""
        return self.width_m * self.height_m

    @property
    def newtons_a_pascal(self) -> float:
        """W A / (2 (W − d)): at the handle, for each pascal.  [N/Pa]"""
        return self.width_m * self.area_m2 / (2 * (self.width_m - self.handle_m))


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorForce:
    """What opening takes at the handle: against the pressure, the closer where known, and both."""

    area_m2: float
    pressure_n: float
    closer_n: float | None  # None is a closer nobody measured: then it is not in the total
    total_n: float
    caution: str = CODE_OFFICIAL


def door_force(door: Door, pressure_pa: float, closer_n: float | None = None) -> DoorForce:
    """
    Return the force at the handle that sets a door in motion against a pressure.

    Parameters
    ----------
    door : Door
    pressure_pa : float
        Δp. Across it, on the side it opens toward, 0 to 5000. [Pa]
    closer_n : float, optional
        Fdc. To overcome the closer alone, at the handle; left out where it is not known. [N]

    Raises
    ------
    ValueError
        If pressure or closer is outside its range.

    Notes
    -----
    Seals that stick, rust and a sagging leaf are not in it: errs low. A door opened with the
    pressure is thrown instead: then the same force must be held back.

    Examples
    --------
    By hand: 0.8 × 1.52 × 60 / (2 × 0.73) = 49.97:

    >>> round(door_force(Door(width_m=0.8, height_m=1.9, handle_m=0.07), 60).total_n, 2)
    49.97
    """
    if not 0 <= pressure_pa <= GREATEST_PA:
        raise ValueError(f"a pressure of {pressure_pa:g} Pa is outside 0 to {GREATEST_PA:g} Pa")
    if closer_n is not None and not 0 <= closer_n < math.inf:
        raise ValueError(f"a closer of {closer_n:g} N is negative or not a number")
    pressure_n = door.newtons_a_pascal * pressure_pa
    return DoorForce(
        area_m2=door.area_m2,
        pressure_n=pressure_n,
        closer_n=closer_n,
        total_n=pressure_n + (closer_n or 0.0),
    )


def door_pressure_pa(door: Door, force_n: float, closer_n: float = 0.0) -> float:
    """
    Return the pressure at which opening a door takes a force at the handle.  [Pa]

    Raises
    ------
    ValueError
        If the closer is negative, or alone takes more than the force.

    Examples
    --------
    >>> round(door_pressure_pa(Door(width_m=0.8, height_m=1.9, handle_m=0.07), 49.97), 1)
    60.0
    """
    if not 0 <= closer_n <= force_n < math.inf:
        raise ValueError(f"a closer of {closer_n:g} N is not within a force of {force_n:g} N")
    return (force_n - closer_n) / door.newtons_a_pascal
