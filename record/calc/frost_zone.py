"""Which lengths of a buried pipe lie above a depth, such as that of frost."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

Point = tuple[float, float]  # chainage, cover [m]


@dataclass(frozen=True, slots=True)
class Shallow:
    """A length of pipe with less cover than the depth asked about."""

    from_m: float
    to_m: float

    @property
    def length_m(self) -> float:
        return self.to_m - self.from_m


def shallow(profile: Sequence[Point], depth_m: float) -> tuple[Shallow, ...]:
    """
    Return the lengths of a pipe whose cover is less than a depth, in order.

    Parameters
    ----------
    profile : sequence of (float, float)
        Chainage and cover of at least two stations, chainages strictly increasing. [m]
    depth_m : float
        0 or more. [m]

    Raises
    ------
    ValueError
        If there are fewer than two stations, one is not finite, chainages do not increase, or the
        depth is less than 0.

    Notes
    -----
    Cover is taken straight between stations: plane geometry. Lengths that touch are one.

    Examples
    --------
    A pipe with 2.246 m over it, and 0.246 m at 10 m, has 1.10 m over it at
    10 × (2.246 − 1.10)/2 = 5.73 m:

    >>> [one] = shallow([(0, 2.246), (10, 0.246)], 1.10)
    >>> round(one.from_m, 3), round(one.length_m, 3)
    (5.73, 4.27)
    """
    _check(profile, depth_m)
    found: list[Shallow] = []
    for here, there in pairwise(profile):
        part = _part(here, there, depth_m)
        if part is None:
            continue
        if found and part.from_m == found[-1].to_m:
            part = Shallow(found.pop().from_m, part.to_m)
        found.append(part)
    return tuple(found)


def _part(here: Point, there: Point, depth_m: float) -> Shallow | None:
    """Return the part of one length that is shallow, or None."""
    (start, over), (end, then) = here, there
    if over >= depth_m and then >= depth_m:
        return None
    if over < depth_m and then < depth_m:
        return Shallow(start, end)
    at = start + (end - start) * (depth_m - over) / (then - over)
    return Shallow(start, at) if over < depth_m else Shallow(at, end)


def _check(profile: Sequence[Point], depth_m: float) -> None:
    if len(profile) < 2:
        raise ValueError("it takes two stations or more to say how cover goes")
    if not all(math.isfinite(value) for point in profile for value in point):
        raise ValueError("a chainage or a cover is not finite")
    if any(there[0] <= here[0] for here, there in pairwise(profile)):
        raise ValueError("chainages do not increase from station to station")
    if not 0 <= depth_m < math.inf:
        raise ValueError(f"a depth of {depth_m:g} m is less than nothing")
