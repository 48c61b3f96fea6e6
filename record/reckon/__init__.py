"""Sums by name: what each takes, its formula and source, worked and said."""

from __future__ import annotations

from record.reckon.given import CannotReckon, Said, WordFault, read, supplied
from record.reckon.names import SUMS
from record.reckon.sum import Figure, Input, Sum
from record.reckon.words import (
    catalogue,
    figure_form,
    figure_words,
    json_form,
    usage,
    value_words,
    words,
)

__all__ = [
    "SUMS",
    "CannotReckon",
    "Figure",
    "Input",
    "Said",
    "Sum",
    "WordFault",
    "catalogue",
    "figure_form",
    "figure_words",
    "json_form",
    "read",
    "supplied",
    "usage",
    "value_words",
    "words",
]
