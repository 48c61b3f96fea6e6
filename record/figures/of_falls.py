"""How every run falls as it was levelled, what water stands in it, and the least fall by a code."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from record.calc.falls import Level, Sag, sags
from record.facts.values import Part
from record.figures.along import Along, level_rests, no_level, no_place, place_rests, runs, too_few
from record.figures.feeding import field, in_words
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.place import PlacedStation
from record.place.shots import falls_to, label, levelled, levels, said_not_to_fall
from record.readers import View

USES = {"condensate": "condensate", "drain water": "drain"}  # what a code's table is asked for


def of_falls(view: View) -> Iterator[Worked]:
    for along in runs(view):
        if not said_not_to_fall(along.run):
            yield from _falls(along)


def _falls(along: Along) -> Iterator[Worked]:
    run = along.run
    missing = list(too_few(along))
    for one in along.stations:
        missing += [*no_place(one), *no_level(run, one, Part.INVERT)]
    shots = levelled(along.stations)
    worked = levels(shots)
    parts: list[Fed | Missing] = [
        *(_station(run, shot, level) for shot, level in zip(shots, worked, strict=True)),
        *missing,
    ]
    yield work("fall", run.tag, parts, notes=_order(along))
    if not missing and len(worked) > 1:
        for sag in sags(worked):
            yield _pond(run, shots, worked, sag)


def _station(run: Thing, shot: PlacedStation, level: Level) -> Fed:
    row: dict[str, Any] = {"chainage": level.chainage_m, "invert": level.invert_m}
    if level.tolerance_m is not None:
        row["tolerance"] = level.tolerance_m
    rests = (*place_rests(shot), *level_rests(run, shot, Part.INVERT))
    return Fed(key="station", value=row, rests=rests, how=label(shot))


def _order(along: Along) -> Iterator[str]:
    """Yield which way the lengths are told, and to where the run is said to fall."""
    if len(along.stations) < 2:
        return
    low = falls_to(along.run, along.stations)
    first, last = label(along.stations[0]), label(along.stations[-1])
    to = f"falling to {label(low)}" if low else f"falling to: {along.run.words('falls_to')}"
    yield f"told from {first} to {last}; recorded as {to}"


def _pond(run: Thing, shots: Sequence[PlacedStation], worked: Sequence[Level], sag: Sag) -> Worked:
    beside = [
        shot
        for shot, level in zip(shots, worked, strict=True)
        if sag.from_m - 1e-6 <= level.chainage_m <= sag.to_m + 1e-6
    ]
    rests = tuple(held for shot in beside for held in level_rests(run, shot, Part.INVERT))
    return work(
        "pond",
        run.tag,
        (
            Fed(key="crest", value=sag.pond_level_m, rests=rests, how="the lower end of the sag"),
            Fed(key="bottom", value=sag.invert_m, rests=rests, how="its lowest shot"),
        ),
        what=f"at {sag.chainage_m:.2f} m",
        notes=("a pour into it is not fed: a test has its litres in words",),
    )


def of_least_falls(view: View) -> Iterator[Worked]:
    for along in runs(view):
        run = along.run
        use = USES.get(run.text("carries") or "")
        if use is not None:
            carries = Fed(key="use", value=use, rests=run.held("carries"))
            yield work(
                "least-fall", run.tag, (carries, field(run, "size", "size")), notes=_own(run)
            )


def _own(run: Thing) -> Iterator[str]:
    if run.si("least_fall") is not None:
        said = in_words(run, "least_fall")
        yield f"recorded for it: {said}, {run.words('least_fall_from')}"
