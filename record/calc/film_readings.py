"""How many readings of a dry film an area needs, and whether those taken are enough and right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

FT2_M2 = 0.09290304
SPOTS, READINGS = 5, 3  # of an area; of a spot, within a circle of 4 cm
SPOT_LEAST, SPOT_MOST = 0.8, 1.2  # restriction level 3, what holds where none is named
SOURCE = "SSPC-PA 2"
_LOTS_M2 = {"feet": 1000 * FT2_M2, "metres": 100.0}


@dataclass(frozen=True, slots=True)
class Sampling:
    """Areas of about 10 m² to measure, spots in them, and the least number of readings."""

    areas: int
    spots: int
    readings: int


def sampling(area_m2: float, *, by: str = "feet") -> Sampling:
    """
    Return how much of an area is to be measured.

    Parameters
    ----------
    area_m2 : float
        Coated in one shift, above 0. [m²]
    by : str
        "feet" or "metres": the standard counts by 1,000 ft² or by 100 m², which is 8 % more.

    Raises
    ------
    ValueError
        If the area is not above 0, or it is to be counted by something else.

    Notes
    -----
    Up to 300 ft² every 100 ft² is measured; up to 1,000 ft² three areas of 100 ft²; one more for
    every further 1,000 ft² or part [1]_; in metres 30, 10 and 100 m².

    Examples
    --------
    >>> sampling(12_500 * FT2_M2)
    Sampling(areas=15, spots=75, readings=225)

    References
    ----------
    .. [1] SSPC-PA 2, as told in two secondary pages.
    """
    if not 0 < area_m2 < math.inf:
        raise ValueError(f"an area of {area_m2} m² is not above 0")
    if by not in _LOTS_M2:
        raise ValueError(f'an area is counted by feet or metres, not by "{by}"')
    lots = round(area_m2 / _LOTS_M2[by], 9)  # 1,000 ft² is one, whatever binary makes of it
    areas = 3 + max(0, math.ceil(lots - 1)) if lots > 0.3 else math.ceil(round(lots * 10, 8))
    return Sampling(areas, areas * SPOTS, areas * SPOTS * READINGS)


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the readings of one area say. Spots out of bounds are given by their place, from 0."""

    mean_m: float
    spots_m: tuple[float, ...]
    thin_spots: tuple[int, ...]
    thick_spots: tuple[int, ...]
    mean_right: bool
    enough: bool  # five spots of three readings were taken

    @property
    def accepted(self) -> bool:
        return self.enough and self.mean_right and not self.thin_spots and not self.thick_spots


def judge(spots: Sequence[Sequence[float]], least_m: float, most_m: float | None) -> Verdict:
    """
    Return whether the film on one area is within what was asked for.

    Parameters
    ----------
    spots : sequence of sequences of float
        The readings of each spot. [m]
    least_m, most_m : float
        Dry film asked for, above 0; no most is None. [m]

    Raises
    ------
    ValueError
        If there is no reading, one is negative, or the film asked for is not one.

    Notes
    -----
    A spot is the mean of its readings and lies within 80 % of the least and 120 % of the most; the
    mean of the spots lies within the least and the most [1]_.

    Examples
    --------
    >>> judge([[0.2e-3] * 3] * 5, 0.203e-3, 0.305e-3).accepted
    False

    References
    ----------
    .. [1] SSPC-PA 2, restriction level 3.
    """
    if not 0 < least_m < math.inf or (most_m is not None and not least_m <= most_m < math.inf):
        raise ValueError(f"a film of {least_m} to {most_m} m is not one that can be asked for")
    if not spots or any(not spot for spot in spots):
        raise ValueError("a spot without a reading says nothing")
    if any(not 0 <= reading < math.inf for spot in spots for reading in spot):
        raise ValueError("a reading of a film is negative or not a number")
    means = tuple(math.fsum(spot) / len(spot) for spot in spots)
    mean = math.fsum(means) / len(means)
    slack = 1e-12  # a reading at the limit is within it, whatever binary makes of it
    least, most = least_m * SPOT_LEAST - slack, math.inf if most_m is None else most_m * SPOT_MOST
    return Verdict(
        mean_m=mean,
        spots_m=means,
        thin_spots=tuple(i for i, spot in enumerate(means) if spot < least),
        thick_spots=tuple(i for i, spot in enumerate(means) if spot > most + slack),
        mean_right=least_m - slack <= mean <= (math.inf if most_m is None else most_m) + slack,
        enough=len(spots) >= SPOTS and all(len(spot) >= READINGS for spot in spots),
    )
