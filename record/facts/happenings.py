"""What happened to a thing: looked at, measured, tested, served, and said."""

from __future__ import annotations

from dataclasses import replace

from record.facts.fields import Clock, Count, Day, Field, OneOf, Text
from record.facts.kind import EVERYONE, OWNER_ONLY, SERVICE, WORKERS, Kind, Sort
from record.facts.looks import RESULT, RETEST_OF
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, length
from record.units import Dimension

#: Entries exist in which a failure is told in words, so words may still stand here.
RETEST_IN_WORDS = Field("retest of", replace(RETEST_OF, words=True))

PHOTOGRAPHED = Kind(
    word="photographed",
    says="A picture: its file, what it shows, how near, which way it looks.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("file", Text(), needed=True),
        Field("sha256", Text(), needed=True),
        Field("caption", Text(), needed=True),
        Field("shows", TagsOf(), needed=True),
        Field("view", OneOf(("wide", "close"))),
        Field("looking", Text()),
        Field("scale", Text()),
        Field("camera time", Text()),
        Field("camera direction", Text()),
        Field("camera place", Text()),
    ),
)

COVER_MEASURED = Kind(
    word="cover measured",
    says="Depth of earth over a hull or a run at one point, from the surface of that day.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(
        Field("point", Text(), needed=True),
        Field("x", length),
        Field("y", length),
        Field("cover", length, needed=True),
        Field("surface", Text()),
        Field("how", Text(), needed=True),
    ),
)

LEVELLED = Kind(
    word="levelled",
    says="One staff reading of a level run; the readings stay as they were booked.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("point", Text(), needed=True),
        Field("backsight", length),
        Field("intermediate", length),
        Field("foresight", length),
        Field("distance", length),
        Field("note", Text()),
        Field("run name", Text()),
        Field("of", Text()),
        Field("held on", OneOf(("crown", "centre", "invert", "ground"))),
        Field("staff", OneOf(("upright", "inverted"))),
        Field("reduced level", length),
        Field("backsight distance", length),
        Field("instrument", Text()),
        Field("allowed over 1 km", length),
        Field("allowed from", Text()),
    ),
)

TIED = Kind(
    word="position tied",
    says="One tape distance from a landmark to a point; kept as it was read.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(
        Field("landmark", TagOf(("landmark",)), needed=True),
        Field("point", Text(), needed=True),
        Field("distance", length, needed=True),
        Field("side", Text()),
        Field("difference of level", length),
    ),
)

INSPECTED = Kind(
    word="inspected",
    says="Somebody looked with a purpose, by a criterion.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        RESULT,
        Field("criterion", Text()),
        Field("instrument", Text()),
        Field("calibrated", Text()),
        Field("reading", Text()),
        RETEST_IN_WORDS,
    ),
)

TESTED = Kind(
    word="tested",
    says="A test with its reading and its limit.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("test", Text(), needed=True),
        RESULT,
        Field("reading", Text(), needed=True),
        Field("limit", Text(), needed=True),
        Field("limit from", Text()),
        Field("instrument", Text(), needed=True),
        Field("calibrated", Text()),
        RETEST_IN_WORDS,
        Field("baseline", Text()),
    ),
)

SERVICED = Kind(
    word="serviced",
    says="Upkeep was done: which task, what was found, read and left.",
    sort=Sort.HAPPENING,
    readers=SERVICE,
    fields=(
        Field("task", Text(), needed=True),
        Field("found", Text()),
        Field("done", Text()),
        Field("reading", Text()),
        Field("result", OneOf(("passed", "failed", "as found"))),
        Field("parts", Text()),
        Field("left as", Text()),
        Field("typed by", Text()),
        Field("lots", Text()),
    ),
)

LEFT_AS = Kind(
    word="left as",
    says="How a valve, plug, strap or switch was left.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(Field("state", Text(), needed=True), Field("until", Text())),
)

PROOF_LAPSED = Kind(
    word="proof lapsed",
    says="A passed test no longer proves anything: which, since when, and why.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(Field("test", Text(), needed=True), Field("cause", Text(), needed=True)),
)

READ = Kind(
    word="reading taken",
    says="One reading to hold against day one: a level, a flow, a rate.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        Field("reading", Text(), needed=True),
        Field("instrument", Text()),
        Field("limit", Text()),
        Field("limit from", Text()),
    ),
)

DELIVERED = Kind(
    word="delivered",
    says="Material came to the site.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("amount", Text(), needed=True),
        Field("lot", Text()),
        Field("used for", TagsOf()),
        Field("item", TagOf(("expected",))),
    ),
)

RETURNED = Kind(
    word="returned",
    says="Material left the site again, or stayed over.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("amount", Text(), needed=True),
        Field("lot", Text()),
        Field("why", Text()),
        Field("item", TagOf(("expected",))),
    ),
)

WORKED_BY_OTHERS = Kind(
    word="worked by others",
    says="Another trade did something that touches what was built.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("what", Text(), needed=True),
        Field("depth", length),
        Field("hull", TagOf(("hull",))),
        Field("from near", length),
        Field("from left", length),
        Field("level", length),
        Field("pass", Text()),
    ),
)

REMARK = Kind(
    word="remark",
    says="Anything, in the crew's own words. Always accepted.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(Field("text", Text(), needed=True),),
)

EDITION = Kind(
    word="edition issued",
    says="An edition of the manual: its number, the checkpoint it rests on, its files' hashes.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("edition", Count(), needed=True),
        Field("supersedes", Text()),
        Field("reader", Text(), needed=True),
        Field("recorded to", Day(), needed=True),
        Field("checkpoint", Text(), needed=True),
        Field("pdf", Text(), needed=True),
        Field("html", Text(), needed=True),
        Field("calendar", Text(), needed=True),
        Field("program", Text()),
        Field("emergency", Text()),
        Field("cards", Text()),
        Field("language", Text()),
    ),
)

SHEET_POSTED = Kind(
    word="sheet posted",
    says="A day sheet was recorded; its own bytes are kept under this hash.",
    sort=Sort.HAPPENING,
    readers=OWNER_ONLY,
    tagless=True,
    fields=(
        Field("name", Text(), needed=True),
        Field("sha256", Text(), needed=True),
        Field("part", Text()),
        Field("typed", Clock()),
    ),
)

WITHDRAWN = Kind(
    word="withdrawn",
    says="An earlier entry was never so, and nothing takes its place.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(),
)

SAND = Kind(
    word="filled",
    says="A shaft or void was filled: with what, how much, how dry.",
    sort=Sort.HAPPENING,
    readers=OWNER_ONLY,
    fields=(
        Field("material", Text(), needed=True),
        Field("volume", Measure(Dimension.VOLUME)),
        Field("dryness", Text()),
        Field("from level", length),
        Field("to level", length),
        Field("lot", Text()),
    ),
)

KINDS = (
    PHOTOGRAPHED,
    COVER_MEASURED,
    LEVELLED,
    TIED,
    INSPECTED,
    TESTED,
    SERVICED,
    LEFT_AS,
    PROOF_LAPSED,
    READ,
    DELIVERED,
    RETURNED,
    WORKED_BY_OTHERS,
    REMARK,
    EDITION,
    SHEET_POSTED,
    WITHDRAWN,
    SAND,
)
