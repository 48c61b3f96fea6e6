"""A recall across many records: what has a lot or a maker's part, had it, or may have it.

``pieces`` reads one record, as a reader sees it, into plain values; ``ask`` puts the question to
many of them at once; ``kept`` keeps those values beside the records, so that the next question
need not read them again.
"""

from __future__ import annotations

from record.recall.ask import Asked, NotNarrowed, Recall, recall
from record.recall.pieces import Site, site_of

__all__ = ["Asked", "NotNarrowed", "Recall", "Site", "recall", "site_of"]
