"""Questions people ask of the record, answered with what is recorded, how sure, and what is not.

Each answer is a frozen value made from a reader's view; ``*_words`` says it in plain lines, and
``json_form`` gives it with stable keys.
"""

from __future__ import annotations

from record.answers.behind import behind
from record.answers.behind_values import Behind
from record.answers.json_form import json_form
from record.answers.refused import CannotAnswer, NotFound, OffPanel
from record.answers.words_behind import behind_words

__all__ = [
    "Behind",
    "CannotAnswer",
    "NotFound",
    "OffPanel",
    "behind",
    "behind_words",
    "json_form",
]
