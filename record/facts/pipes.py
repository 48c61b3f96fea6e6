"""Runs and what sits on them: stations, valves, drains."""

from __future__ import annotations

from record.facts.fields import Count, Day, Field, OneOf, Text, YesNo
from record.facts.kind import ABOVE_PIPE, BY_LENGTH, EVERYONE, WHERE, Kind, Sort
from record.facts.named import TagOf
from record.facts.sizes import Measure, PipeLevel, length
from record.units import Dimension

AIR = ("supply air", "exhaust air")
DRAINAGE = ("condensate", "drain water", "pumped water")

STATION = Kind(
    word="station",
    says="One measured point of a run.",
    sort=Sort.THING,
    readers=EVERYONE,
    key="station",
    fields=(
        Field("station", Text(), needed=True),
        Field("x", length),
        Field("y", length),
        Field("hull", TagOf(("hull",))),
        Field("from near", length),
        Field("from left", length),
        Field("level", PipeLevel()),
        Field("ground", length),
        Field("what", Text()),
        Field("how", Text(), needed=True),
        Field("position tolerance", length),
    ),
)

RUN = Kind(
    word="run",
    says="A line of pipe or conduit, from its first station to its last.",
    sort=Sort.THING,
    readers=EVERYONE,
    rows=STATION,
    fields=(
        Field("name", Text()),
        Field("carries", OneOf((*AIR, *DRAINAGE, "drinking water", "power", "signal", "spare"))),
        Field("size", length),
        Field("outside diameter", length),
        Field("inside diameter", length),
        Field("material", Text()),
        Field("joint", Text()),
        Field("from", Text()),
        Field("to", Text()),
        Field("falls to", Text()),
        Field("least fall", Measure(Dimension.SLOPE)),
        Field("least fall from", Text()),
        Field("pipe length", length),
        Field("insulation", Text()),
        Field("insulation thickness", length),
        Field("tracer wire", YesNo()),
        Field("marker tape", YesNo()),
        Field("freeze protection", Text()),
        Field("outlet", Text()),
        Field("screen", Text()),
        Field("hazard", Text()),
        Field("class", Text()),
        Field("maker's part", Text()),
        Field("lot", Text()),
        Field("joint lot", Text()),
        Field("owned by", Text()),
        Field("state", OneOf(("in use", "spare", "left in the ground", "taken out"))),
        Field("installed", Day()),
        Field("accepted", Day()),
        Field("in use from", Day()),
        Field("roughness", Measure(Dimension.FILM)),
        Field("roughness from", Text()),
        Field("terminal level", length),
        Field("item", TagOf(("expected",))),
        Field("branch of", TagOf(("run",))),
        Field("design flow", Measure(Dimension.FLOW)),
        Field("design flow by", Text()),
    ),
)

VALVE = Kind(
    word="valve",
    says="A valve, where it is, and how it is worked and reached.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field(
            "type",
            OneOf(("check", "flap", "overpressure", "shut-off", "ball", "gate")),
            needed=True,
        ),
        Field("on run", TagOf(("run",)), needed=True),
        Field("at station", Text()),
        Field("size", length),
        *WHERE,
        Field("level", PipeLevel()),
        Field("flow", Text()),
        Field("opens at", Measure(Dimension.PRESSURE)),
        Field("normal position", Text()),
        Field("turns to close", Text()),
        Field("closes", Text()),
        Field("isolates", Text()),
        Field("reached by", Text()),
        Field("looks like", Text()),
        Field("tested by", Text()),
        Field("screen", Text()),
        Field("maker's part", Text()),
        Field("serial", Text()),
        Field("lot", Text()),
        Field("installed", Text()),
        *BY_LENGTH,
        ABOVE_PIPE,
        Field("item", TagOf(("expected",))),
        Field("rated flow", Measure(Dimension.FLOW)),
        Field("pressure at rated flow", Measure(Dimension.PRESSURE)),
    ),
)

DRAIN = Kind(
    word="drain",
    says="What takes the water from a low point, and where it lets it go.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("serves", TagOf(("run",)), needed=True),
        Field("at station", Text(), needed=True),
        Field("discharges", Text(), needed=True),
        Field("through", TagOf(("run",))),
        Field("size", length),
        *WHERE,
        Field("screen", Text()),
        Field("freeze protection", Text()),
        Field("trap", Text()),
        Field("outlets", Count()),
        Field("maker's part", Text()),
        Field("lot", Text()),
        *BY_LENGTH,
        ABOVE_PIPE,
        Field("seal margin", length),
        Field("seal margin from", Text()),
    ),
)

KINDS = (RUN, STATION, VALVE, DRAIN)
