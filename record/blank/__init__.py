"""Day sheets to fill in: what is known as hints, what is wanted as gaps; filled in, they post."""

from __future__ import annotations

from record.blank.form import Ask, Block, Form
from record.blank.kinds import kinds_words
from record.blank.of_covering import HELP, of_covering
from record.blank.of_handover import HANDOVER_HELP, of_handover
from record.blank.of_kind import NO_FORM, of_kind
from record.blank.of_tomorrow import of_tomorrow
from record.blank.write import write

__all__ = [
    "HANDOVER_HELP",
    "HELP",
    "NO_FORM",
    "Ask",
    "Block",
    "Form",
    "kinds_words",
    "of_covering",
    "of_handover",
    "of_kind",
    "of_tomorrow",
    "write",
]
