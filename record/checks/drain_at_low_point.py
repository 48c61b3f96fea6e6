"""Every low point of a run has a drain, and it is known where the drain lets go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.calc.falls import Level, Sag, low_points, sags
from record.checks.finding import CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.pipes import AIR
from record.facts.values import Absent, in_words
from record.fold import Thing
from record.place import PlacedStation
from record.place.shots import carries_water, label, levelled, levels, millimetres


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find low points without a drain.

    In an air run every low point needs one, its ends too; a run that lets go at its own end
    needs one in each sag. What a run carries decides; if that is not recorded, it is held as air.
    """
    for run in hidden.runs:
        shots = levelled(hidden.placed(run))
        if len(shots) < 2:
            continue  # "every station levelled" holds it
        line = levels(shots)
        ponds = sags(line)
        for bottom in _bottoms(run, line, ponds):
            at = _flat(line, shots, bottom)
            drains = [drain for drain in hidden.serving(run) if _stands_at(drain, at)]
            pond = next((one for one in ponds if one.from_m < bottom < one.to_m), None)
            if not drains:
                yield _without(hidden, run, at[0], pond)
            elif not any(drain.text("discharges") for drain in drains):
                yield _nowhere(run, at[0], drains[0])


def _bottoms(run: Thing, line: Sequence[Level], ponds: Sequence[Sag]) -> tuple[float, ...]:
    carries = run.text("carries")
    if carries is None or carries in AIR:
        return low_points(line)
    return tuple(pond.chainage_m for pond in ponds)


def _flat(
    line: Sequence[Level], shots: Sequence[PlacedStation], bottom: float
) -> list[PlacedStation]:
    """Return the stations of one flat bottom; a drain at any of them will do."""
    first = next(place for place, one in enumerate(line) if one.chainage_m == bottom)
    last = first
    while last + 1 < len(line) and line[last + 1].invert_m == line[first].invert_m:
        last += 1
    return list(shots[first : last + 1])


def _stands_at(drain: Thing, stations: Sequence[PlacedStation]) -> bool:
    said = (drain.text("at_station") or "").strip().casefold()
    return any(said in (one.key.casefold(), label(one).casefold()) for one in stations)


def _without(hidden: Hidden, run: Thing, at: PlacedStation, pond: Sag | None) -> Finding:
    standing = (
        f"; water would stand {millimetres(pond.depth_m)} deep over {pond.length_m:.2f} m"
        if pond
        else ""
    )
    elsewhere = ", ".join(drain.tag for drain in hidden.serving(run))
    others = f" (its drains, {elsewhere}, are elsewhere)" if elsewhere else ""
    return RULE.finding(
        run.tag,
        f"no drain is recorded at its low point, station {label(at)}{standing}{others}",
        clears=(
            "## drain and its tag",
            f"- serves: {run.tag}",
            f"- at station: {at.key}",
            "- discharges: where it lets the water go",
        ),
        entries=(*run.entries(), *at.thing.entries()),
        sure=CERTAIN,
        stops=carries_water(run),
    )


def _nowhere(run: Thing, at: PlacedStation, drain: Thing) -> Finding:
    said = drain.value("discharges")
    return RULE.finding(
        run.tag,
        f"its low point, station {label(at)}, has drain {drain.tag}, but where that discharges "
        f"is {in_words(said)}",
        clears=(f"## drain {drain.tag}", "- discharges: where it lets the water go"),
        entries=(*drain.entries(), *at.thing.entries()),
        sure="cannot be told" if isinstance(said, Absent) else CERTAIN,
        stops=carries_water(run),
    )


RULE = Rule(
    word="drain at every low point",
    why=(
        "Damp air drops its water in a cold buried pipe, and it gathers at the lowest point. With "
        "no way out it fills the pipe until no air passes. A drain cannot be added under the fill."
    ),
    figures=("fall", "pond"),
    find=find,
)
