"""A run falls the right way in each of its lengths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.how_sure import how_sure
from record.facts.values import in_words
from record.fold import Thing
from record.place import PlacedStation
from record.place.shots import (
    Stretch,
    carries_water,
    fall_table,
    falls_to,
    label,
    millimetres,
    said_not_to_fall,
    stretches,
)


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find runs with backfall, and those of which the fall cannot be told."""
    for run in hidden.runs:
        if not carries_water(run) or said_not_to_fall(run):
            continue
        placed = hidden.placed(run)
        low_end = falls_to(run, placed)
        found = stretches(placed, low_end)
        if not found:
            continue  # "every station levelled" holds it
        if low_end is None:
            yield _no_low_end(run, placed, found)
        elif bad := [one for one in found if one.verdict != "falls"]:
            yield _backfall(run, low_end, bad, found)


def _no_low_end(run: Thing, placed: Sequence[PlacedStation], found: Sequence[Stretch]) -> Finding:
    said = in_words(run.value("falls_to"))
    stations = ", ".join(label(one) for one in placed)
    return RULE.finding(
        run.tag,
        f"which way it should fall cannot be told: falls to is {said}, and its stations are "
        f"{stations}",
        clears=(f"## run {run.tag}", "- falls to: the number of the station it falls to"),
        entries=run.all_entries(),
        sure=CANNOT_BE_TOLD,
        shows=fall_table(found),
    )


def _backfall(
    run: Thing, low_end: PlacedStation, bad: Sequence[Stretch], found: Sequence[Stretch]
) -> Finding:
    certain = any(one.verdict != "cannot be told" for one in bad)
    touched = [station.thing for one in bad for station in (one.here, one.there)]
    return RULE.finding(
        run.tag,
        "; ".join(_said(one, low_end) for one in bad),
        clears=(
            *how_sure(end for one in bad for end in (one.here, one.there)),
            "shoot both ends of the length again; if the pipe lies wrong, relay it and write the",
            f"new levels under ## run {run.tag}; if the book was wrong, mend the station:",
            "- mends: the entry's number",
            "- because: what was wrong",
        ),
        entries=(
            *(held.entry for held in run.held("falls_to")),
            *(entry for thing in touched for entry in thing.entries()),
        ),
        sure=CERTAIN if certain else CANNOT_BE_TOLD,
        shows=fall_table(found),
    )


def _said(one: Stretch, low_end: PlacedStation) -> str:
    length = f"{one.words}, {one.length_m:.2f} m"
    if one.verdict == "rises":
        return (
            f"{length}: backfall of {millimetres(-one.drop_m)} ({-one.slope * 100:.2f} %), "
            f"where it should fall to {label(low_end)}"
        )
    if one.verdict == "level":
        return f"{length}: level, where it should fall to {label(low_end)}"
    tolerance = one.fall.tolerance_m
    known = "without a tolerance" if tolerance is None else f"± {millimetres(tolerance)}"
    return f"{length}: a drop of {millimetres(one.drop_m)} {known}, so which way cannot be told"


RULE = Rule(
    word="pipe falls the right way",
    why=(
        "Where a pipe rises against its flow, water stands in it: it narrows or shuts the way of "
        "the air, it freezes, and it rots. Under the fill it can only be put right by digging."
    ),
    figures=("fall",),
    find=find,
)
