"""What the answer to "where may I screw?" holds; also its JSON form, key for key.

Lengths are metres, offsets from the panel's left and bottom edges, depths from the room face.
None is "not recorded". Nothing in it is a promise that a place is clear.
"""

from __future__ import annotations

from dataclasses import dataclass

from record.answers.behind_values import Hazard, LookedAt, Span

#: What a mark of the grid may be. Nothing is ever "clear".
KEEP_OUT, RESERVED, NONE_RECORDED, UNKNOWN = "keep out", "reserved", "nothing recorded", "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepOut:
    """A rectangle of the panel to keep out of, margin and tolerance in it, and why."""

    tag: str  # "" for what is reserved without a word of what it is
    reason: str
    across: Span
    upward: Span
    depth_from_m: float | None  # the least depth it may start at
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearest:
    """The largest rectangle in which nothing is recorded to that depth."""

    across: Span
    upward: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One point of the grid."""

    across_m: float
    upward_m: float
    state: str  # keep out | reserved | nothing recorded | unknown
    because: tuple[str, ...]  # tags


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixings:
    """Where holes of one depth keep out of everything recorded behind a panel."""

    tag: str
    hull: str
    face: str
    room: str
    width_m: float | None
    height_m: float | None
    edges: tuple[str, str] | None
    depth_m: float
    margin_m: float
    size_m: tuple[float, float] | None
    deepest_m: float | None  # no hole is advised deeper: short of the shell
    deepest_words: str
    looked_at: LookedAt
    reserved: bool  # the whole panel: ask the owner
    unknown: tuple[str, ...]  # why no place for a hole can be named; empty where one can
    keep_out: tuple[KeepOut, ...]
    largest: Clearest | None
    fits: bool | None  # whether ``size_m`` has room; None where nothing can be named
    pitch_m: float
    marks: tuple[Mark, ...]  # row by row from the bottom, each from the left
    hazards: tuple[Hazard, ...]
    reader: str
    as_of: str | None
    further_entries: str
