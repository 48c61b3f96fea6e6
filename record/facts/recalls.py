"""A maker's recall: the notice, who was told of it here, and what was done.

Told and done are entries like any other, so that years later it is known of every piece.
"""

from __future__ import annotations

from record.facts.fields import Day, Field, OneOf, Text
from record.facts.kind import SERVICE, WORKERS, Kind, Sort

NOTICED = Kind(
    word="recall noticed",
    says="A maker, or who sold it, calls something back: which lots, why, and what to do.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("notice", Text(), needed=True),
        Field("from", Text(), needed=True),
        Field("what", Text(), needed=True),
        Field("maker's part", Text()),
        Field("lots", Text()),
        Field("hazard", Text(), needed=True),
        Field("to do", Text(), needed=True),
        Field("answer by", Day()),
    ),
)

TOLD = Kind(
    word="recall told",
    says="Somebody here was told of a recall: who, how, and what they answered.",
    sort=Sort.HAPPENING,
    readers=SERVICE,
    tagless=True,
    fields=(
        Field("notice", Text(), needed=True),
        Field("told", Text(), needed=True),
        Field("how", Text(), needed=True),
        Field("answered", Text()),
    ),
)

DONE = Kind(
    word="recall done",
    says="What became of one piece that was called back.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        Field("notice", Text(), needed=True),
        Field(
            "done",
            OneOf(("replaced", "repaired", "taken out", "looked at, not of it", "left as it is")),
            needed=True,
        ),
        Field("found", Text()),
    ),
)

KINDS = (NOTICED, TOLD, DONE)
