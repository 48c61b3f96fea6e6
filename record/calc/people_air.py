"""What share of the air each person has, and for how many a supply is enough by a limit.

C = Co + n G / Q, turned round for n (the steady state of `record.calc.room_air`; ASHRAE
Standard 62.1, informative appendix, from memory). An alarm rules, not this: no result here is a
permission to stay.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_cautions import ALARM_RULES
from record.calc.people_limits import Limit
from record.calc.room_air import PPM_PER_L_S_OVER_M3_H, steady_co2_ppm

MOST_PEOPLE = 1000
_SAME = 1e-9  # what a division of round figures may be off by


@dataclass(frozen=True, slots=True)
class Mode:
    """One way of running the air, by the flow it was measured at. [m³/h]"""

    name: str
    flow_m3_h: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """
    A number of people on one mode of supply.

    Attributes
    ----------
    mode : Mode
    people : int
    each_m3_h : float
        Outside air for each. [m³/h]
    steady_ppm : float
        What the carbon dioxide comes to in the end, well mixed. [ppm]
    caution : str
        Key of the sentence that goes with it.
    """

    mode: Mode
    people: int
    each_m3_h: float
    steady_ppm: float
    caution: str = ALARM_RULES


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """
    For how many a mode holds a limit in the steady state; never a word about how long.

    Attributes
    ----------
    mode : Mode
    limit : Limit
    needed_m3_h : float
        Outside air for each that just holds the limit. [m³/h]
    people : int
        Whole people.
    steady_ppm : float
        What it comes to with that many; outside air where there is none. [ppm]
    caution : str
        Key of the sentence that goes with it.
    """

    mode: Mode
    limit: Limit
    needed_m3_h: float
    people: int
    steady_ppm: float
    caution: str = ALARM_RULES


def shares(
    modes: Sequence[Mode], people: int, *, each_l_s: float, outside_ppm: float
) -> tuple[Share, ...]:
    """
    Return each person's share of the air, and what it comes to, in every mode.

    Parameters
    ----------
    modes : sequence of Mode
        Each with a flow above 0: where nothing flows there is no steady state.
    people : int
        1 to 1000.
    each_l_s : float
        G. Carbon dioxide of one, as in `record.calc.people_breath`. [L/s]
    outside_ppm : float
        Co. [ppm]

    Raises
    ------
    ValueError
        If a number is outside its range, or the result above 50 000 ppm.

    Examples
    --------
    By hand: 100/8 = 12.5; 420 + 0.0052 × 3.6e6 / 12.5 = 1917.6:

    >>> (share,) = shares([Mode("motor", 100)], 8, each_l_s=0.0052, outside_ppm=420)
    >>> share.each_m3_h, round(share.steady_ppm, 1)
    (12.5, 1917.6)
    """
    if not 1 <= people <= MOST_PEOPLE:
        raise ValueError(f"{people} people is outside 1 to {MOST_PEOPLE}")
    return tuple(
        Share(
            mode=mode,
            people=people,
            each_m3_h=mode.flow_m3_h / people,
            steady_ppm=steady_co2_ppm(
                outside_ppm=outside_ppm,
                generation_l_s=each_l_s * people,
                flow_m3_h=mode.flow_m3_h,
            ),
        )
        for mode in modes
    )


def served(
    modes: Sequence[Mode], limit: Limit, *, each_l_s: float, outside_ppm: float
) -> tuple[Served, ...]:
    """
    Return for how many people each mode holds a limit of carbon dioxide.

    Parameters
    ----------
    modes : sequence of Mode
    limit : Limit
        As in `record.calc.people_limits`, or of the maker or engineer; above outside air.
    each_l_s, outside_ppm : float
        As for `shares`.

    Raises
    ------
    ValueError
        If a number is outside its range, or outside air is not below the limit.

    Notes
    -----
    Q/n = G/(C − Co), and n rounded down. Working people, a warm room and air that does not reach
    the far room all want more: errs high.

    Examples
    --------
    By hand: 18.72 L/h at 4580 ppm over outside want 4.087 m³/h; 100/4.087 = 24.47:

    >>> work = Limit("workplace, 8 h", 5000, "OSHA")
    >>> (found,) = served([Mode("motor", 100)], work, each_l_s=0.0052, outside_ppm=420)
    >>> round(found.needed_m3_h, 3), found.people
    (4.087, 24)
    """
    if not 0 < each_l_s < math.inf:
        raise ValueError(f"{each_l_s:g} L/s of one person is not above 0")
    if not 0 <= outside_ppm < limit.ppm:
        raise ValueError(f"outside air of {outside_ppm:g} ppm is not below {limit.ppm:g} ppm")
    needed = each_l_s * PPM_PER_L_S_OVER_M3_H / (limit.ppm - outside_ppm)
    return tuple(_served(mode, limit, needed, outside_ppm) for mode in modes)


def _served(mode: Mode, limit: Limit, needed_m3_h: float, outside_ppm: float) -> Served:
    if not 0 <= mode.flow_m3_h < math.inf:
        raise ValueError(f"{mode.name}: a flow of {mode.flow_m3_h:g} m³/h is negative")
    people = math.floor(mode.flow_m3_h / needed_m3_h + _SAME)
    over = (limit.ppm - outside_ppm) * needed_m3_h * people
    return Served(
        mode=mode,
        limit=limit,
        needed_m3_h=needed_m3_h,
        people=people,
        steady_ppm=outside_ppm + (over / mode.flow_m3_h if people else 0.0),
    )
