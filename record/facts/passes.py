"""A pass for another trade: where it may work, how deep, until when, and what came of it."""

from __future__ import annotations

from record.facts.fields import Clock, Day, Field, OneOf, Text, YesNo
from record.facts.hull import FACES
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import length

PASS = Kind(
    word="work pass",
    says="Where another trade may work, how deep and until when; what is reserved; whom to ring.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("for", Text(), needed=True),
        Field("hull", TagOf(("hull",)), needed=True),
        Field("face", OneOf(FACES), needed=True),
        Field("open", TagsOf(("panel",)), needed=True),
        Field("reserved", TagsOf(("panel",)), needed=True),
        Field("depth", length, needed=True),
        Field("from", Day()),
        Field("until", Day(), needed=True),
        Field("stop rule", Text(), needed=True),
        Field("ring", Text(), needed=True),
    ),
)

GROUND = Kind(
    word="ground pass",
    says="Where another trade may dig outside, how deep and until when; whom to ring.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("for", Text(), needed=True),
        Field("corner east", length, needed=True),  # of the area's south-west corner, on the grid
        Field("corner north", length, needed=True),
        Field("size east", length, needed=True),
        Field("size north", length, needed=True),
        Field("open", Text(), needed=True),  # squares, row by row
        Field("reserved", Text(), needed=True),
        Field("depth", length, needed=True),
        Field("from", Day()),
        Field("until", Day(), needed=True),
        Field("stop rule", Text(), needed=True),
        Field("ring", Text(), needed=True),
    ),
)

RETURNED = Kind(
    word="pass returned",
    says="A pass came back: what was made, how deep, how it was closed, with a picture of it.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("work pass", "ground pass"),
    fields=(
        Field("what", Text(), needed=True),
        Field("deepest", length, needed=True),
        Field("closed again", Text()),
        Field("tags", TagsOf()),
    ),
)

BROKEN = Kind(
    word="pass broken",
    says="Somebody worked where, or deeper or later than, the pass allowed; what it may have hurt.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("work pass", "ground pass"),
    fields=(
        Field("what", Text(), needed=True),
        Field("tags", TagsOf(), needed=True),
        Field("hull", TagOf(("hull",))),
        Field("from near", length),
        Field("from left", length),
        Field("level", length),
        Field("depth", length),
        Field("stopped", YesNo()),
        Field("rung", Clock()),
    ),
)

KINDS = (PASS, GROUND, RETURNED, BROKEN)
