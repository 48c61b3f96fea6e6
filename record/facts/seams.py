"""Welded seams and the layers that seal them."""

from __future__ import annotations

from record.facts.fields import Clock, Count, Field, OneOf, Text
from record.facts.hull import FACES
from record.facts.kind import EVERYONE, WORKERS, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, length
from record.units import Dimension

LAYER = Kind(
    word="layer",
    says="One layer of a build-up, in order from the steel outward.",
    sort=Sort.THING,
    readers=EVERYONE,
    key="layer",
    fields=(
        Field("layer", Text(), needed=True),
        Field("material", Text(), needed=True),
        Field("coats", Count(), needed=True),
        Field("thickness", length),
        Field("least wait", Measure(Dimension.DURATION)),
        Field("most wait", Measure(Dimension.DURATION)),
        Field("solids", Measure(Dimension.PERCENT)),
        Field("solids from", Text()),
        Field("yield", Measure(Dimension.PERCENT)),
    ),
)

BUILD_UP = Kind(
    word="build-up",
    says="The layers something must get, in order, and the time between them.",
    sort=Sort.THING,
    readers=EVERYONE,
    rows=LAYER,
    fields=(
        Field("name", Text()),
        Field("side", OneOf(("outside", "inside")), needed=True),
        Field("from", Text()),
    ),
)

SEAM = Kind(
    word="seam",
    says="A weld, the rectangle or line it follows on a face, and the build-up it must get.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("joins", Text(), needed=True),
        Field("hull", TagOf(("hull",))),
        Field("face", OneOf(FACES)),
        Field("from near", length),
        Field("from left", length),
        Field("bottom", length),
        Field("width", length),
        Field("height", length),
        Field("length", length),
        Field("process", Text()),
        Field("filler", Text()),
        Field("weld height", length),
        Field("build-up", TagOf(("build-up",)), needed=True),
        Field("build-up reaches", length),
        Field("sides", Text()),
        Field("procedure", Text()),
        Field("filler lot", Text()),
    ),
)

COATED = Kind(
    word="coat applied",
    says="One coat or lift of one layer, with what was used and in what air.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        Field("layer", Text(), needed=True),
        Field("coat", Count(), needed=True),
        Field("area", Text()),
        Field("started", Clock(), needed=True),
        Field("ended", Clock()),
        Field("lot", Text(), needed=True),
        Field("batch", TagOf(("batch",))),
        Field("air", Measure(Dimension.TEMPERATURE)),
        Field("surface", Measure(Dimension.TEMPERATURE)),
        Field("dew point", Measure(Dimension.TEMPERATURE)),
        Field("humidity", Measure(Dimension.PERCENT)),
        Field("film", length),
        Field("used", Measure(Dimension.VOLUME)),
        Field("note", Text()),
    ),
)

BATCH = Kind(
    word="batch",
    says="What was mixed, when, and how long it could be worked.",
    sort=Sort.THING,
    readers=WORKERS,
    fields=(
        Field("product", Text(), needed=True),
        Field("lots", Text(), needed=True),
        Field("mixed", Clock(), needed=True),
        Field("air", Measure(Dimension.TEMPERATURE), needed=True),
        Field("workable time", Measure(Dimension.DURATION), needed=True),
        Field("workable time from", Text()),
        Field("last used", Clock()),
        Field("volume", Measure(Dimension.VOLUME)),
        Field("thinner", Text()),
        Field("used on", TagsOf()),
        Field("components", Text()),
        Field("mixing ratio", Text()),
        Field("mixing ratio from", Text()),
        Field("stands before use", Measure(Dimension.DURATION)),
        Field("material", Measure(Dimension.TEMPERATURE)),
        Field("workable time at", Measure(Dimension.TEMPERATURE)),
        Field("item", TagOf(("expected",))),
    ),
)

KINDS = (SEAM, BUILD_UP, LAYER, COATED, BATCH)
