"""What the job needs, what was used of it, and what is only there for a time."""

from __future__ import annotations

from record.facts.fields import Day, Field, OneOf, Text, YesNo
from record.facts.kind import EVERYONE, WORKERS, Kind, Sort
from record.facts.named import TagOf, TagsOf

ITEM = Field("item", TagOf(("expected",)))

EXPECTED = Kind(
    word="expected",
    says="Something the job plan needs: how much, for what, and before which covering.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        Field("amount", Text(), needed=True),
        Field("for", Text()),  # tags that may not be recorded yet, so words
        Field("before", TagOf(("covering",))),
        Field("needed by", Day()),
        Field("from", Text()),
        Field("maker's part", Text()),
    ),
)

USED = Kind(
    word="used",
    says="How much of a delivery was built in, where nothing that was built says so itself.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("amount", Text(), needed=True),
        Field("lot", Text()),
        Field("tags", TagsOf()),
        ITEM,
    ),
)

TEMPORARY = Kind(
    word="temporary",
    says="A plug, strap, cap or prop that is there for a time only, and must come off again.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field(
            "what",
            OneOf(("plug", "strap", "cap", "prop", "bypass", "tape", "blank", "other")),
            needed=True,
        ),
        Field("on thing", TagOf(), needed=True),
        Field("where", Text()),
        Field("off before", Text(), needed=True),
        Field("looks like", Text()),
        Field("stays in reach", YesNo()),  # once what it is on is covered
    ),
)

TAKEN_OFF = Kind(
    word="taken off",
    says="Something temporary came off again.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    about=("temporary",),
    fields=(Field("note", Text()),),
)

KINDS = (EXPECTED, USED, TEMPORARY, TAKEN_OFF)
