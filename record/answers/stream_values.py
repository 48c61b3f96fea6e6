"""What the answer to "what comes before it, what after it?" holds; also its JSON form.

Lengths are metres along the plan of a run from its first station. None is "not recorded".
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing met on the way, in order; ``level`` is how many branchings lie before it."""

    tag: str
    kind: str
    words: str
    on_run: str
    along_m: float | None
    off_m: float | None  # how far it lies off the recorded line of its run
    state: str  # of a valve: how it was left, or its normal position
    stops: bool  # shut, as far as that was written: nothing goes on from here
    level: int
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stream:
    """What lies upstream or downstream of one thing, as far as runs and words join them."""

    tag: str
    kind: str
    words: str
    way: str  # upstream | downstream
    state: str
    steps: tuple[Step, ...]
    closed: tuple[str, ...]  # what it isolates when it is shut or switched off
    water: tuple[str, ...]  # where water in the run goes
    not_recorded: tuple[str, ...]
    swapped: tuple[str, ...]  # tags that were exchanged, and by which entry
    reader: str
    as_of: str | None
    further_entries: str
