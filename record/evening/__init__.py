"""The evening and hand-over: what was done, what is about to be hidden, what stands open."""

from __future__ import annotations

from record.evening.handover import Handover, handover, handover_form
from record.evening.handover_words import handover_words
from record.evening.tonight import Evening, Owed, evening
from record.evening.words import evening_words, form, owed_words

__all__ = [
    "Evening",
    "Handover",
    "Owed",
    "evening",
    "evening_words",
    "form",
    "handover",
    "handover_form",
    "handover_words",
    "owed_words",
]
