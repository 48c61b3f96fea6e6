"""How far a pipe may lie off the straight line between two stations.

Every point of a pipe of length L between stations c apart is within L of both together: |PA| +
|PB| ≤ L. That is an ellipse with the stations as its foci, ½√(L² − c²) off the line at most,
half-way between them. Abreast of a point s along the line it reaches

    y(s) = ½√(L² − c²) · √(1 − ((2s − c)/L)²),

which at a station itself is (L² − c²)/2L, about the slack, and nothing where L = c: there the
pipe is straight. It is a bound and not a chance, so it adds in full to a tolerance.

Where the pipe's length is not recorded, a declared allowance stands in: it is taken as `LONGER`
than the distance, so 0.07 of it off the line half-way, and the answer says that this is not
proved.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from record.fold import Thing
from record.place.runs import PlacedStation
from record.words import tell

LONGER = 1.01  # a pipe than the distance of its stations, where nobody measured it; no source
RISE_NOT_KNOWN_M = 5.0  # deeper than any trench of the trade: of a station without a level

Vector = tuple[float, float, float]
Ends = tuple[Vector, Vector]
Clip = Callable[[Ends, Vector, Vector], Ends | None]


@dataclass(frozen=True, slots=True)
class Stray:
    """A pipe between two stations: its length and their distance, in metres; was it measured?"""

    pipe_m: float
    apart_m: float
    proved: bool

    @property
    def most_m(self) -> float:
        """Half-way between the stations: ½√(L² − c²)."""
        return math.sqrt(max(0.0, self.pipe_m**2 - self.apart_m**2)) / 2

    def abreast_m(self, along_m: float) -> float:
        """Return how far off the line it may lie at a point of it; beyond the ends, as there."""
        if self.pipe_m <= 0:
            return 0.0
        along = min(max(along_m, 0.0), self.apart_m)
        return self.most_m * math.sqrt(
            max(0.0, 1 - ((2 * along - self.apart_m) / self.pipe_m) ** 2)
        )

    def between_m(self, one: float, other: float) -> float:
        """
        Return the most it may lie off between two places on the line, 0 to 1.

        Not in metres: the line is drawn shorter than it may be where a station has no level.
        """
        low, high = sorted((one, other))
        return self.abreast_m(min(max(0.5, low), high) * self.apart_m)

    def grown(
        self,
        ends: Ends,
        size: Sequence[tuple[float, float]],
        by: Vector,
        radius_m: float,
        clip: Clip,
    ) -> Vector:
        """
        Return tolerances ``by`` along three axes, with what the pipe may stray within a space.

        ``size`` is the space from and to along each axis, ``ends`` the stations in its frame. The
        part of the line counts from which any pipe in the space could have strayed.
        """
        most = [radius_m + by[i] + self.most_m for i in range(3)]
        low = (size[0][0] - most[0], size[1][0] - most[1], size[2][0] - most[2])
        high = (size[0][1] + most[0], size[1][1] + most[1], size[2][1] + most[2])
        cut = clip(ends, low, high)
        if cut is None:
            return by
        drawn_m = math.dist(*ends)
        # Drawn as a point, it may be upright, and anywhere on it the place that is met.
        parts = [math.dist(ends[0], point) / drawn_m for point in cut] if drawn_m else (0.0, 1.0)
        off = self.between_m(*parts)
        return (by[0] + off, by[1] + off, by[2] + off)

    @property
    def words(self) -> str:
        """What is said of it beside "interpolated"; nothing where the pipe is straight."""
        if not self.proved:
            return tell("place.pipe_length_not_recorded", most_m=f"{self.most_m:.2f}")
        if self.most_m < 0.0005:
            return ""
        return tell("place.up_to_m_off", most_m=f"{self.most_m:.2f}")


def strays(run: Thing, placed: Sequence[PlacedStation]) -> tuple[Stray | None, ...]:
    """
    Return for each stretch between stations how far it may stray; None where one has no place.

    A pipe's length is recorded of the whole run: all of its slack may lie in any one stretch. A
    length shorter than the stations are apart, as rounding makes it, has none.
    """
    apart = [_apart_m(one, other) for one, other in pairwise(placed)]
    known = [metres for metres in apart if metres is not None]
    length = run.quantity("pipe_length")
    if length is None or len(known) != len(apart):
        rises = (0.0 if _levelled(*ends) else RISE_NOT_KNOWN_M for ends in pairwise(placed))
        return tuple(
            None if c is None else Stray(math.hypot(c, rise) * LONGER, math.hypot(c, rise), False)
            for c, rise in zip(apart, rises, strict=True)
        )
    most = float(length.si) + float(length.tol or 0)
    slack = max(0.0, most - math.fsum(known))
    return tuple(Stray(c + slack, c, True) for c in known)


def _levelled(one: PlacedStation, other: PlacedStation) -> bool:
    return one.centre_m is not None and other.centre_m is not None


def _apart_m(one: PlacedStation, other: PlacedStation) -> float | None:
    """Return the distance of two stations, level counted where both have one."""
    if one.x is None or one.y is None or other.x is None or other.y is None:
        return None
    up = (other.centre_m or 0.0) - (one.centre_m or 0.0)
    return math.hypot(other.x - one.x, other.y - one.y, up if _levelled(one, other) else 0.0)
