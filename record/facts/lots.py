"""Lots of material, so that a maker's recall can be walked to what was built with it."""

from __future__ import annotations

from record.facts.fields import Day, Field, OneOf, Text
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.named import TagsOf
from record.facts.sizes import Measure
from record.units import Dimension

LOT = Kind(
    word="lot",
    says="One delivery of one product under one number: a heat of steel, a drum, a roll, a can.",
    sort=Sort.THING,
    readers=EVERYONE,  # whatever names a lot is seen by no more than see the lot
    fields=(
        Field("number", Text(), needed=True),
        Field("product", Text(), needed=True),
        Field(
            "type",
            OneOf(
                (
                    "steel",
                    "weld filler",
                    "coating",
                    "tar",
                    "foam",
                    "wrap",
                    "sealer",
                    "pipe",
                    "fitting",
                    "insulation",
                    "cable",
                    "board",
                    "fill",
                    "filter",
                    "food",
                    "other",
                )
            ),
        ),
        Field("maker", Text()),
        Field("maker's part", Text()),
        Field("made", Day()),
        Field("received", Day()),
        Field("expires", Day()),
        Field("amount", Text()),
        Field("certificate", Text()),
        Field("kept", Text()),
        Field("used on", TagsOf()),
        Field("conductivity", Measure(Dimension.CONDUCTIVITY)),
        Field("conductivity from", Text()),
    ),
)

KINDS = (LOT,)
