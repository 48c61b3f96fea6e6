"""What the answer to "what lies below this spot?" holds; also its JSON form, key for key.

Lengths are metres, levels on the site datum. None is "not recorded", never zero. Entries are
named by number.
"""

from __future__ import annotations

from dataclasses import dataclass

from record.answers.behind_values import Anywhere, Disagreement, Hazard, Layer, Unread


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """The ground as it was last recorded at or near the spot."""

    level_m: float
    of: str
    on: str
    off_m: float  # how far in plan from the spot it was taken, or worked
    tolerance_m: float
    assumed: bool  # the tolerance was not stated
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered:
    """A covering that hid it, and when it went on."""

    covering: str
    on: str
    at: str | None
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """One thing that lies, or may lie, below the spot or beside it."""

    tag: str
    kind: str
    words: str
    off_m: float  # in plan from the spot to its recorded outline; 0 over it
    tolerance_m: float  # across
    hand_m: float  # either side of it by hand only: the wider of the legal tolerance and ours
    top_name: str  # crown, roof or top
    top_m: float | None  # levels on the plumb line, or where it comes nearest
    invert_m: float | None  # of a pipe
    bottom_m: float | None
    tolerance_up_m: float
    depth_m: float | None  # surface to top, by its own ground where that is recorded
    depth_to_invert_m: float | None
    depth_may_be_m: tuple[float, float] | None  # least to its top, most to its bottom
    surface_on: str  # the day of the ground that the depth counts from; "" where there is none
    measured_since: tuple[str, ...]  # cover measured there later, each in words
    basis: str
    interpolated: bool
    assumed: bool
    missing: tuple[str, ...]
    cover: str  # before cover, after cover, order not known, not covered
    covered: tuple[Covered, ...]
    hazards: tuple[Hazard, ...]
    layers: tuple[Layer, ...]  # of a hull or a seam, outward from the steel
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """What is below one spot, from the surface down."""

    x_m: float
    y_m: float
    within_m: float  # how far round the spot was looked: how well the spot itself is known
    placed_by: str
    doubts: tuple[str, ...]
    reserved: bool
    surface: Surface | None
    depth_not_recorded: tuple[Hit, ...]  # place known, depth not: from the surface down
    down: tuple[Hit, ...]
    near: tuple[Hit, ...]  # not below it; within what is dug by hand only
    covers_measured: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beneath:
    """What the record says lies below a spot; two columns where its ties leave two places."""

    asked: str
    columns: tuple[Column, ...]
    dig_tolerance: str
    dig_tolerance_m: float | None
    before_digging: tuple[str, ...]
    anywhere: tuple[Anywhere, ...]
    no_record_of: tuple[str, ...]
    none_placed_of: tuple[str, ...]
    unread: tuple[Unread, ...]
    disagreements: tuple[Disagreement, ...]
    call: tuple[str, ...]
    reader: str
    as_of: str | None
    further_entries: str
