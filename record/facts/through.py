"""What goes through the steel and what shuts it: penetrations, doors and hatches."""

from __future__ import annotations

from record.facts.fields import Day, Field, OneOf, Text, YesNo
from record.facts.hull import FACE, FACES, HULL_OF, RECTANGLE
from record.facts.kind import EVERYONE, OWNER_ONLY, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure, length
from record.units import Dimension

PENETRATION = Kind(
    word="penetration",
    says=(
        "A hole through a face for a pipe or a cable, by the middle of it: where, how wide, what "
        "passes, and what seals it on either side."
    ),
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        HULL_OF,
        FACE,
        Field("from near", length),
        Field("from left", length),
        Field("above floor", length),
        Field("level", length),
        Field("how", Text()),
        Field("position tolerance", length),
        Field("size", length, needed=True),
        Field("passes", Text(), needed=True),
        Field("carries", TagsOf()),
        Field("spare", YesNo(), needed=True),
        Field("sleeve", Text(), needed=True),
        Field("sleeve size", length),
        Field("sleeve length", length),
        Field("sealed inside", Text(), needed=True),
        Field("sealed outside", Text(), needed=True),
        Field("sealed at", OneOf(("inside", "outside", "both ends", "neither end"))),
        Field("maker's part", Text()),
        Field("lot", Text()),
        Field("seal lot", Text()),
        Field("installed", Day()),
        Field("item", TagOf(("expected",))),
    ),
)

SHUTS = (
    Field("width", length),
    Field("height", length),
    Field("thickness", length),
    Field("weight", Measure(Dimension.MASS)),
    Field("hinge side", OneOf(("left", "right", "top", "bottom", "none"))),
    Field("swing", OneOf(("inward", "outward", "slides", "lifts", "lifts off"))),
    Field("seal", Text()),
    Field("latch", Text()),
    Field("release from inside", Text()),
)

DOOR = Kind(
    word="door",
    says="A leaf that shuts an opening: a door or a hatch, how it hangs, seals and is let go.",
    sort=Sort.THING,
    readers=EVERYONE,
    fields=(
        Field("type", OneOf(("door", "sliding door", "hatch", "gate", "lid")), needed=True),
        Field("name", Text()),
        Field("in", TagOf(("opening", "way out"))),
        Field("hull", TagOf(("hull",))),
        Field("face", OneOf(FACES)),
        Field("from near", length),
        Field("from left", length),
        Field("bottom", length),
        *SHUTS,
        Field("stops", Text()),
        Field("force to open", Measure(Dimension.FORCE)),
        Field("keep clear", Text()),
        Field("normal position", Text()),
        Field("looks like", Text()),
        Field("how", Text()),
        Field("maker's part", Text()),
        Field("serial", Text()),
        Field("lot", Text()),
        Field("installed", Day()),
        Field("hazard", Text()),
        Field("handle from latch edge", length),
        Field("closer force", Measure(Dimension.FORCE)),
        Field("item", TagOf(("expected",))),
    ),
)

CONCEALED = Kind(
    word="concealed entry",
    says="A way in that is not to be seen: where, what hides it, and how it is opened.",
    sort=Sort.THING,
    readers=OWNER_ONLY,
    fields=(
        Field("name", Text()),
        *RECTANGLE,
        Field("behind", TagOf(("panel",))),
        Field("leads to", Text()),
        Field("hidden by", Text()),
        Field("opens", Text(), needed=True),
        *(field for field in SHUTS if field.key not in ("width", "height")),
        Field("looks like", Text()),
        Field("how", Text()),
        Field("lot", Text()),
        Field("hazard", Text()),
    ),
)

KINDS = (PENETRATION, DOOR, CONCEALED)
