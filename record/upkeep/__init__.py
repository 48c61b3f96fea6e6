"""What is due, and when: tasks for what is fitted, counted from what was done."""

from __future__ import annotations

from record.upkeep.catalogue import SAY_WHAT_IT_IS, WHO, Task, catalogue
from record.upkeep.due import CannotTell, Due, due, expiries, occurrences, services_for_nothing
from record.upkeep.rules import Rule
from record.upkeep.words import json_form, words

__all__ = [
    "SAY_WHAT_IT_IS",
    "WHO",
    "CannotTell",
    "Due",
    "Rule",
    "Task",
    "catalogue",
    "due",
    "expiries",
    "json_form",
    "occurrences",
    "services_for_nothing",
    "words",
]
