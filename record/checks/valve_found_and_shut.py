"""A stranger can find each valve, know it when seen, and shut it."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place import stations, tied_points
from record.readers import View

BY_ITSELF = ("check", "flap", "overpressure")  # nobody turns these
WORKED = ("turns_to_close", "closes")
TIES = 2


def find(view: View) -> Iterator[Finding]:
    """Find valves without turns, a photo, or two ties to tape them from; none of it stops."""
    shown = {
        tag
        for photo in view.built.happened("photographed")
        for tag in (photo.about, *photo.tags("shows"))
    }
    for valve in view.built.of_kind("valve"):
        lacks = [_key(name) for name in WORKED if _unsaid(valve, name)]
        gaps = [f"{key} not recorded" for key in lacks]
        clears = [f"## valve {valve.tag}", *(f"- {key}: what it is" for key in lacks)]
        if valve.tag not in shown:
            gaps.append("no photo shows it")
            clears.append(f"a photo that shows {valve.tag}, with a rule in view")
        if not _tied(view, valve):
            gaps.append("it has no two ties")
            clears.append("two ties from landmarks, or from the faces of its hull")
        if gaps:
            yield RULE.finding(
                valve.tag,
                "; ".join(gaps),
                clears=tuple(clears if lacks else clears[1:]),
                entries=valve.entries(),
                sure=CANNOT_BE_TOLD if lacks else CERTAIN,
                stops=False,
            )


def _key(name: str) -> str:
    return name.replace("_", " ")


def _unsaid(valve: Thing, name: str) -> bool:
    value = valve.value(name)
    missing = isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
    return missing and valve.text("type") not in BY_ITSELF


def _tied(view: View, valve: Thing) -> bool:
    """Return whether two lengths find it: from faces of its hull, or from two landmarks."""
    if valve.text("hull"):
        return valve.si("from_near") is not None and valve.si("from_left") is not None
    if _placed(view, valve):
        marks = view.built.of_kind("landmark")
        return sum(_on_grid(mark) for mark in marks) >= TIES
    return any(
        point.tag == valve.tag and len({tie.landmark.tag for tie in point.ties}) >= TIES
        for point in tied_points(view.built)
    )


def _placed(view: View, valve: Thing) -> bool:
    if _on_grid(valve) or valve.si("along_run") is not None:
        return True
    key = (valve.text("at_station") or "").partition(" ")[0]
    run = view.built.thing(next(iter(valve.tags("on_run")), None))
    placed = stations(run, view.hulls) if run is not None else ()
    return any(s.key == key and s.x is not None and s.y is not None for s in placed)


def _on_grid(thing: Thing) -> bool:
    return thing.si("x") is not None and thing.si("y") is not None


RULE = HandoverRule(
    word="valve can be found and shut",
    why=(
        "In trouble the one at the valve has never seen it. Two lengths from what still stands "
        "find it, a picture tells it from its neighbour, and the turns say when it is shut. "
        "(Common practice, no source.)"
    ),
    find=find,
)
