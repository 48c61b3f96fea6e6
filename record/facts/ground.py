"""The site and what it is measured from."""

from __future__ import annotations

from record.facts.fields import Count, Field, OneOf, Text
from record.facts.kind import EVERYONE, Kind, Sort
from record.facts.sizes import Measure, length
from record.units import Dimension

#: What may lie on the ground, as tables of frost have it.
SURFACES = ("snow", "concrete", "asphalt", "bare soil", "shaded", "turf", "trees")

SITE = Kind(
    word="site",
    says="The whole place: its datum, grid, climate, and whom to call.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("name", Text(), needed=True),
        Field("place", Text()),
        Field("datum", Text(), needed=True),
        Field("grid", Text(), needed=True),
        Field("units", OneOf(("metres", "feet"))),
        Field("altitude", length),
        Field("people", Count()),
        Field("able to crank", Count()),
        Field("mean temperature", Measure(Dimension.TEMPERATURE)),
        Field("amplitude", Measure(Dimension.TEMPERATURE)),
        Field("frost depth", length),
        Field("frost depth from", Text()),
        Field("dig tolerance", length),
        Field("dig tolerance from", Text()),
        Field("builder", Text()),
        Field("builder contact", Text()),
        Field("emergency number", Text()),
        Field("address for responders", Text()),
        Field("forecast", Text()),
        Field("coldest day", Text()),
        Field("climate from", Text()),
        Field("intended use", Text()),
        Field("not proved for", Text()),
        Field("one-call number", Text()),
        Field("engineer of record", Text()),
        Field("building official", Text()),
        Field("electrician", Text()),
        Field("soil moist", Measure(Dimension.UNIT_WEIGHT)),
        Field("soil saturated", Measure(Dimension.UNIT_WEIGHT)),
        Field("soil from", Text()),
        Field("soil diffusivity", Measure(Dimension.DIFFUSIVITY)),
        Field("days planned", Count()),
        Field("soil conductivity", Measure(Dimension.CONDUCTIVITY)),
        Field("soil dry density", Measure(Dimension.DENSITY)),
        Field("soil water", Measure(Dimension.PERCENT)),
        Field("ground surface", OneOf(SURFACES)),
        Field("freezing index", Measure(Dimension.COLD)),
        Field("freezing days", Count()),
        Field("freezing from", Text()),
        Field("first frost", Text()),
        Field("first frost from", Text()),
    ),
)

MONTH = Kind(
    word="month",
    says="One month of the normals, by its number, 1 January: means of temperature and humidity.",
    sort=Sort.THING,
    readers=EVERYONE,
    key="month",
    fields=(
        Field("month", Text(), needed=True),
        Field("temperature", Measure(Dimension.TEMPERATURE)),
        Field("humidity", Measure(Dimension.HUMIDITY)),
    ),
)

CLIMATE = Kind(
    word="climate",
    says="The air of the place, month by month, and who gave the figures.",
    sort=Sort.THING,
    readers=EVERYONE,
    rows=MONTH,
    fields=(
        Field("from", Text(), needed=True),
        Field("years", Text()),
    ),
)

LANDMARK = Kind(
    word="landmark",
    says="A permanent visible feature that hidden things are measured from.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        Field("x", length, needed=True),
        Field("y", length, needed=True),
        Field("level", length),
        Field("state", Text()),
    ),
)

BENCHMARK = Kind(
    word="benchmark",
    says="A mark of known level.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        Field("level", length, needed=True),
        Field("x", length),
        Field("y", length),
        Field("how", Text()),
    ),
)

DIP_PIPE = Kind(
    word="dip pipe",
    says="A standing pipe in which the groundwater level is read.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("x", length, needed=True),
        Field("y", length, needed=True),
        Field("top", length),
        Field("alarm level", length),
        Field("alarm level from", Text()),
    ),
)

KINDS = (SITE, LANDMARK, BENCHMARK, DIP_PIPE, CLIMATE, MONTH)
