"""How rough the wall of an air pipe is, by what it is made of.

ε is the equivalent sand roughness that Colebrook's equation wants. A wall is asked for by its
exact name: the nearest-sounding material can be a thousand times rougher.
"""

from __future__ import annotations

from dataclasses import dataclass

_FOOT_M = 0.3048
_ASHRAE = "ASHRAE Handbook – Fundamentals, chapter 21, table 1, as tabulated on the web"
_MOODY = "L. F. Moody, Transactions of the ASME 66 (1944), from memory"


@dataclass(frozen=True, slots=True)
class Wall:
    """
    What a pipe's wall is made of.

    Attributes
    ----------
    name : str
    roughness_m : float
        ε. The value to reckon with: of a range, its rough end. [m]
    smoothest_m : float
        The smooth end of the published range; the same where one number is published. [m]
    source : str
    """

    name: str
    roughness_m: float
    smoothest_m: float
    source: str


def _feet(name: str, smooth_ft: float, rough_ft: float, source: str) -> Wall:
    return Wall(name, rough_ft * _FOOT_M, smooth_ft * _FOOT_M, source)


#: Clean walls. Dirt, rust and water in a sag are in none of them.
WALLS = (
    _feet("drawn tube", 0.000005, 0.000005, _MOODY),
    _feet("plastic, jointed", 0.00003, 0.00015, f"{_ASHRAE} (Swim 1982)"),
    _feet("steel pipe", 0.00015, 0.00015, f"{_ASHRAE} (Moody 1944); Crane TP-410, 0.0018 in"),
    _feet("galvanised duct, long seam", 0.00016, 0.00032, f"{_ASHRAE} (Griggs 1987)"),
    _feet("galvanised duct, spiral", 0.0002, 0.0004, f"{_ASHRAE} (Jones 1979)"),
    _feet("galvanised duct, chart", 0.0003, 0.0003, f"{_ASHRAE}, basis of the friction chart"),
    _feet("galvanised iron", 0.0005, 0.0005, _MOODY),
    _feet("flexible duct, fully extended", 0.0003, 0.003, f"{_ASHRAE} (Abushakra 2004)"),
    _feet("concrete", 0.001, 0.01, _MOODY),
)


def wall(name: str) -> Wall:
    """
    Return the wall of that name, exactly as listed in `WALLS`.

    Raises
    ------
    ValueError
        If no wall has that name; the names that there are are told.

    Examples
    --------
    The basis of the duct chart, 0.0003 ft, in metres:

    >>> round(wall("galvanised duct, chart").roughness_m * 1000, 3)
    0.091
    """
    for each in WALLS:
        if each.name == name:
            return each
    known = "; ".join(each.name for each in WALLS)
    raise ValueError(f"no wall is called {name!r}: one of {known}, or give the roughness itself")
