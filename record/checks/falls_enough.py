"""A run falls at least as much as its designer, or the code, asks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from record.calc.least_fall import least_fall
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.how_sure import how_sure
from record.entry import Entry
from record.facts.values import Absent, Why, in_words
from record.fold import Thing
from record.place.shots import (
    Stretch,
    carries_water,
    fall_table,
    falls_to,
    millimetres,
    said_not_to_fall,
    stretches,
)

ROUNDING_M = 1e-6
USE = {"condensate": "condensate", "drain water": "drain"}


@dataclass(frozen=True, slots=True)
class Least:
    """The least fall: as a ratio, in words, whose figure, and whether the run states it."""

    slope: float
    words: str
    source: str
    stated: bool


def least_of(run: Thing) -> Least | None:
    """Return the least fall the run states, else the code's for its use; None if neither is."""
    stated = run.quantity("least_fall")
    if stated is not None:
        return Least(float(stated.si), stated.text, run.words("least_fall_from"), True)
    use, size = USE.get(run.text("carries") or ""), run.si("size") or run.si("inside_diameter")
    if use is None or size is None:
        return None
    code = least_fall(use, float(size))
    return Least(code.slope, code.printed, code.source, False)


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find runs flatter than their least fall, and runs whose least fall nobody wrote."""
    for run in hidden.runs:
        if not carries_water(run) or said_not_to_fall(run):
            continue
        placed = hidden.placed(run)
        found = stretches(placed, falls_to(run, placed))
        least = least_of(run)
        if least is None or not least.stated:
            yield from _not_stated(run, least)
        if least is not None:
            yield from _flat(run, least, found)


def _not_stated(run: Thing, least: Least | None) -> Iterator[Finding]:
    value = run.value("least_fall")
    ruled_out = isinstance(value, Absent) and value.why in (Why.NONE, Why.NOT_APPLICABLE)
    if ruled_out and run.text("carries") is not None:
        return
    instead = f"; held against {least.words} instead ({least.source})" if least else ""
    write = _per_foot(least.slope) if least else "the figure its designer gives"
    yield RULE.finding(
        run.tag,
        f"its least fall is {in_words(value)}{instead}",
        clears=(
            f"## run {run.tag}",
            f"- least fall: {write}",
            f"- least fall from: {least.source if least else 'whose figure it is'}",
        ),
        entries=run.entries(),
        sure=CANNOT_BE_TOLD,
    )


def _per_foot(slope: float) -> str:
    """Return a code's figure as a sheet takes it: 1/48 is "1/4 in/ft"."""
    return f"{Fraction(slope * 12).limit_denominator(64)} in/ft"


def _flat(run: Thing, least: Least, found: Sequence[Stretch]) -> Iterator[Finding]:
    falling = [one for one in found if one.drop_m > 0]
    short = [one for one in falling if _spare_m(one, least) < -ROUNDING_M]
    doubtful = [one for one in falling if one not in short and _doubtful(one, least)]
    for some, stops in ((short, True), (doubtful, False)):
        if not some:
            continue
        proved = any(_proved(one, least) for one in some)
        yield RULE.finding(
            run.tag,
            "; ".join(_said(one, least) for one in some),
            clears=(
                *how_sure(end for one in some for end in (one.here, one.there)),
                "shoot the length again with more care; if it lies too flat, relay it and write",
                f"the new levels under ## run {run.tag}",
            ),
            entries=(*run.entries(), *_of(some)),
            sure=CERTAIN if stops and proved else CANNOT_BE_TOLD,
            stops=stops,
            shows=fall_table(found),
        )


def _of(some: Sequence[Stretch]) -> Iterator[Entry]:
    for one in some:
        yield from one.here.thing.entries()
        yield from one.there.thing.entries()


def _spare_m(one: Stretch, least: Least) -> float:
    """Return by how much the drop is more than the least drop of this length."""
    return one.drop_m - least.slope * one.length_m


def _doubtful(one: Stretch, least: Least) -> bool:
    """Return whether the shots' tolerance could hide a fall below the least."""
    tolerance = one.fall.tolerance_m
    return tolerance is None or _spare_m(one, least) < tolerance - ROUNDING_M


def _proved(one: Stretch, least: Least) -> bool:
    tolerance = one.fall.tolerance_m
    return tolerance is not None and -_spare_m(one, least) > tolerance


def _said(one: Stretch, least: Least) -> str:
    tolerance = one.fall.tolerance_m
    known = "" if tolerance is None else f" ± {millimetres(tolerance)}"
    short = _spare_m(one, least) < -ROUNDING_M
    verdict = "less than" if short else "and with its tolerance it may be less than"
    return (
        f"{one.words}, {one.length_m:.2f} m: drops {millimetres(one.drop_m)}{known} "
        f"({one.slope * 100:.2f} %), {verdict} {least.words} ({least.source})"
    )


RULE = Rule(
    word="pipe falls enough",
    why=(
        "A pipe laid nearly flat has no fall to spare: a little settling under the fill turns it "
        "into backfall, and what it should carry off stays in it."
    ),
    figures=("fall", "least-fall"),
    find=find,
)
