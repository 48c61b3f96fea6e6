"""The steel and its rooms: hulls, rooms, openings, lining panels, zones to keep out of."""

from __future__ import annotations

from record.facts.fields import Count, Field, OneOf, Text, YesNo
from record.facts.kind import EVERYONE, EXTENT, WHERE, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, Number, length
from record.units import Dimension

FACES = ("near", "far", "left", "right", "floor", "ceiling")
FACE = Field("face", OneOf(FACES), needed=True)
HULL_OF = Field("hull", TagOf(("hull",)), needed=True)

#: A rectangle on a face of a hull, by the edges nearest near and left, its bottom and its size.
RECTANGLE = (
    HULL_OF,
    FACE,
    Field("from near", length),
    Field("from left", length),
    Field("bottom", length),
    Field("width", length, needed=True),
    Field("height", length, needed=True),
)

HULL = Kind(
    word="hull",
    says=(
        "A steel box, or a round hull lying along near to far. Its faces are named standing "
        "inside at the entry end (near) and looking to the far end. x, y and floor level are "
        "those of the inside corner near, left, floor. A round hull stands in the box that "
        "just holds it: from left counts from its inside where it is widest, and floor level "
        "is that of the bottom of its shell; its inside width and height are n/a, round."
    ),
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("name", Text()),
        Field("inside length", length, needed=True),
        Field("inside width", length, needed=True),
        Field("inside height", length, needed=True),
        Field("steel thickness", length, needed=True),
        Field("x", length, needed=True),
        Field("y", length, needed=True),
        Field("floor level", length, needed=True),
        Field("walking floor", length),
        Field("bearing", Measure(Dimension.ANGLE), needed=True),
        Field("how", Text(), needed=True),
        Field("ground level", length),
        Field("design cover", length),
        Field("design cover by", Text()),
        Field("mass", Measure(Dimension.MASS)),
        Field("floats in open pit at", length),
        Field("build-up", TagOf(("build-up",))),
        Field("lots", Text()),
        Field("shape", OneOf(("box", "round"))),
        Field("inside diameter", length),
        Field("floor above bottom", length),
        Field("uplift factor", Number()),
        Field("uplift factor by", Text()),
        Field("most cover", length),
        Field("most cover by", Text()),
        Field("fill difference", length),  # how far one side may stand over the other meanwhile
        Field("fill difference by", Text()),
    ),
)

ROOM = Kind(
    word="room",
    says="A room or area inside a hull, or one that leads to it.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("name", Text(), needed=True),
        Field("hull", TagOf(("hull",))),
        *(field for field in WHERE if field.key in ("from near", "from left")),
        Field("length", length),
        Field("width", length),
        Field("height", length),
        Field("use", Text()),
        Field("reached by", Text()),
        Field("build-up", TagOf(("build-up",))),
        Field("design temperature", Measure(Dimension.TEMPERATURE)),
        Field("design humidity", Measure(Dimension.HUMIDITY)),
        Field("design climate from", Text()),
    ),
)

OPENING = Kind(
    word="opening",
    says="A door or other opening through a face, by its edges.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("name", Text()),
        *RECTANGLE,
        Field("leads to", Text()),
        Field("opens", Text()),
        Field("reached by", Text()),
    ),
)

PANEL = Kind(
    word="panel",
    says=(
        "One lining board by its edges: from the near end on left and right walls, from the "
        "left wall on near and far walls, both on floor and ceiling; bottom as a level. In a "
        "round hull: one that follows the curve is measured along the curve, inside the shell, "
        "from the line where its bottom (on the ceiling, from left) meets the shell; a flat one "
        "says how far its room face is off the hull's axis."
    ),
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("room", TagOf(("room",))),
        *RECTANGLE,
        Field("board", Text()),
        Field("thickness", length, needed=True),
        Field("packing", Text()),
        Field("packing thickness", length, needed=True),
        Field("fixings", Text()),
        Field("comes off", Text()),
        Field("before it", TagsOf(("panel",))),
        Field("looked at", Text()),
        Field("coats", Count()),
        Field("lot", Text()),
        Field("packing lot", Text()),
        Field("weight", Measure(Dimension.MASS)),
        Field("hazard", Text()),
        Field("follows curve", YesNo()),
        Field("off axis", length),
    ),
)

RESERVED = Kind(
    word="reserved zone",
    says="A part of a face that nobody drills or opens without asking the owner first.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        *RECTANGLE,
        Field("hazard", Text()),
    ),
)

FIT_OUT = Kind(
    word="fit-out",
    says="Something built in behind or before the lining: a sleeve, a conduit, a stop.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("what", Text(), needed=True),
        *WHERE,
        *EXTENT,
        Field("how", Text()),
        Field("sealed", Text()),
        Field("serves", TagsOf()),
        Field("fixed with", Text()),
        Field("maker's part", Text()),
        Field("lot", Text()),
        Field("item", TagOf(("expected",))),
    ),
)

KINDS = (HULL, ROOM, OPENING, PANEL, RESERVED, FIT_OUT)
