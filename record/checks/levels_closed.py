"""Levels come from a run that closed, and the sheet says what the level book says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.entry import Entry
from record.facts.values import Level, in_words
from record.fold import AsBuilt, Thing
from record.place import LevelRun, PlacedStation, level_runs
from record.place.accuracy import accuracy
from record.place.level_rows import GROUND
from record.place.levels import LevelPoint, benchmark_tolerance_m
from record.place.shots import label

GROUND_M = 0.05  # of the surface a staff stands on, where no tolerance is written; no source


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find books that are none or do not close, and levels that are not what the book says."""
    tags = {part.tag for thing in hidden.everything() for part in (thing, *thing.parts)}
    for run in level_runs(hidden.built):
        about = [point for point in run.points if point.staff.tag in tags]
        words = [row.text("of") or row.text("point") or "" for row in run.rows]
        if about or (not run.points and any(_names(hidden, word) for word in words)):
            yield from _book(run, about[0].staff.tag.partition("/")[0] if about else words[0])
            for point in about:
                yield from _against_sheet(hidden, run, point)


def _names(hidden: Hidden, words: str) -> bool:
    first = words.partition(" ")[0].partition("/")[0].casefold()
    return any(thing.tag.casefold() == first for thing in hidden.everything())


def _book(run: LevelRun, about: str) -> Iterator[Finding]:
    """Say what is wrong with the run itself; a run that does not close is kept, and flagged."""
    for number, says in (*run.faults, *run.slips):
        yield _warn(about, f"run {run.name}, row {number}, {says}", run.rows[number - 1].entries())
    for says in run.sums:
        yield _warn(about, f"run {run.name}: {says}", _entries(run))
    if not run.faults and not run.closes:
        yield RULE.finding(
            about,
            run.words,
            clears=(
                "close the run again on a mark of known level while the trench is open:",
                "## levelled, with the distance to the staff in every row",
            ),
            entries=_entries(run),
            sure=CERTAIN if run.closes is False else CANNOT_BE_TOLD,
            stops=False,
        )


def _warn(about: str, says: str, entries: Iterable[Entry]) -> Finding:
    clears = ("read the book again, and mend the row: ## levelled, - mends:",)
    return RULE.finding(about, says, clears=clears, entries=entries, stops=False)


def _entries(run: LevelRun) -> tuple[Entry, ...]:
    return tuple(entry for row in run.rows for entry in row.entries())


@dataclass(frozen=True, slots=True)
class Written:
    """The level a sheet gives for what a staff was held on, and how sure it is. Metres."""

    where: str
    level_m: float
    tolerance_m: float
    words: str
    thing: Thing


def _against_sheet(hidden: Hidden, run: LevelRun, point: LevelPoint) -> Iterator[Finding]:
    written = _written(hidden, point)
    if written is None:
        return
    shared = _other_marks_m(hidden.built, run, written.thing)
    apart = written.level_m - point.level_m
    if abs(apart) <= written.tolerance_m + point.own_m + shared:
        return
    number, whole = point.row.entry.number, written.thing.tag.partition("/")[0]
    yield RULE.finding(
        whole,
        f"{written.where}: the book says {point.staff.on} {point.level_m:.3f} m ({number}), the "
        f"sheet {written.words}; {abs(apart) * 1000:.0f} mm apart",
        clears=(
            "look which level the staff was held on and shoot it again; then mend what is wrong:",
            f"## {hidden.built.things[whole].kind.word} {whole} or ## levelled, - mends: and",
            "- because:",
        ),
        entries=(*point.row.entries(), *written.thing.entries()),
    )


def _written(hidden: Hidden, point: LevelPoint) -> Written | None:
    """Return what the sheets say of a levelled point; None where it was worked from this book."""
    whole, slash, _ = point.staff.tag.partition("/")
    for run in hidden.runs if slash else ():
        for station in hidden.placed(run) if run.tag == whole else ():
            if station.thing.tag == point.staff.tag:
                return _of_station(station, point.staff.on)
    thing = next((t for t in hidden.everything() if t.tag == point.staff.tag), None)
    level = thing.value("level") if thing else None
    if thing is None or not isinstance(level, Level) or level.part != point.staff.on:
        return None
    if _worked(thing, "level"):
        return None
    tolerance = accuracy(thing).vertical_m
    return Written(thing.tag, float(level.height.si), tolerance, in_words(level), thing)


def _of_station(station: PlacedStation, on: str) -> Written | None:
    thing, where = station.thing, label(station)
    if on == GROUND:
        said = thing.quantity("ground")
        if said is None or _worked(thing, "ground"):
            return None
        tolerance = GROUND_M if said.tol is None else float(said.tol)
        return Written(where, float(said.si), tolerance, f"ground {said.text}", thing)
    parts = {"invert": station.invert_m, "centre": station.centre_m, "crown": station.crown_m}
    metres, value = parts.get(on), thing.value("level")
    if metres is None or not isinstance(value, Level) or _worked(thing, "level"):
        return None
    from_other = "" if value.part == on else f", worked from {in_words(value)}"
    words = f"{on} {metres:.3f} m{from_other}"
    return Written(where, metres, station.accuracy.vertical_m, words, thing)


def _worked(thing: Thing, name: str) -> bool:
    return any(held.worked for held in thing.held(name))


def _other_marks_m(built: AsBuilt, run: LevelRun, thing: Thing) -> float:
    """Return what two benchmarks add where the sheet names another than the run was worked from.

    Points of one benchmark share its tolerance, and it cancels.
    """
    how = (thing.text("how") or "").casefold()
    marks = [mark for mark in built.of_kind("benchmark") if mark.tag.casefold() in how]
    base = run.benchmark
    if base is None or not marks or any(mark.tag == base.thing.tag for mark in marks):
        return 0.0
    return base.tolerance_m + max(benchmark_tolerance_m(mark)[0] for mark in marks)


RULE = Rule(
    word="levels from a closed run",
    why=(
        "A staff read a decimetre wrong looks like any other reading until the run comes back to "
        "a mark of known level. And a crown written down as an invert is found by the book alone."
    ),
    figures=("level-run",),
    find=find,
)
