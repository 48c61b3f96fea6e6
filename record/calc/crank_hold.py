"""How long one person has been known to hold a power at a crank: what was published, as published.

hp = 0.35 − 0.092 log10 t, t in minutes from 4 to 480 (Krendel, in Marks' Standard Handbook for
Mechanical Engineers, from memory): a fit man of 35, cranking or pedalling with the whole body.
A sheet of the same figures gives 15 % more to a man of 20 and 20 % less to one of 60. Arms alone
give less: see `PUBLISHED`. None of these is a promise about anyone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from record.calc.air_cautions import STRAIN
from record.calc.crank_power import PLAN_W

HP_W = 745.6998715822702  # 550 ft·lbf/s, as NIST SP 811 has it
SHORTEST_MIN, LONGEST_MIN = 4.0, 480.0
#: Share of the power of a man of 35, by age.
AGE_SHARE = {20: 1.15, 35: 1.0, 60: 0.80}


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One published figure: power [W] and for how long [min], from the least to the most."""

    who: str
    least_w: float
    most_w: float
    least_min: float
    most_min: float
    source: str


PUBLISHED = (
    Published(
        who="healthy labourer, a shift",
        least_w=75,
        most_w=75,
        least_min=480,
        most_min=480,
        source="Avallone, Marks' Handbook, as cited in an encyclopaedia",
    ),
    Published(
        who="lifting water, about five hours",
        least_w=0.06 * HP_W,
        most_w=0.08 * HP_W,
        least_min=300,
        most_min=300,
        source="Allison 1975, in a microfiche library on village water",
    ),
    Published(
        who="arms alone",
        least_w=0.10 * HP_W,
        most_w=0.10 * HP_W,
        least_min=10,
        most_min=15,
        source="Mengin 1976, in the same",
    ),
    Published(
        who="legs",
        least_w=0.25 * HP_W,
        most_w=0.25 * HP_W,
        least_min=10,
        most_min=15,
        source="Mengin 1976, in the same",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """
    What was published of holding a power.

    Attributes
    ----------
    power_w : float
    fit_man_min : float
        Krendel's time of a fit man of 35 with his whole body; 480 where it may be longer. [min]
    beyond_range : bool
        Whether the power is so low that the range ends first, at 480 min.
    known : tuple of Published
        The published figures in which as much power or more was given.
    over_plan : bool
        Whether it takes more than the 50 W that is planned with.
    caution : str
        Key of the sentence that goes with it.
    """

    power_w: float
    fit_man_min: float
    beyond_range: bool
    known: tuple[Published, ...]
    over_plan: bool
    caution: str = STRAIN


def krendel_w(minutes: float, age: int = 35) -> float:
    """
    Return the power a fit man was found to hold for a time.  [W]

    Parameters
    ----------
    minutes : float
        t. 4 to 480. [min]
    age : int
        One of the three that were published: 20, 35 or 60.

    Raises
    ------
    ValueError
        If the time is outside 4 to 480 min or the age is another.

    Examples
    --------
    By hand: 0.35 − 0.092 × log10 60 = 0.18641 hp:

    >>> round(krendel_w(60), 1)
    139.0
    """
    if not SHORTEST_MIN <= minutes <= LONGEST_MIN:
        raise ValueError(f"{minutes:g} min is outside 4 to 480 min, where this was measured")
    if age not in AGE_SHARE:
        raise ValueError(f"nothing was published for {age} years: 20, 35 or 60")
    return (0.35 - 0.092 * math.log10(minutes)) * HP_W * AGE_SHARE[age]


def crank_hold(power_w: float) -> Hold:
    """
    Return what was published of how long one person holds a power.

    Parameters
    ----------
    power_w : float
        P. At the crank, not negative, up to what Krendel found for 4 min, 219.7. [W]

    Raises
    ------
    ValueError
        If the power is outside that range.

    Notes
    -----
    Krendel's line turned round: t = 10^((0.35 − hp)/0.092). Plan with at most 50 W.

    Examples
    --------
    By hand: a quarter of a horsepower, 10^(0.1/0.092) = 12.2 min:

    >>> round(crank_hold(0.25 * 745.69987).fit_man_min, 1)
    12.2
    """
    most_w = krendel_w(SHORTEST_MIN)
    if not 0 <= power_w <= most_w:
        raise ValueError(
            f"{power_w:g} W is outside 0 to {most_w:.1f} W, what a fit man was found to hold "
            "for 4 min"
        )
    beyond = power_w < krendel_w(LONGEST_MIN)
    minutes = LONGEST_MIN if beyond else 10 ** ((0.35 - power_w / HP_W) / 0.092)
    return Hold(
        power_w=power_w,
        fit_man_min=minutes,
        beyond_range=beyond,
        known=tuple(each for each in PUBLISHED if each.most_w >= power_w),
        over_plan=power_w > PLAN_W,
    )
