"""A run that joins outside and inside has a check valve, at its low end if that is inside."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.place import HullFrame, PlacedStation
from record.place.shots import carries_water, falls_to, label

ONE_WAY = ("check", "flap", "overpressure")
THROUGH_WALL_M = 0.15  # a station "at the wall" stands this near the outside of the plate


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find runs between outside and inside without a valve that shuts by itself."""
    for run in hidden.runs:
        placed = hidden.placed(run)
        if not carries_water(run) or _wholly_outside(hidden, run, placed):
            continue
        valves = [valve for valve in hidden.on_run(run) if valve.text("type") in ONE_WAY]
        low = low_end(run, placed)
        if not valves:
            yield _none(hidden, run, low)
        elif low is not None and inside(hidden, run, placed, low) is not False:
            yield from _elsewhere(run, low, valves)


def _ends(placed: Sequence[PlacedStation]) -> list[PlacedStation]:
    return [placed[0], placed[-1]] if placed else []


def _wholly_outside(hidden: Hidden, run: Thing, placed: Sequence[PlacedStation]) -> bool:
    ends = _ends(placed)
    return bool(ends) and all(inside(hidden, run, placed, end) is False for end in ends)


def inside(
    hidden: Hidden, run: Thing, placed: Sequence[PlacedStation], end: PlacedStation
) -> bool | None:
    """Return whether an end lies in a hull or at its wall; None where that cannot be told."""
    words = [end.name]
    if end is placed[0]:
        words.append(run.text("from") or "")
    if end is placed[-1]:
        words.append(run.text("to") or "")
    if end.hull or any(re.search(r"\bhull\b", said.casefold()) for said in words):
        return True
    hulls = hidden.view.hulls
    if end.x is None or end.y is None or len(hulls) < sum(1 for _ in hidden.built.of_kind("hull")):
        return None
    x, y = end.x, end.y
    return any(_near(hull, x, y, end.accuracy.horizontal_m) for hull in hulls.values())


def _near(hull: HullFrame, x: float, y: float, tolerance_m: float) -> bool:
    a, across, _ = hull.to_hull((x, y, hull.origin[2]))
    out_a = max(-a, a - hull.length_m, 0.0)
    out_l = max(-across, across - hull.width_m, 0.0)
    return math.hypot(out_a, out_l) <= hull.plate_m + THROUGH_WALL_M + tolerance_m


def low_end(run: Thing, placed: Sequence[PlacedStation]) -> PlacedStation | None:
    """Return the end the run falls to: the lower as shot, else as it is said."""
    ends = _ends(placed)
    shot = [end for end in ends if end.invert_m is not None]
    if len(shot) == 2 and shot[0].invert_m != shot[1].invert_m:
        return min(shot, key=lambda end: end.invert_m or 0.0)
    return falls_to(run, placed)


def _none(hidden: Hidden, run: Thing, low: PlacedStation | None) -> Finding:
    doubtful = [valve for valve in hidden.on_run(run) if valve.text("type") is None]
    where = f", low end at station {label(low)}" if low else ""
    said = "no valve that shuts by itself (check, flap or overpressure) is recorded on it"
    if doubtful:
        said += f"; of what type {', '.join(v.tag for v in doubtful)} is, was not recorded"
    return RULE.finding(
        run.tag,
        said + where,
        clears=(
            "## valve and its tag",
            "- type: check",
            f"- on run: {run.tag}",
            f"- at station: {low.key if low else 'the station of its low end'}",
        ),
        entries=(*run.entries(), *(entry for valve in doubtful for entry in valve.entries())),
        sure=CANNOT_BE_TOLD if doubtful else CERTAIN,
    )


def _elsewhere(run: Thing, low: PlacedStation, valves: Sequence[Thing]) -> Iterator[Finding]:
    at = {valve.tag: (valve.text("at_station") or "").strip().casefold() for valve in valves}
    if any(where in (low.key.casefold(), label(low).casefold()) for where in at.values()):
        return
    said = ", ".join(f"{valve.tag} at station {valve.words('at_station')}" for valve in valves)
    yield RULE.finding(
        run.tag,
        f"its low end, station {label(low)}, is inside, and no valve is recorded there: {said}",
        clears=(f"## valve {valves[0].tag}", f"- at station: {low.key}"),
        entries=(*low.thing.entries(), *(entry for v in valves for entry in v.entries())),
        sure=CERTAIN if all(at.values()) else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="check valve at the low end",
    why=(
        "A pipe between the ground and the room is a way in for water, smoke and blown air. If "
        "the outside end drowns or burns, only a valve that shuts by itself, without a hand or "
        "power, keeps it out."
    ),
    find=find,
)
