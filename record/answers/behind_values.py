"""What the answer to "what is behind this panel?" holds; also its JSON form, key for key.

All lengths are metres. ``across`` is from the panel's left edge, ``upward`` from its bottom
edge (``edges`` says which those are), ``depth`` from the room face, or from the inside of the
plate where ``depth_from`` says so. None is "not recorded". Entries are named by number.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Span:
    from_m: float
    to_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer, in order from the room face; ``side`` is lining, shell, outside or earth."""

    side: str
    what: str
    thickness: str  # as recorded, or which absence
    thickness_m: float | None
    from_m: float | None
    to_m: float | None  # None of the earth too: it has no other side
    entries: tuple[str, ...]


#: How a thing lies to the space asked about: it comes through the panel itself; part of it is
#: recorded in that space; or it is recorded outside, and may be in it by its tolerance alone.
CROSSES, IN_REACH, NEAR = "crosses the panel", "within reach", "near"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing that may lie in the space asked about."""

    tag: str
    kind: str
    words: str
    across: Span
    upward: Span
    across_may_reach: Span
    upward_may_reach: Span
    depth: Span
    depth_may_reach: Span
    certain: bool  # part of it is surely within the outline recorded
    axis: tuple[tuple[float, float], tuple[float, float]] | None
    tolerance_across_m: float
    tolerance_upward_m: float
    tolerance_depth_m: float
    assumed: bool
    basis: str
    interpolated: bool
    missing: tuple[str, ...]
    cover: str  # before cover, after cover, order not known, not covered
    layers: tuple[Layer, ...]  # of a seam, outward from the steel; depths as far as known
    entries: tuple[str, ...]
    lies: str = ""  # crosses the panel | within reach | near
    depth_known: bool = True  # False: keep clear of it at any depth


@dataclass(frozen=True, slots=True, kw_only=True)
class Reserved:
    """A zone that nobody opens or drills without asking the owner; None is "not recorded"."""

    tag: str
    hazard: str
    across: Span | None  # on this panel
    upward: Span | None
    from_near: Span | None  # in the hull
    from_left: Span | None
    level: Span | None
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Removal:
    """How the panel comes off, in what order, as recorded."""

    fixings: str
    comes_off: str
    first: tuple[str, ...]  # panels that come off before it, in order
    first_words: str
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    signal: str  # DANGER, WARNING, CAUTION, NOTICE
    words: str
    about: tuple[str, ...]
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Isolation:
    """What to shut or switch off; ``tag`` is empty where nothing is recorded for ``of``."""

    of: str
    tag: str
    kind: str
    where: str
    normal_position: str
    left_as: str
    turns_to_close: str
    closes: str
    isolates: str
    reached_by: str
    looks_like: str
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """Something that was done here, and by whom."""

    on: str
    at: str | None
    kind: str
    about: str
    words: str
    who: str
    entry: str
    void: str = ""  # a test: that it proves nothing any more, and since when


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A picture of the panel or of what may lie behind it; ``file`` is in the record's folder."""

    on: str
    at: str | None
    caption: str
    looking: str
    scale: str
    shows: tuple[str, ...]
    who: str
    file: str
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedAt:
    """Whether anybody looked in before it was closed; ``state`` is one of four."""

    state: str  # looked at, nothing else seen | looked at | partly | not looked at
    words: str
    entries: tuple[str, ...]
    worked_since: tuple[str, ...] = ()  # work there since, which may have put something behind it


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    tag: str
    field: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Anywhere:
    """Something with no place on record, or no whole one."""

    tag: str
    words: str
    said_behind: bool  # it is said to be behind this panel


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    tag: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """What the record says of the space behind one panel, and what it does not say."""

    tag: str
    hull: str
    face: str
    room: str
    width_m: float | None
    height_m: float | None
    edges: tuple[str, str] | None
    along_curve: str = ""  # how upward is measured where the panel follows a round hull
    at: tuple[float, float] | None
    reach_m: float
    depth_from: str  # room face | inside of the plate
    reader: str
    as_of: str | None
    further_entries: str
    not_measured: tuple[str, ...]  # of the panel and its hull; with any of these nothing is placed
    off_grid: tuple[str, ...] = ()  # of the hull's place: then only what is measured in it is told
    looked_at: LookedAt
    reserved: bool
    zones: tuple[Reserved, ...]
    no_record_of: tuple[str, ...]  # usual services with no run on record at all
    none_placed_of: tuple[str, ...]  # on record, and no stretch of it has a place
    carries_not_recorded: tuple[str, ...]  # runs that do not say what they carry
    anywhere: tuple[Anywhere, ...]
    unread: tuple[Unread, ...]
    disagreements: tuple[Disagreement, ...]
    hazards: tuple[Hazard, ...]
    isolations: tuple[Isolation, ...]
    call: tuple[str, ...]
    removal: Removal
    layers: tuple[Layer, ...]
    items: tuple[Item, ...]
    past: tuple[Past, ...]
    photos: tuple[Photo, ...] = ()
