"""What hangs on what for its place, and the circles in that: a place in one is no place.

A thing hangs on the hull it was measured in, on the run it lies along, on the landmarks it was
tied from; a run on what its stations hang on. A place that was written on the grid hangs on
nothing, so two posts that were each written and taped from the other are no circle.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from record.fold import AsBuilt, Thing
from record.words import tell

#: Kind → the field that names the run it lies along, where it has no place of its own.
ALONG = {
    "valve": "on_run",
    "drain": "serves",
    "fitting": "on_run",
    "insulation": "on_run",
    "marker": "follows",
    "cable": "in_run",
}
IN = ("hull", "room", "in")  # names what a thing was measured in, or shuts


def circles(built: AsBuilt) -> tuple[tuple[str, ...], ...]:
    """
    Return the circles of tags, each begun at its first in the alphabet, sorted.

    Of circles that share a tag one is told; with that one mended the next is.
    """
    ties = _ties(built)
    graph = {tag: set(_hangs_on(thing, ties)) for tag, thing in built.things.items()}
    found = []
    while circle := _circle(graph):
        found.append(_turned(circle))
        for tag in circle:
            del graph[tag]
    return tuple(sorted(found))


def in_circles(built: AsBuilt) -> dict[str, str]:
    """Return, for every tag in a circle, what is to be said of its place."""
    found = {}
    for circle in circles(built):
        for place, tag in enumerate(circle):
            way = " → ".join((*circle[place:], *circle[:place], tag))
            found[tag] = tell("place.its_place_hangs_on", way=way)
    return found


def _circle(graph: Mapping[str, set[str]]) -> tuple[str, ...]:
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as fault:
        return tuple(reversed(fault.args[1][1:]))  # it names what is hung on first, and one twice
    return ()


def _turned(circle: tuple[str, ...]) -> tuple[str, ...]:
    first = circle.index(min(circle))
    return circle[first:] + circle[:first]


def _ties(built: AsBuilt) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for tie in built.happened("position tied"):
        found.setdefault(tie.about.partition("/")[0], set()).update(tie.tags("landmark"))
    return found


def _hangs_on(thing: Thing, ties: Mapping[str, set[str]]) -> Iterator[str]:
    """Yield what the place of a thing is worked from, in the order that places are taken in."""
    if thing.parts:
        for part in thing.parts:
            yield from part.tags("hull")
        if not all(part.tags("hull") or _written(part) for part in thing.parts):
            yield from ties.get(thing.tag, ())
        return
    within = [tag for name in IN for tag in thing.tags(name)]
    if within or _written(thing):
        yield from within
    elif thing.tag in ties:
        yield from ties[thing.tag]
    elif thing.kind.word in ALONG:
        yield from thing.tags(ALONG[thing.kind.word])


def _written(thing: Thing) -> bool:
    """Return whether a place on the grid was written, not worked from readings."""
    held = [one for name in ("x", "y") for one in thing.held(name)]
    known = thing.si("x") is not None and thing.si("y") is not None
    return known and not any(one.worked for one in held)
