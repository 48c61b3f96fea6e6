"""Entries → the shelter as built."""

from __future__ import annotations

from record.fold.doings import Doing, doings
from record.fold.fold import fold, known_at, known_to, zone_of
from record.fold.mends import Mends, mends
from record.fold.sight import Sight, in_order, sight
from record.fold.state import AsBuilt, Happening, Held, Stated, Thing, UnreadEntry, natural
from record.fold.swaps import Meant, as_meant

__all__ = [
    "AsBuilt",
    "Doing",
    "Happening",
    "Held",
    "Meant",
    "Mends",
    "Sight",
    "Stated",
    "Thing",
    "UnreadEntry",
    "as_meant",
    "doings",
    "fold",
    "in_order",
    "known_at",
    "known_to",
    "mends",
    "natural",
    "sight",
    "zone_of",
]
