"""In which months outside air wets the inside of a buried pipe, and when most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.dew_point import condensed_kg_h, dew_point_c
from record.calc.ground_temperature import Ground, ground_temperature_c

MONTHS = 12
_FIRST_DAYS = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365)


@dataclass(frozen=True, slots=True)
class Air:
    """The outside air of one month: mean temperature [°C] and relative humidity (0.6 is 60 %)."""

    temperature_c: float
    relative_humidity: float


@dataclass(frozen=True, slots=True)
class Month:
    """One month of the year at the pipe."""

    number: int  # 1 is January
    dew_point_c: float
    ground_c: float
    water_kg_day: float

    @property
    def wet(self) -> bool:
        return self.water_kg_day > 0


def middle_day(number: int) -> float:
    """Return the middle of a month (1 is January) as a day of a year of 365.  [d]"""
    return (_FIRST_DAYS[number - 1] + _FIRST_DAYS[number]) / 2


def months(
    outside: Sequence[Air],
    ground: Ground,
    *,
    depth_m: float,
    flow_m3_h: float,
    pressure_pa: float,
) -> tuple[Month, ...]:
    """
    Return for each month how much water a pipe at that depth would take out of its air.

    Parameters
    ----------
    outside : sequence of Air
        Twelve, January first: monthly normals of the place.
    ground : Ground
    depth_m : float
        Of the axis of the pipe below grade, 0 or more. [m]
    flow_m3_h : float
        While the air runs, all day; 0 or more. [m³/h]
    pressure_pa : float
        Of the air. [Pa]

    Raises
    ------
    ValueError
        If there are not twelve months, or a value is outside its range.

    Notes
    -----
    Air at the month's mean is cooled to the ground at mid-month where that is colder, as in
    `condensed_kg_h`; the ground as in `ground_temperature_c`. A pipe is warmed by the air in it,
    so it errs high; a muggy night in a dry month is left out, so a dry month is not a promise.

    Examples
    --------
    >>> mild = Ground(mean_c=10, amplitude_k=9, coldest_day=20, diffusivity_m2_s=0.5e-6)
    >>> year = [Air(t, 0.7) for t in (1, 2, 6, 10, 15, 18, 20, 19, 15, 10, 5, 2)]
    >>> wet = [m.number for m in months(year, mild, depth_m=2, flow_m3_h=100, pressure_pa=1e5)
    ...        if m.wet]
    >>> wet
    [5, 6, 7, 8]
    """
    if len(outside) != MONTHS:
        raise ValueError(f"there are {len(outside)} months of outside air, not 12")
    found = []
    for number, air in enumerate(outside, 1):
        soil_c = ground_temperature_c(ground, depth_m, middle_day(number))
        dew_c = dew_point_c(air.temperature_c, air.relative_humidity)
        water = 24 * condensed_kg_h(
            flow_m3_h=flow_m3_h,
            temperature_c=air.temperature_c,
            relative_humidity=air.relative_humidity,
            cooled_to_c=min(soil_c, air.temperature_c),
            pressure_pa=pressure_pa,
        )
        # Air no warmer than the ground's dew point leaves nothing; rounding must not either.
        found.append(Month(number, dew_c, soil_c, water if dew_c > soil_c else 0.0))
    return tuple(found)


def seasons(year: Sequence[Month]) -> tuple[tuple[int, int], ...]:
    """
    Return the unbroken runs of wet months, each as its first and last; (1, 12) is all year.

    A run goes on over New Year: (11, 2) is November to February.

    Examples
    --------
    >>> year = [Month(n, 0, 0, 1.0 if n in (1, 2, 11, 12, 6) else 0.0) for n in range(1, 13)]
    >>> seasons(year)
    ((6, 6), (11, 2))
    """
    wet = {month.number for month in year if month.wet}
    if len(wet) == MONTHS:
        return ((1, MONTHS),)
    starts = sorted(n for n in wet if (n - 2) % MONTHS + 1 not in wet)
    return tuple((first, _last(first, wet)) for first in starts)


def _last(first: int, wet: set[int]) -> int:
    at = first
    while at % MONTHS + 1 in wet:
        at = at % MONTHS + 1
    return at


def peak(year: Sequence[Month]) -> Month | None:
    """Return the month that takes out most water, the earlier of two; None if all are dry."""
    return max((m for m in year if m.wet), key=lambda m: (m.water_kg_day, -m.number), default=None)
