"""How every run falls as it was levelled, what water stands in it, and the least fall by a code."""

from __future__ import annotations

import re
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
from record.units import Dimension, UnitFault, read_quantity
from record.words import tell

#: A volume that went in or came out: "5.0 L in", "4.8 out".
POURED = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(L|litres?|mL|gal|qt)? (in|out)\b")
USES = {"condensate": "condensate", "drain water": "drain"}  # what a code's table is asked for


def of_falls(view: View) -> Iterator[Worked]:
    for along in runs(view):
        if not said_not_to_fall(along.run):
            yield from _falls(view, along)


def _falls(view: View, along: Along) -> Iterator[Worked]:
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
    poured = tuple(_pour(view, run))
    found = () if missing or len(worked) < 2 else sags(worked)
    for sag in found:
        yield _pond(run, shots, worked, sag, poured)
    if poured and not found:
        held = "" if missing else tell("figures.no_sag_at_stations")
        yield work("pond", run.tag, poured, what="by a pour", notes=filter(None, (held,)))


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
    to = (
        tell("figures.falling_to", low=label(low))
        if low
        else tell("figures.falling_to_2", falls_to=along.run.words("falls_to"))
    )
    yield tell("figures.told_from_to_recorded", first=first, last=last, to=to)


def _pour(view: View, run: Thing) -> Iterator[Fed]:
    """Yield what the newest pour into a run took and gave back, where both stand in its words."""
    for one in reversed(tuple(view.built.about(run.tag, "tested", "reading taken"))):
        title = one.text("test") or one.text("what") or ""
        read = pour(one.text("reading") or "")
        if one.about == run.tag and "pour" in title.casefold() and read is not None:
            how = f"{title}, {one.on}"
            for key, value in zip(("poured", "returned"), read, strict=True):
                yield Fed(key=key, value=value, rests=one.held("reading"), how=how)
            return


def pour(said: str) -> tuple[float, float] | None:
    """
    Return what went in and what came out, in m³; None where not just these two stand there.

    >>> pour("5.0 L in, 4.8 L out"), pour("5.0 in, 3.6 out, litres"), pour("dry")
    ((0.005, 0.0048), (0.005, 0.0036), None)
    """
    found = POURED.findall(said)
    units = {unit for _, unit, _ in found if unit} or set(re.findall(r"\b(?:litres?|L)\b", said))
    if [way for _, _, way in found] != ["in", "out"] or len(units) != 1:
        return None
    (unit,) = units
    try:
        went, came = (
            float(read_quantity(f"{number} {own or unit}", Dimension.VOLUME).si)
            for number, own, _ in found
        )
    except UnitFault:
        return None
    return went, came


def _pond(
    run: Thing,
    shots: Sequence[PlacedStation],
    worked: Sequence[Level],
    sag: Sag,
    poured: tuple[Fed, ...],
) -> Worked:
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
            Fed(
                key="crest", value=sag.pond_level_m, rests=rests, how=tell("figures.lower_end_sag")
            ),
            Fed(key="bottom", value=sag.invert_m, rests=rests, how=tell("figures.its_lowest_shot")),
            *poured,
        ),
        what=tell("figures.at_m", chainage_m=f"{sag.chainage_m:.2f}"),
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
        yield tell("figures.recorded_for", said=said, least_fall_from=run.words("least_fall_from"))
