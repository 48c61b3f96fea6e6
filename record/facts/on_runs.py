"""What belongs to a run: fittings, insulation, what marks it in the ground, cables in it."""

from __future__ import annotations

from record.facts.fields import Count, Day, Field, OneOf, Text, YesNo
from record.facts.kind import ABOVE_PIPE, BY_LENGTH, EVERYONE, WHERE, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, Number, PipeLevel, length
from record.units import Dimension

ON_RUN = Field("on run", TagOf(("run",)), needed=True)
HOW = (Field("how", Text()), Field("position tolerance", length))

FITTING = Kind(
    word="fitting",
    says="A piece of a run that is not straight pipe, and what it costs the flow.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field(
            "type",
            OneOf(
                (
                    "bend",
                    "tee",
                    "wye",
                    "coupling",
                    "union",
                    "reducer",
                    "flange",
                    "cap",
                    "access",
                    "trap",
                    "screen",
                    "terminal",
                    "cowl",
                    "other",
                )
            ),
            needed=True,
        ),
        Field("what", Text()),
        ON_RUN,
        Field("at station", Text()),
        *WHERE,
        Field("level", PipeLevel()),
        *HOW,
        Field("angle", Measure(Dimension.ANGLE)),
        Field("radius", length),
        Field("size", length),
        Field("second size", length),
        Field("loss coefficient", Number()),
        Field("loss coefficient from", Text()),
        Field("joint", Text()),
        Field("maker's part", Text()),
        Field("lot", Text()),
        Field("installed", Day()),
        *BY_LENGTH,
        ABOVE_PIPE,
        Field("item", TagOf(("expected",))),
    ),
)

INSULATION = Kind(
    word="insulation",
    says="One layer of insulation on a length of a run, counted from the pipe outward.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        ON_RUN,
        Field("from station", Text(), needed=True),
        Field("to station", Text(), needed=True),
        Field("order", Count(), needed=True),
        Field("material", Text(), needed=True),
        Field("thickness", length, needed=True),
        Field("conductivity", Measure(Dimension.CONDUCTIVITY)),
        Field("conductivity from", Text()),
        Field("joints", Text()),
        Field("jacket", Text()),
        Field("maker's part", Text()),
        Field("lot", Text()),
    ),
)

MARKER = Kind(
    word="marker",
    says="What shows later that a run lies there: a wire, a tape, a plate or a post.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field(
            "type",
            OneOf(("tracer wire", "marker tape", "marker plate", "marker post", "marker ball")),
            needed=True,
        ),
        Field("follows", TagOf(("run",)), needed=True),
        Field("from station", Text()),
        Field("to station", Text()),
        *WHERE,
        *HOW,
        Field("below grade", length),
        Field("above pipe", length),
        Field("comes up at", Text()),
        Field("says", Text()),
        Field("continuity tested", Text()),
        Field("maker's part", Text()),
        Field("lot", Text()),
        *BY_LENGTH,
        Field("item", TagOf(("expected",))),
    ),
)

CABLE = Kind(
    word="cable",
    says="A cable, the conduit it lies in, and where it is switched off.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text()),
        Field("in run", TagOf(("run",)), needed=True),
        Field("carries", OneOf(("power", "signal", "earth", "spare"))),
        Field("cores", Count()),
        Field("core size", Text()),
        Field("size", length),
        Field("from", Text(), needed=True),
        Field("to", Text(), needed=True),
        Field("voltage", Measure(Dimension.VOLTAGE), needed=True),
        Field("breaker", Text(), needed=True),
        Field("breaker rating", Text()),
        Field("breaker at", Text(), needed=True),
        Field("isolates", TagsOf()),
        Field("pulled with slack", length),
        Field("draw cord left", YesNo()),
        *WHERE,
        *HOW,
        Field("maker's part", Text()),
        Field("lot", Text()),
        Field("installed", Day()),
        Field("hazard", Text()),
    ),
)

KINDS = (FITTING, INSULATION, MARKER, CABLE)
