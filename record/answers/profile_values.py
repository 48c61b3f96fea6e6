"""What the answer to "how does it lie?" holds; also its JSON form, key for key.

Lengths are metres, levels on the site datum, chainages along the plan from the first station.
None is "not recorded", never zero. Entries are named by number.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileStation:
    key: str
    name: str
    chainage_m: float | None
    ground_m: float | None
    ground_on: str  # the day of the ground's level
    crown_m: float | None
    centre_m: float | None
    invert_m: float | None
    cover_m: float | None
    tolerance_m: float  # of the level
    not_settled: tuple[str, ...]  # measures of it that are told in two ways
    assumed: bool
    basis: str
    measured_since: tuple[str, ...]  # cover measured there later, each in words
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileLength:
    """A length between two stations that were levelled; it is straight only as far as told."""

    from_key: str
    to_key: str
    length_m: float  # along the plan
    drop_m: float  # toward the end the run falls to
    slope: float
    tolerance_m: float | None
    verdict: str  # falls | level | rises | cannot be told
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LowPoint:
    chainage_m: float
    station: str
    invert_m: float
    drained: str  # what takes the water, or that nothing is recorded


@dataclass(frozen=True, slots=True, kw_only=True)
class Pond:
    from_m: float
    to_m: float
    deepest_at_m: float
    depth_m: float
    level_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class InFrost:
    """A length whose cover is less than the frost depth."""

    from_m: float
    to_m: float
    length_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """A run seen from the side."""

    tag: str
    words: str
    falls_to: str
    stations: tuple[ProfileStation, ...]
    lengths: tuple[ProfileLength, ...]
    low_points: tuple[LowPoint, ...]
    ponds: tuple[Pond, ...]
    least_cover: tuple[str, float] | None  # station, cover
    frost_depth_m: float | None
    frost_depth_from: str
    in_frost: tuple[InFrost, ...] | None  # None where it cannot be told
    between: tuple[str, ...]  # how it lies between stations
    not_recorded: tuple[str, ...]
    disagreements: tuple[str, ...]
    reader: str
    as_of: str | None
    further_entries: str
