"""Published limits of carbon dioxide, and when the sum of a well-mixed room crosses them.

Sealed: t = (L − C0) V/G. Ventilated: t = −V/Q ln((Cs − L)/(Cs − C0)), Cs = Co + G/Q (the balance
of `record.calc.room_air`, solved for t; ASTM D6245, from memory).

These hours are for comparing one shelter with another on paper. They are no countdown: people who
are afraid, ill or working breathe more, oxygen and fire are not in it, and an alarm rules.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.air_cautions import ALARM_RULES
from record.calc.room_air import PPM_PER_L_S_OVER_M3_H


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit of carbon dioxide: what it is for, how much [ppm], who says so."""

    words: str
    ppm: float
    source: str


#: 10 000 ppm for a working day, still quoted, was vacated in 1992 and is not among them.
LIMITS = (
    Limit("workplace, mean of 8 h", 5000, "OSHA 29 CFR 1910.1000, table Z-1 (secondary pages)"),
    Limit("survival, preferred", 5000, "ASHRAE 1982, in FEMA 453: preferably below 0.5 %"),
    Limit("workplace, 15 min", 30_000, "NIOSH and ACGIH short-term limit (secondary page)"),
    Limit("survival, not above", 30_000, "ASHRAE 1982, in FEMA 453: not above 3 %"),
    Limit("dangerous to life at once", 40_000, "NIOSH IDLH 124389 (secondary page)"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """
    People in a room, and the air that comes in.

    Attributes
    ----------
    volume_m3 : float
        V. Of the air, above 0. [m³]
    generation_l_s : float
        G. Carbon dioxide of all of them, above 0. [L/s]
    start_ppm, outside_ppm : float
        C0 and Co. [ppm]
    flow_m3_h : float
        Q. 0 is sealed. [m³/h]

    Raises
    ------
    ValueError
        If a number is outside its range.
    """

    volume_m3: float
    generation_l_s: float
    start_ppm: float
    outside_ppm: float
    flow_m3_h: float = 0.0

    def __post_init__(self) -> None:
        for what, value, unit in (
            ("volume", self.volume_m3, "m³"),
            ("generation", self.generation_l_s, "L/s"),
        ):
            if not 0 < value < math.inf:
                raise ValueError(f"a {what} of {value:g} {unit} is not above 0")
        for what, value, unit in (
            ("a start", self.start_ppm, "ppm"),
            ("outside air", self.outside_ppm, "ppm"),
            ("a flow", self.flow_m3_h, "m³/h"),
        ):
            if not 0 <= value < math.inf:
                raise ValueError(f"{what} of {value:g} {unit} is negative or not a number")


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """
    Where the sum of one room meets one limit.

    Attributes
    ----------
    limit : Limit
    crosses_h : float or None
        Hours after the start at which the sum comes up to it; 0 where it began there, None where
        it never does. Not for anyone in the room. [h]
    caution : str
        Key of the sentence that goes with it.
    """

    limit: Limit
    crosses_h: float | None
    caution: str = ALARM_RULES


def crossings(room: Room, limits: Sequence[Limit] = LIMITS) -> tuple[Crossing, ...]:
    """
    Return when the sum of a well-mixed room crosses each limit.

    Raises
    ------
    ValueError
        If a limit is not above 0 or above 50 000 ppm, where breathing is no longer what it was.

    Examples
    --------
    By hand, sealed: (1000 − 400) × 30 / (4 × 0.0052 × 3.6e6) = 0.2404 h:

    >>> room = Room(volume_m3=30, generation_l_s=4 * 0.0052, start_ppm=400, outside_ppm=400)
    >>> round(crossings(room, [Limit("a limit", 1000, "by hand")])[0].crosses_h, 4)
    0.2404
    """
    for limit in limits:
        if not 0 < limit.ppm <= 50_000:
            raise ValueError(f"{limit.words}: {limit.ppm:g} ppm is outside 0 to 50000 ppm")
    return tuple(Crossing(limit=each, crosses_h=_crosses_h(room, each.ppm)) for each in limits)


def _crosses_h(room: Room, limit_ppm: float) -> float | None:
    if limit_ppm <= room.start_ppm:
        return 0.0
    rise_m3_ppm_h = room.generation_l_s * PPM_PER_L_S_OVER_M3_H
    if room.flow_m3_h == 0:
        return (limit_ppm - room.start_ppm) * room.volume_m3 / rise_m3_ppm_h
    steady_ppm = room.outside_ppm + rise_m3_ppm_h / room.flow_m3_h
    if steady_ppm <= limit_ppm:
        return None
    gap = (limit_ppm - room.start_ppm) / (steady_ppm - room.start_ppm)
    return -room.volume_m3 / room.flow_m3_h * math.log1p(-gap)
