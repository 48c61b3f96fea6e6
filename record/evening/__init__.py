"""The evening: what was done today, what is about to be hidden, and what stands open."""

from __future__ import annotations

from record.evening.tonight import Evening, Owed, evening
from record.evening.words import evening_words, form

__all__ = ["Evening", "Owed", "evening", "evening_words", "form"]
