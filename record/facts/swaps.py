"""One saying that puts a whole stretch of the record right: two names stood the wrong way round."""

from __future__ import annotations

from record.facts.fields import Clock, Day, Field, Text
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.named import TagOf

SWAPPED = Kind(
    word="tags swapped",
    says="Two tags named each other's thing from a moment on: plates hung the wrong way round.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(
        Field("from", Day(), needed=True),
        Field("from time", Clock()),
        Field("found by", Text(), needed=True),
        Field("why", Text(), needed=True),
        Field("with", TagOf(), needed=True),
    ),
)

KINDS = (SWAPPED,)
