"""Sums fed from the record: each figure with its inputs and the entries they rest on."""

from __future__ import annotations

from record.figures.every import chosen, figures
from record.figures.words import Waiting, form, given_words, waiting, words
from record.figures.worked import Fed, Missing, Worked, work

__all__ = [
    "Fed",
    "Missing",
    "Waiting",
    "Worked",
    "chosen",
    "figures",
    "form",
    "given_words",
    "waiting",
    "words",
    "work",
]
