"""A recall across many records: what has a lot or a maker's part, had it, or may have it.

``pieces`` reads one record, as a reader sees it, into plain values; ``meaning`` says what is asked
for, ``judged`` in which list a piece belongs, and ``ask`` puts the question to many records at
once; ``kept`` keeps those values beside the records, so that the next question need not read them
again. What was kept is asked without starting what reads a record.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from record.recall.ask import NotNarrowed, Recall, recall
from record.recall.meaning import Asked
from record.recall.values import Site

if TYPE_CHECKING:
    from record.recall.pieces import site_of

__all__ = ["Asked", "NotNarrowed", "Recall", "Site", "recall", "site_of"]


def __getattr__(name: str) -> Any:
    if name != "site_of":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from record.recall.pieces import site_of

    return site_of
