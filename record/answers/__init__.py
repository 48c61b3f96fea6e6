"""Questions people ask of the record, answered with what is recorded, how sure, and what is not.

Each answer is a frozen value made from a reader's view; ``*_words`` says it in plain lines, and
``json_form`` gives it with stable keys. What is behind a panel is fetched when it is asked for:
it rests on all of place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from record.answers.json_form import json_form
from record.answers.refused import CannotAnswer, NotFound, OffPanel

if TYPE_CHECKING:
    from record.answers.behind_panel import behind
    from record.answers.behind_values import Behind
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
_WHERE = {"Behind": "behind_values", "behind": "behind_panel", "behind_words": "words_behind"}


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
