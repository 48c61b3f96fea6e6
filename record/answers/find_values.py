"""What the answer to "where do I dig for it?" holds; also its JSON form, key for key.

Lengths are metres. None is "not recorded". Entries are named by number.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """One tape to pull: hook it on the landmark, read ``length_m`` over the thing, held level."""

    landmark: str
    what: str
    length_m: float
    state: str  # as recorded; a landmark that is lost is not offered
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapes:
    """Two tapes that meet over it, on which side of the line between them, and a check."""

    first: Tape
    second: Tape
    side: str  # compass words on the site grid
    turn: str  # left or right of the line, walking from the first to the second
    angle_deg: float
    weak: bool
    meets_within_m: float  # what the two tapes are good for, at 95 %
    check: Tape | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FromFace:
    """A measure from a face of a hull, to be taken from inside it."""

    face: str
    length_m: float
    to: str = ""  # what of it: its nearer edge, its bottom; "" where it is placed by its middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """How deep, from which surface, of which day."""

    of: str  # crown, level ...
    level_m: float
    ground_m: float | None
    depth_m: float | None
    tolerance_m: float
    surface_on: str  # the day of the ground's level; "" where there is none
    basis: str
    measured_since: tuple[str, ...]  # cover measured there later, each in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place to look for: a thing, or one station of a run."""

    tag: str
    words: str
    x_m: float | None
    y_m: float | None
    either: tuple[tuple[float, float], ...]  # two places, where the ties leave two
    position_tolerance_m: float | None
    within_m: float | None  # radius to dig or probe in: the place and the tapes together
    basis: str
    assumed: bool
    cover: str  # before cover, after cover, order not known, not covered
    tapes: Tapes | None
    hull: str
    from_faces: tuple[FromFace, ...]
    depth: Depth | None
    not_recorded: tuple[str, ...]
    doubts: tuple[str, ...]  # what its ties do not settle
    entries: tuple[str, ...]
    hull_round: bool = False  # then left and right count from its widest inside
    as_written: str = ""  # its place in a hull that has none itself on the grid


@dataclass(frozen=True, slots=True, kw_only=True)
class Find:
    """Where to look for one thing, and what is to be done before any digging."""

    tag: str
    kind: str
    spots: tuple[Spot, ...]
    lost: tuple[str, ...]  # landmarks that are gone, each in words
    between: tuple[str, ...]  # how a run lies between its stations
    dig_tolerance: str
    dig_tolerance_m: float | None
    before_digging: tuple[str, ...]
    reader: str
    as_of: str | None
    further_entries: str
