"""What a long section shows: plain values, lengths in metres, levels on one datum."""

import itertools
from dataclasses import dataclass, field

from manual.drawings.both import both, in_metres
from manual.languages import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One point of a run. `None` is "not recorded", and is printed so."""

    key: str  # the short mark in the picture and the table, such as "2"
    name: str
    chainage_m: float
    invert_m: float | None
    crown_m: float | None = None  # outside top
    ground_m: float | None = None
    cover_m: float | None = None  # if None, ground less crown where both are known
    tolerance_m: float | None = None  # of the level, at 95 %
    measured: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """A length with its fall in words; `wrong_way` where it rises against the flow."""

    from_m: float
    to_m: float
    words: str
    wrong_way: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """A length where water stands."""

    from_m: float
    to_m: float
    pond_level_m: float | None
    depth_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LowPoint:
    chainage_m: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """Something fitted on the run: its tag, and its kind in words ("check valve")."""

    chainage_m: float
    tag: str
    kind: str
    level_m: float | None = None  # if None, that of the pipe there


@dataclass(frozen=True, slots=True, kw_only=True)
class LongSection:
    """One run from its first station to its last, seen from the side."""

    name: str
    stations: tuple[Station, ...]
    outside_diameter_m: float | None = None
    falls: tuple[Fall, ...] = ()
    sags: tuple[Sag, ...] = ()
    low_points: tuple[LowPoint, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    frost_depth_m: float | None = None
    inside_from_m: float | None = None
    inside_to_m: float | None = None
    inside_words: str = field(default_factory=lambda: say("section.inside_the_hull"))
    datum_words: str = field(default_factory=lambda: say("section.levels_on_the_site"))
    notes: tuple[str, ...] = ()


def metres(value: float | None, *, places: int = 3) -> str:
    """Metres as printed, or "not recorded".

    >>> metres(47.85), metres(None)
    ('47.850', 'not recorded')
    """
    if value is None:
        return say("section.not_recorded")
    return in_metres(value, places=places)


def said(value: float | None, within_m: float | None = None, *, places: int = 3) -> str:
    r"""A length or level in metres and in feet, or "not recorded".

    >>> said(47.85, 0.02), said(None)
    ('47.85 m (157\' 0")', 'not recorded')
    """
    if value is None:
        return say("section.not_recorded")
    return both(value, within_m, places=places)


def cover_m(station: Station) -> float | None:
    """The cover as measured, or else ground less crown."""
    if station.cover_m is not None:
        return station.cover_m
    if station.ground_m is None or station.crown_m is None:
        return None
    return station.ground_m - station.crown_m


def in_order(section: LongSection) -> tuple[Station, ...]:
    """Stations by chainage."""
    return tuple(sorted(section.stations, key=lambda station: station.chainage_m))


def level_at(section: LongSection, chainage_m: float, line: str) -> float | None:
    """The level of a line ("invert_m", "crown_m", "ground_m") at a chainage, interpolated.

    None where the line is not recorded at the stations on both sides, or the chainage lies
    beyond the line.
    """
    stations = in_order(section)
    for one, two in itertools.pairwise(stations):
        if one.chainage_m <= chainage_m <= two.chainage_m:
            low, high = getattr(one, line), getattr(two, line)
            length = two.chainage_m - one.chainage_m
            share = (chainage_m - one.chainage_m) / length if length else 0.0
            ends = low if share == 0 else high if share == 1 else None
            if ends is not None:
                return float(ends)
            if low is not None and high is not None:
                return float(low + share * (high - low))
    here = [s for s in stations if s.chainage_m == chainage_m]
    return next((getattr(s, line) for s in here if getattr(s, line) is not None), None)
