"""What is said to be in a hull lies within it."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.check_valve_at_low_end import THROUGH_WALL_M
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.place import HullFrame
from record.place.accuracy import accuracy
from record.place.solids import called
from record.readers import View
from record.units import metres_said

KINDS = ("valve", "drain", "fitting", "fit-out", "equipment", "store", "cable")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find hidden things that are measured in a hull and lie outside it."""
    for thing in hidden.everything():
        yield from _one(hidden.view, thing)


def find_all(view: View) -> Iterator[Finding]:
    """Find everything that is measured in a hull and lies outside it."""
    for kind in KINDS:
        for thing in view.built.of_kind(kind):
            yield from _one(view, thing)


def _one(view: View, thing: Thing) -> Iterator[Finding]:
    hull = view.hulls.get(thing.text("hull") or "")
    if hull is None or thing.kind.word not in KINDS:
        return
    sunk = any(one.text("type") == "sump" for one in (thing, _whole(view, thing)) if one)
    beyond = [each for each in _beyond(hull, thing) if each[1] > 0 and not (sunk and each[2])]
    if not beyond:
        return
    name, far_m, up = max(beyond, key=lambda each: each[1])
    sure = accuracy(thing)
    proved = far_m > (sure.vertical_m if up else sure.horizontal_m)
    apart = metres_said(far_m, 3)
    yield RULE.finding(
        thing.tag,
        f"{called(thing)}, said to be in {hull.tag}, reaches {apart} {name}",
        clears=(
            f"measure it again; then mend ## {thing.kind.word} {thing.tag}",
            "- mends: the entry that was wrong",
            "- because: what was wrong",
        ),
        entries=thing.entries(),
        sure=CERTAIN if proved else CANNOT_BE_TOLD,
        stops=proved,
    )


def _whole(view: View, thing: Thing) -> Thing | None:
    return view.built.thing(next(iter(thing.tags("part_of")), None))


def _beyond(hull: HullFrame, thing: Thing) -> Iterator[tuple[str, float, bool]]:
    """
    Yield how far a thing reaches past each side of its hull, and whether that is up or down.

    Its shell and a stub beyond it are let be. A size that is not recorded adds nothing, and a
    place that is not is asked for elsewhere.
    """
    spare_m = hull.plate_m + THROUGH_WALL_M
    level = thing.si("bottom")
    places = (
        ("from_near", "along", hull.length_m, "past its near end", "past its far end"),
        ("from_left", "across", hull.width_m, "past its left wall", "past its right wall"),
    )
    for name, size, room_m, under, over in places:
        start = thing.si(name)
        if start is not None:
            yield under, -float(start) - spare_m, False
            yield over, float(start + (thing.si(size) or 0)) - room_m - spare_m, False
    if level is not None:
        bottom_m = float(level) - hull.origin[2]
        yield "below its floor", -bottom_m - spare_m, True
        top_m = bottom_m + float(thing.si("height") or 0)
        yield "above its ceiling", top_m - hull.height_m - spare_m, True


RULE = Rule(
    word="in its hull",
    why=(
        "A measure with a slipped digit puts a thing outside the steel it is said to be in, where "
        "nobody will ever look for it. While it can be seen, a tape puts that right. (Common "
        "practice, no source.)"
    ),
    find=find,
)
AT_HANDOVER = HandoverRule(word=RULE.word, why=RULE.why, find=find_all)
