"""What the work went through again: opened, drilled, welded, taken out; flood, fire, smoke."""

from __future__ import annotations

from record.facts.fields import Field, OneOf, Text
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import length

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

BEFELL_WORDS = (
    *("flood", "cloudburst", "fire", "smoke", "dust", "earthquake", "blow", "power cut"),
    "digging nearby",
)
BEFELL = Kind(
    word="befell",
    says="Something came over the shelter, as a whole or at the things named.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("what", OneOf(BEFELL_WORDS), needed=True),
        Field("tags", TagsOf()),
        Field("note", Text()),
    ),
)

KINDS = (OPENED, BEFELL)
