"""Who was asked to look, what was counted, and what was put into the owner's hands."""

from __future__ import annotations

from record.facts.fields import Count, Day, Field, Text, YesNo
from record.facts.kind import EVERYONE, OWNER_ONLY, WORKERS, Kind, Sort
from record.facts.named import TagsOf

WITNESSED = Kind(
    word="witness point",
    says="Somebody was asked to look; the work did not wait for them. A hold is something else.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("asked", Text(), needed=True),
        Field("asked on", Day()),
        Field("came", YesNo(), needed=True),
        Field("found", Text()),
    ),
)

CHECKED = Kind(
    word="contents checked",
    says="A store was opened and counted: what is short, what is past its day, what was put in.",
    sort=Sort.HAPPENING,
    readers=OWNER_ONLY,
    about=("store",),
    fields=(
        Field("counted", Text(), needed=True),
        Field("short", Text(), needed=True),
        Field("past its day", Text(), needed=True),
        Field("put in", Text()),
        Field("lots", Text()),
        Field("left as", Text()),
    ),
)

HANDED = Kind(
    word="copy handed over",
    says="A copy of the manual or the record was given to somebody, and what they were shown.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("edition", Count()),
        Field("reader", Text(), needed=True),
        Field("handed to", Text(), needed=True),
        Field("on what", Text()),
        Field("copies", Count()),
        Field("shown", TagsOf()),
        Field("controls shown", YesNo()),
        Field("care charts given", YesNo()),
        Field("received by", Text()),
        Field("signed by", Text()),
        Field("when back", Text()),
    ),
)

KINDS = (WITNESSED, CHECKED, HANDED)
