"""What hides things, when it went on, and who let it."""

from __future__ import annotations

from record.facts.fields import Day, Field, OneOf, Text
from record.facts.kind import EVERYONE, WORKERS, Kind, Sort
from record.facts.named import TagsOf
from record.facts.sizes import length

WORKS = ("lining", "foam", "tar", "wrap", "backfill", "fill", "turf", "board")

COVERING = Kind(
    word="covering",
    says="A work that will hide things, and which.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", OneOf(WORKS)),
        Field("hides", TagsOf(), needed=True),
        Field("planned", Day()),
        Field("where", Text()),
        Field("panels", TagsOf(("panel",))),  # the boards it puts on
    ),
)

COVERED = Kind(
    word="covered",
    says="The covering went on: from then, what it hides cannot be seen.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("covering",),
    fields=(
        Field("tags", TagsOf()),
        Field("extent", Text()),
        Field("note", Text()),
    ),
)

UNCOVERED = Kind(
    word="uncovered",
    says="A covering was opened again, for a time, at one place.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("covering",),
    fields=(
        Field("tags", TagsOf(), needed=True),
        Field("extent", Text(), needed=True),
        Field("closed again", Text()),
    ),
)

RELEASED = Kind(
    word="hold released",
    says="The named person looked, and let the work go on.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        Field("hold", Text(), needed=True),
        Field("reading", Text()),
        Field("second", Text()),
    ),
)

WAIVED = Kind(
    word="hold waived",
    says="The work went on although something was missing: by whom, why, and who stands by it.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        Field("rule", Text(), needed=True),
        Field("tags", TagsOf(), needed=True),
        Field("reason", Text(), needed=True),
        Field("second", Text(), needed=True),
    ),
)

BACKFILLED = Kind(
    word="backfilled",
    says="One lift of fill: where, what, how high.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        Field("lift", Text(), needed=True),
        Field("side", Text(), needed=True),
        Field("material", Text()),
        Field("to level", length),
        Field("shape", Text()),
        Field("lot", Text()),
        Field("loose lift", length),
        Field("compacted with", Text()),
        Field("passes", Text()),
    ),
)

KINDS = (COVERING, COVERED, UNCOVERED, RELEASED, WAIVED, BACKFILLED)
