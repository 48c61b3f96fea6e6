"""What is kept and worked inside: stores, equipment, ways out, procedures."""

from __future__ import annotations

from record.facts.fields import Count, Day, Field, OneOf, Text
from record.facts.hull import FACES
from record.facts.kind import (
    EVERYONE,
    EXTENT,
    OWNER_AND_RESPONDER,
    OWNER_ONLY,
    WHERE,
    Kind,
    Sort,
)
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, length
from record.units import Dimension

CONTENT = Kind(
    word="content",
    says="One line of what a store holds.",
    sort=Sort.THING,
    readers=OWNER_ONLY,
    key="item",
    fields=(
        Field("item", Text(), needed=True),
        Field("what", Text(), needed=True),
        Field("count", Count()),
        Field("each", Text()),
        Field("expires", Day()),
        Field("lot", Text()),
    ),
)

STORE = Kind(
    word="store",
    says="A void that holds things: under the floor, in a wall.",
    sort=Sort.THING,
    readers=OWNER_ONLY,
    rows=CONTENT,
    fields=(
        Field("name", Text()),
        *WHERE,
        *EXTENT,
        Field("behind", TagOf(("panel",))),
        Field("lid", Text()),
        Field("opens", Text()),
        Field("volume", Measure(Dimension.VOLUME)),
        Field("looks like", Text()),
    ),
)

CURVE_POINT = Kind(
    word="curve point",
    says="One point of the maker's curve of a fan or a cranked blower, flows rising.",
    sort=Sort.THING,
    readers=EVERYONE,
    key="point",
    fields=(
        Field("point", Text(), needed=True),
        Field("flow", Measure(Dimension.FLOW)),
        Field("pressure", Measure(Dimension.PRESSURE)),
    ),
)

EQUIPMENT = Kind(
    word="equipment",
    says="A machine or kit, where it is, what its plate says, and how it is worked by hand.",
    sort=Sort.THING,
    readers=EVERYONE,
    rows=CURVE_POINT,
    fields=(
        Field(
            "type",
            OneOf(
                (
                    "air unit",
                    "filter set",
                    "hand crank",
                    "pump",
                    "alarm",
                    "generator",
                    "lighting",
                    "sump",
                    "door",
                    "other",
                    "fan",
                    "heater",
                    "battery",
                    "charger",
                    "radio",
                    "water tank",
                    "toilet",
                    "anode",
                    "extinguisher",
                    "gas filter",
                )
            ),
            needed=True,
        ),
        Field("name", Text()),
        Field("part of", TagOf(("equipment",))),
        *WHERE,
        *EXTENT,
        Field("serial", Text()),
        Field("maker's part", Text()),
        Field("made", Day()),
        Field("installed", Day()),
        Field("in use from", Day()),
        Field("rated", Text()),
        Field("flow", Measure(Dimension.FLOW)),
        Field("crank rate", Measure(Dimension.ROTATION)),
        Field("hand operation", Text()),
        Field("consumables", Text()),
        Field("spares", Text()),
        Field("maker's interval", Measure(Dimension.INTERVAL)),
        Field("maker's interval from", Text()),
        Field("sealed until", Day()),
        Field("replace by", Day()),
        Field("final pressure drop", Measure(Dimension.PRESSURE)),
        Field("looks like", Text()),
        Field("normal position", Text()),
        Field("serves", Text()),
        Field("hazard", Text()),
        Field("warranty", Text()),
        Field("lot", Text()),
        Field("consumables lot", Text()),
        Field("detects", Text()),
        Field("tested by", Text()),
        Field("accepted", Day()),
        Field("warranty until", Day()),
        Field("pressure at flow", Measure(Dimension.PRESSURE)),
        Field("crank radius", length),
        Field("efficiency", Measure(Dimension.PERCENT)),
        Field("efficiency from", Text()),
        Field("handle from latch edge", length),
        Field("item", TagOf(("expected",))),
        Field("service after running", Measure(Dimension.DURATION)),
    ),
)

WAY_OUT = Kind(
    word="way out",
    says="A shaft or passage that leads outside, and what stands in it.",
    sort=Sort.THING,
    readers=OWNER_AND_RESPONDER,
    fields=(
        Field("name", Text()),
        Field("hull", TagOf(("hull",)), needed=True),
        Field("face", OneOf(FACES)),
        Field("x", length),
        Field("y", length),
        Field("section along", length),
        Field("section across", length),
        Field("fill", Text()),
        Field("fill from", length),
        Field("fill to", length),
        Field("top below grade", length),
        Field("hatch width", length),
        Field("hatch height", length),
        Field("hatch sill", length),
        Field("hatch from left", length),
        Field("opens", Text(), needed=True),
        Field("receives fill", TagOf(("room",))),
        Field("keep clear", Text()),
        Field("looks like", Text()),
        Field("builder's text", Text()),
        Field("lot", Text()),
        Field("grain size", Measure(Dimension.FILM)),
    ),
)

STEP = Kind(
    word="step",
    says="One action of a procedure.",
    sort=Sort.THING,
    readers=EVERYONE,
    key="step",
    fields=(
        Field("step", Text(), needed=True),
        Field("do", Text(), needed=True),
        Field("caution", Text()),
        Field("touches", TagsOf()),
    ),
)

EVENTS = (
    "get out",
    "power lost",
    "air bad",
    "smoke outside",
    "fire inside",
    "water coming in",
    "trapped",
    "start a stay",
    "collapse inside",
    "open after long closure",
    "normal working",
)

PROCEDURE = Kind(
    word="procedure",
    says="Numbered steps for one event, and who walked them through.",
    sort=Sort.THING,
    readers=EVERYONE,
    rows=STEP,
    fields=(
        Field("event", OneOf(EVENTS), needed=True),
        Field("sign", Text(), needed=True),
        Field("signal word", OneOf(("danger", "warning", "caution", "notice")), needed=True),
        Field("danger", Text(), needed=True),
        Field("ways out", Text()),
        Field("call", Text()),
        Field("afterwards", Text()),
        Field("walked by", Text()),
        Field("took", Measure(Dimension.DURATION)),
    ),
)

HAND_OVER = Kind(
    word="hand-over item",
    says="Something that must be settled before the crew leaves, and by whom.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        Field("by whom", Text(), needed=True),
        Field("due", Day()),
        Field("state", Text(), needed=True),
        Field("touches", TagsOf()),
        Field("count", Count()),
        Field("handed to", Text()),
        Field("handed on", Day()),
    ),
)

KINDS = (STORE, CONTENT, EQUIPMENT, CURVE_POINT, WAY_OUT, PROCEDURE, STEP, HAND_OVER)
