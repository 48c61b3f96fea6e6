"""The sand of a way out fits the room it runs into, and the length that is kept clear for it."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.checks.sand import Sand, filled_ways, sand_of
from record.figures.feeding import lengths_in
from record.fold import Thing
from record.readers import View
from record.units import metres_said


def find(view: View) -> Iterator[Finding]:
    """Find filled ways out whose heap is longer or higher than the room, or than is kept clear."""
    for way in filled_ways(view):
        sand = sand_of(view, way)
        if sand.heap is None or sand.room is None:
            said = f"whether its sand fits cannot be told: {', '.join(sand.missing)} not recorded"
            yield _finding(way, sand, said, certain=False)
            continue
        told = [*_in_room(sand, sand.room)]
        unknown = [f"{name} of {sand.room.tag} not recorded" for name, si in told if si is None]
        small = [
            f"{name} of {sand.room.tag} {metres_said(si)}" for name, si in told if si is not None
        ]
        clear = lengths_in(way.text("keep_clear") or "")
        if len(clear) == 1 and clear[0] < sand.heap.run_m:
            small.append(f"kept clear {metres_said(clear[0])}")
        elif len(clear) != 1:
            unknown.append(f"keep clear {way.words('keep_clear')}: no one length in it")
        heap = f"damp, its sand runs out {metres_said(sand.heap.run_m)} and stands "
        heap += f"{metres_said(sand.heap.height_m)} high"
        for some, certain in ((small, True), (unknown, False)):
            if some:
                word = "more than" if certain else "and what it must fit is not known"
                yield _finding(way, sand, f"{heap}, {word}: {'; '.join(some)}", certain=certain)


def _in_room(sand: Sand, room: Thing) -> Iterator[tuple[str, float | None]]:
    """Yield the measures of the room that the heap does not fit, or that nobody recorded."""
    assert sand.heap is not None
    for name, need_m in ((sand.along, sand.heap.run_m), ("height", sand.heap.height_m)):
        measure = room.si(name)
        if measure is None or float(measure) < need_m:
            yield name, None if measure is None else float(measure)


def _finding(way: Thing, sand: Sand, said: str, *, certain: bool) -> Finding:
    return RULE.finding(
        way.tag,
        said,
        clears=(
            f"## way out {way.tag}",
            "- keep clear: from where to where, with one length; or less sand, by its designer",
        ),
        entries=(*way.entries(), *(sand.room.entries() if sand.room else ())),
        sure=CERTAIN if certain else CANNOT_BE_TOLD,
    )


RULE = HandoverRule(
    word="sand fits the room",
    why=(
        "All the sand of the shaft must lie in the room before anybody climbs. Where the heap is "
        "longer than what is kept clear it buries feet and tools; where it is higher than the room "
        "it plugs its own hatch. Reckoned damp, at 34° of repose (USBR Hyd-299); that it fits does "
        "not say that a hatch may be opened."
    ),
    find=find,
)
