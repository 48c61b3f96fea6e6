"""Which way a line of pipe falls, where water stands in it, and how much fall the codes ask."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby, pairwise
from typing import Literal, get_args

from record.calc.combine import root_sum_square
from record.calc.least_fall import LeastFall, least_fall

__all__ = [
    "Fall",
    "LeastFall",
    "Level",
    "Sag",
    "average_slope",
    "falls",
    "invert_at",
    "least_fall",
    "low_points",
    "sags",
]

Verdict = Literal["falls", "level", "rises", "cannot be told"]
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)


@dataclass(frozen=True, slots=True)
class Level:
    """One shot on the invert. Chainage is horizontal, from any point and in either sense."""

    chainage_m: float
    invert_m: float
    tolerance_m: float | None = None  # of the level, ± at 95 %, without what its neighbours share


@dataclass(frozen=True, slots=True)
class Fall:
    """The fall between two shots that follow one another."""

    from_m: float
    to_m: float
    drop_m: float  # positive where the invert falls towards greater chainage
    slope: float  # drop over horizontal length [-]
    tolerance_m: float | None  # of the drop; None if either shot has none

    @property
    def booked(self) -> Verdict:
        """Which way the numbers say it goes, whatever they are worth."""
        if self.drop_m == 0:
            return "level"
        return "falls" if self.drop_m > 0 else "rises"

    @property
    def certain(self) -> bool | None:
        """Whether the drop is more than its tolerance; None if there is no tolerance."""
        return None if self.tolerance_m is None else abs(self.drop_m) > self.tolerance_m

    @property
    def verdict(self) -> Verdict:
        """Which way it goes, if that is proved.

        A drop within its tolerance, or one without any, cannot be told: losing a tolerance
        must never turn a doubt into a fall.
        """
        if self.certain or (self.tolerance_m == 0 and self.drop_m == 0):
            return self.booked
        return "cannot be told"


@dataclass(frozen=True, slots=True)
class Sag:
    """A stretch that holds water: its deepest shot, and how far the pond reaches when full."""

    chainage_m: float  # the first of the deepest shots
    invert_m: float
    pond_level_m: float
    depth_m: float
    from_m: float
    to_m: float
    length_m: float
    tolerance_m: float | None  # of the depth: deepest shot and the crest that holds the pond


def falls(levels: Sequence[Level]) -> tuple[Fall, ...]:
    """
    Return the fall of every stretch between neighbouring shots.

    Parameters
    ----------
    levels : sequence of Level
        At least two, chainages strictly increasing. [m]

    Raises
    ------
    ValueError
        If there are fewer than two, one is not finite, or chainages do not increase.

    Examples
    --------
    >>> [one] = falls([Level(0, 98.4, 0.003), Level(12.5, 98.15, 0.004)])
    >>> round(one.slope, 4), round(one.tolerance_m, 4), one.verdict
    (0.02, 0.005, 'falls')
    """
    _refuse_bad(levels)
    return tuple(_fall(here, there) for here, there in pairwise(levels))


def sags(levels: Sequence[Level]) -> tuple[Sag, ...]:
    """
    Return where water stands, in the order of chainage.

    A shot is in a sag if it is lower than some shot upstream and some shot downstream. The pond
    stands at the lower of the crests at its two ends. Where a pond drowns a hump between two
    bottoms they are one sag. The pipe is taken as straight between shots: a sag between two
    shots is not seen, so this errs low. Tolerances do not make or unmake a sag; they are given.

    Parameters and errors as for `falls`.

    Examples
    --------
    >>> [one] = sags([Level(0, 10.0), Level(3, 9.94), Level(6, 9.9), Level(9, 9.925)])
    >>> one.chainage_m, one.pond_level_m, round(one.depth_m, 3), round(one.from_m, 3), one.to_m
    (6, 9.925, 0.025, 4.125, 9)
    """
    _refuse_bad(levels)
    inverts = [level.invert_m for level in levels]
    before = accumulate(inverts, max)
    after = reversed(list(accumulate(reversed(inverts), max)))
    wet = [invert < min(pair) for invert, *pair in zip(inverts, before, after, strict=True)]
    runs = groupby(range(len(levels)), key=lambda place: wet[place])
    ponds = [list(places) for is_wet, places in runs if is_wet]
    return tuple(_sag(levels, places[0], places[-1]) for places in ponds)


def low_points(levels: Sequence[Level]) -> tuple[float, ...]:
    """
    Return the chainage of every low point, the ends included.  [m]

    A low point has no lower neighbour; of a flat bottom the first shot is given. A line that is
    level throughout has one, its first shot. Parameters and errors as for `falls`.

    Examples
    --------
    >>> low_points([Level(0, 9.9), Level(5, 10.0), Level(9, 9.8), Level(12, 9.8)])
    (0, 9)
    """
    _refuse_bad(levels)
    flats = [list(shots) for _, shots in groupby(levels, key=lambda level: level.invert_m)]
    heights = [math.inf, *(shots[0].invert_m for shots in flats), math.inf]
    beside = zip(heights, flats, heights[2:], strict=False)
    return tuple(
        shots[0].chainage_m for left, shots, right in beside if left > shots[0].invert_m < right
    )


def average_slope(levels: Sequence[Level]) -> float:
    """
    Return the drop from first to last shot over the length between them.  [-]

    It hides any backfall on the way; look at `falls` before trusting it. Parameters and errors
    as for `falls`.

    Examples
    --------
    >>> round(average_slope([Level(0, 10.0), Level(6, 9.7), Level(12, 9.88)]), 4)
    0.01
    """
    _refuse_bad(levels)
    return _fall(levels[0], levels[-1]).slope


def invert_at(levels: Sequence[Level], chainage_m: float) -> float:
    """
    Return the invert at ``chainage_m``, straight between the shots beside it.  [m]

    Parameters and errors as for `falls`; also ValueError beyond the first or last shot.

    Examples
    --------
    >>> round(invert_at([Level(0, 98.4), Level(12.5, 98.15)], 5), 3)
    98.3
    """
    _refuse_bad(levels)
    for here, there in pairwise(levels):
        if here.chainage_m <= chainage_m <= there.chainage_m:
            share = (chainage_m - here.chainage_m) / (there.chainage_m - here.chainage_m)
            return here.invert_m * (1 - share) + there.invert_m * share
    raise ValueError(
        f"chainage {chainage_m} m is outside the shots, "
        f"{levels[0].chainage_m} to {levels[-1].chainage_m} m"
    )


def _refuse_bad(levels: Sequence[Level]) -> None:
    if len(levels) < 2:
        raise ValueError(f"a line needs at least two shots, and has {len(levels)}")
    for level in levels:
        for number in (level.chainage_m, level.invert_m, level.tolerance_m or 0.0):
            if not math.isfinite(number):
                raise ValueError(f"{number} at chainage {level.chainage_m} m is not a number")
        if level.tolerance_m is not None and level.tolerance_m < 0:
            raise ValueError(f"tolerance {level.tolerance_m} m is negative")
    for here, there in pairwise(levels):
        if not here.chainage_m < there.chainage_m:
            raise ValueError(
                f"chainage {there.chainage_m} m does not come after {here.chainage_m} m"
            )


def _fall(here: Level, there: Level) -> Fall:
    drop_m = here.invert_m - there.invert_m
    length_m = there.chainage_m - here.chainage_m
    return Fall(
        here.chainage_m, there.chainage_m, drop_m, drop_m / length_m, _together(here, there)
    )


def _together(one: Level, other: Level) -> float | None:
    if one.tolerance_m is None or other.tolerance_m is None:
        return None
    return root_sum_square(one.tolerance_m, other.tolerance_m)


def _sag(levels: Sequence[Level], first: int, last: int) -> Sag:
    """Return the sag whose wet shots are ``first`` to ``last``; its crests are next to them."""
    bottom = min(levels[first : last + 1], key=lambda level: level.invert_m)
    upstream, downstream = levels[first - 1], levels[last + 1]
    crest = min(upstream, downstream, key=lambda level: level.invert_m)
    from_m = _crossing(levels[first], upstream, crest.invert_m)
    to_m = _crossing(levels[last], downstream, crest.invert_m)
    return Sag(
        bottom.chainage_m,
        bottom.invert_m,
        crest.invert_m,
        crest.invert_m - bottom.invert_m,
        from_m,
        to_m,
        to_m - from_m,
        _together(bottom, crest),
    )


def _crossing(wet: Level, dry: Level, pond_level_m: float) -> float:
    """Return where the pond's surface meets the invert between a wet and a dry shot."""
    if dry.invert_m == pond_level_m:
        return dry.chainage_m
    share = (pond_level_m - wet.invert_m) / (dry.invert_m - wet.invert_m)
    return wet.chainage_m + (dry.chainage_m - wet.chainage_m) * share
