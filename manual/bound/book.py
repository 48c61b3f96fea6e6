"""What an edition is made of: one reader's view, and what follows from it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from manual.bound.editions import Edition
from manual.plans.photos import Kept, none_kept
from record.entry import Checkpoint, Entry
from record.readers import View


@dataclass(frozen=True, slots=True)
class Book:
    """Everything the chapters are filled from: one reader's view and what follows from it."""

    view: View
    edition: int
    before: Edition | None
    changed: tuple[Entry, ...]
    point: Checkpoint
    recorded_to: str
    stamp: datetime
    zone: str
    version: str
    kept: Kept = none_kept  # of a photo, by its SHA-256
