"""The shape of a hull while earth is put round it."""

from __future__ import annotations

from record.facts.fields import Field, OneOf, Text
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.sizes import length

STAGES = ("before", "midway", "at crown", "finished", "later")

SHAPE = Kind(
    word="shape measured",
    says="One inside measure of a hull, at one stage of the filling round it.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("hull",),
    fields=(
        Field("what", Text(), needed=True),
        Field("stage", OneOf(STAGES), needed=True),
        Field("measured", length, needed=True),
        Field("instrument", Text()),
        Field("limit", length),
        Field("limit from", Text()),
    ),
)

KINDS = (SHAPE,)
