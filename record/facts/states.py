"""What was done to the work again: opened, drilled, welded, taken out."""

from __future__ import annotations

from record.facts.fields import Field, OneOf, TagOf, TagsOf, Text, length
from record.facts.kind import EVERYONE, Kind, Sort

OPENED = Kind(
    word="opened up",
    says="Finished work was opened again: drilled, cut, welded on, taken out, by the crew itself.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(
        Field("what", OneOf(("drilled", "cut", "welded", "taken out", "reopened")), needed=True),
        Field("why", Text(), needed=True),
        Field("tags", TagsOf()),
        Field("hull", TagOf(("hull",))),
        Field("from near", length),
        Field("from left", length),
        Field("level", length),
        Field("depth", length),
        Field("closed again", Text()),
    ),
)

KINDS = (OPENED,)
