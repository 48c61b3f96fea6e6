"""Forms of inspection and test: every line is answered, if only by "n/a" and the reason.

What each asks for: weld, coating, compaction and pressure tests as the usual report forms of
those trades have it. A blank is refused by the sheet reader; "not recorded" stays an answer.
"""

from __future__ import annotations

from record.facts.fields import Clock, Count, Day, Field, Holds, Text
from record.facts.kind import EVERYONE, WORKERS, Kind, Sort
from record.facts.looks import REPAIR_OF, RESULT, RETEST_OF
from record.facts.named import TagsOf
from record.facts.sizes import Measure, length
from record.units import Dimension


def _asked(key: str, holds: Holds) -> Field:
    return Field(key, holds, needed=True)


#: What every form carries: by which limit it was judged, with what, and what it is a retest of.
JUDGED = (
    _asked("criterion", Text()),
    _asked("criterion from", Text()),
    RESULT,
    _asked("instrument", Text()),
    _asked("calibrated", Day()),
    _asked("retest of", RETEST_OF),
)

WELD = Kind(
    word="weld inspected",
    says="One weld looked at, by which procedure it was made, by whom, and what was found.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        _asked("weld", Text()),
        _asked("procedure", Text()),
        _asked("welder", Text()),
        _asked("filler", Text()),
        _asked("filler lots", Text()),
        _asked("method", Text()),
        *JUDGED,
        _asked("reading", Text()),
        _asked("repair", Text()),
    ),
)

COATING = Kind(
    word="coating inspected",
    says="A coat looked at: the steel beneath it, the air it went on in, and how thick it is.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        _asked("what", Text()),
        _asked("area", Text()),
        _asked("preparation", Text()),
        _asked("profile", Measure(Dimension.FILM)),
        _asked("air", Measure(Dimension.TEMPERATURE)),
        _asked("surface", Measure(Dimension.TEMPERATURE)),
        _asked("dew point", Measure(Dimension.TEMPERATURE)),
        _asked("humidity", Measure(Dimension.HUMIDITY)),
        _asked("batches", TagsOf(("batch",))),
        _asked("film", Measure(Dimension.FILM)),
        _asked("film readings", Text()),
        _asked("holiday voltage", Measure(Dimension.VOLTAGE)),
        *JUDGED,
    ),
)

COMPACTION = Kind(
    word="compaction tested",
    says="How tightly one lift of fill lies, against its greatest density.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    tagless=True,
    fields=(
        _asked("lift", Text()),
        _asked("point", Text()),
        _asked("depth", length),
        _asked("method", Text()),
        _asked("reference density", Measure(Dimension.DENSITY)),
        _asked("reference from", Text()),
        _asked("dry density", Measure(Dimension.DENSITY)),
        _asked("moisture", Measure(Dimension.PERCENT)),
        _asked("degree", Measure(Dimension.PERCENT)),
        *JUDGED,
    ),
)

PRESSURE = Kind(
    word="pressure tested",
    says="A line or a room held under pressure: how high, how long, and what was lost.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        _asked("test", Text()),
        _asked("medium", Text()),
        _asked("pressure", Measure(Dimension.PRESSURE)),
        _asked("pressure after", Measure(Dimension.PRESSURE)),
        _asked("duration", Measure(Dimension.DURATION)),
        _asked("leakage", Text()),
        _asked("flushing", Text()),
        _asked("left in service", Day()),
        _asked("witnesses", Text()),
        *JUDGED,
    ),
)

FLOW = Kind(
    word="flow tested",
    says="How much air or water passes, at what difference of pressure, read where.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        _asked("test", Text()),
        _asked("point", Text()),
        _asked("flow", Measure(Dimension.FLOW)),
        _asked("pressure difference", Measure(Dimension.PRESSURE)),
        _asked("setting", Text()),
        _asked("air", Measure(Dimension.TEMPERATURE)),
        *JUDGED,
    ),
)

HOLIDAY = Kind(
    word="holiday tested",
    says="A coat swept with voltage for pinholes: how high, over what, and how many were found.",
    sort=Sort.HAPPENING,
    readers=WORKERS,
    fields=(
        _asked("test", Text()),
        _asked("area", Text()),
        _asked("film", Measure(Dimension.FILM)),
        _asked("holiday voltage", Measure(Dimension.VOLTAGE)),
        _asked("voltage from", Text()),
        _asked("holidays", Count()),
        _asked("where found", Text()),
        *JUDGED,
    ),
)

REPAIRED = Kind(
    word="repaired",
    says="A fault was put right: what it was, how, with what, and which look had found it.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        _asked("what", Text()),
        _asked("how", Text()),
        _asked("repair of", REPAIR_OF),
        Field("lots", Text()),
        Field("batches", TagsOf(("batch",))),
        Field("ended", Clock()),
        Field("left as", Text()),
    ),
)

KINDS = (WELD, COATING, COMPACTION, PRESSURE, FLOW, HOLIDAY, REPAIRED)
