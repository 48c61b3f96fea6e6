"""Entries → the shelter as built."""

from __future__ import annotations

from record.fold.fold import fold, known_at, known_to
from record.fold.mends import Mends, mends, sight
from record.fold.state import AsBuilt, Happening, Held, Stated, Thing, UnreadEntry, natural

__all__ = [
    "AsBuilt",
    "Happening",
    "Held",
    "Mends",
    "Stated",
    "Thing",
    "UnreadEntry",
    "fold",
    "known_at",
    "known_to",
    "mends",
    "natural",
    "sight",
]
