"""Levels of which nobody wrote how sure they are: what to write, so that they can be judged."""

from __future__ import annotations

from collections.abc import Iterable

from record.facts.values import Level
from record.place import PlacedStation
from record.place.accuracy import NOT_KNOWN_M
from record.place.shots import millimetres


def how_sure(placed: Iterable[PlacedStation]) -> tuple[str, ...]:
    """Return what to type for levels that count as not known; nothing where each has its own."""
    stations = {one.thing.tag: one for one in placed}
    lines = tuple(line for one in stations.values() for line in _amend(one))
    if not lines:
        return ()
    each = f"± {millimetres(NOT_KNOWN_M)}"
    return (
        f"nobody wrote how sure these levels are, so each counts as {each}; write it where you",
        "know it, such as ± 5 mm of a staff or a rotating laser:",
        *lines,
    )


def _amend(one: PlacedStation) -> Iterable[str]:
    held = one.thing.held("level")
    level = one.thing.value("level")
    unsure = one.accuracy.vertical_m == NOT_KNOWN_M
    if not (unsure and held and isinstance(level, Level) and level.height.tol is None):
        return
    said = f"{level.part.value}={level.height.text} ± 5 mm"
    entry = held[-1].entry
    words = f'asburied amend {entry.number} "{said}" --because "± was left out"'
    yield f"{words} --writer {entry.link.writer}"
