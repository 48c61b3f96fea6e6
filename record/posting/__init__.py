"""A day sheet → entries: asked against the record, compared, sealed, appended. All or nothing."""

from __future__ import annotations

from record.posting.clock import (
    Clock,
    SaltSource,
    random_salt,
    seeded_salt,
    stopped_clock,
    wall_clock,
)
from record.posting.own import own_fact
from record.posting.post import Posted, RecordGrew, append_facts, post

__all__ = [
    "Clock",
    "Posted",
    "RecordGrew",
    "SaltSource",
    "append_facts",
    "own_fact",
    "post",
    "random_salt",
    "seeded_salt",
    "stopped_clock",
    "wall_clock",
]
