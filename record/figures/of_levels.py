"""Level runs as they were booked, and places from tapes, worked again from their readings."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import nothing
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Happening, Held
from record.place.level_rows import booked, length_km
from record.place.levels import Known, LevelRun, level_runs
from record.place.tied import Taped, TiedPoint, tied_points
from record.readers import View
from record.words import tell

SIGHTS = ("intermediate", "foresight", "backsight")  # at a change point the foresight comes first


def of_level_runs(view: View) -> Iterator[Worked]:
    for run in level_runs(view.built):
        parts = (_opening(run), *_readings(run), *_closing(run), *_allowed(run))
        yield work("level-run", view.built.site, parts, what=tell("figures.run", name=run.name))


def _inner(run: LevelRun) -> bool:
    return run.benchmark is not None and run.benchmark.place != 0


def _opening(run: LevelRun) -> Fed | Missing:
    """Return the level of the first point: that of its mark, or worked back from one in mid-run."""
    if run.benchmark is None or not run.points:
        words = tell("figures.mark_known_level_in", name=run.name)
        return nothing(words, tell("figures.benchmark_with_its_level"))
    tag = run.benchmark.thing.tag
    how = f"{tag}, {run.points[0].row.words('point')}"
    if _inner(run):
        how = tell("figures.worked_back_from", tag=tag)
    level = run.points[0].reduced_m
    return Fed(key="opening", value=level, rests=_of_mark(run.benchmark), how=how)


def _of_mark(mark: Known) -> tuple[Held, ...]:
    return mark.thing.held("level")


def _readings(run: LevelRun) -> Iterator[Fed]:
    for row in run.rows:
        read = booked(row)
        said = {
            "intermediate": read.intermediate_m,
            "foresight": read.foresight_m,
            "backsight": read.backsight_m,
        }
        for sight in SIGHTS:
            value = said[sight]
            if value is not None:
                rests = row.held(sight)
                cells = {"sight": sight, "reading": value}
                yield Fed(key="reading", value=cells, rests=rests, how=row.words("point"))


def _closing(run: LevelRun) -> Iterator[Fed]:
    end = run.closed_on
    if end is not None and end.place == len(run.rows) - 1:
        yield Fed(key="closing", value=end.level_m, rests=_of_mark(end), how=end.thing.tag)


def _allowed(run: LevelRun) -> Iterator[Part]:
    length = length_km(run.rows)
    if length is not None:
        rests = tuple(held for row in run.rows for held in _distances(row))
        yield Fed(
            key="length", value=1000 * length, rests=rests, how=tell("figures.all_its_sights")
        )
    elif run.closed_on is not None:
        yield nothing(
            tell("figures.distances_level_run", name=run.name),
            tell("figures.column_distance_its_rows"),
        )
    stated = next((row for row in run.rows if row.si("allowed_over_1_km") is not None), None)
    if stated is not None:
        value = 1000 * float(stated.si("allowed_over_1_km") or 0)
        by = stated.words("allowed_from")
        yield Fed(key="k", value=value, rests=stated.held("allowed_over_1_km"), how=by)


def _distances(row: Happening) -> Iterator[Held]:
    yield from row.held("distance")
    yield from row.held("backsight_distance")


def of_ties(view: View) -> Iterator[Worked]:
    """Yield the place of every point that was taped from two landmarks or more."""
    for point in tied_points(view.built):
        if len(point.ties) > 1:
            notes = (*point.says, *_side(point))
            yield work("ties", point.tag or point.words, map(_tie, point.ties), notes=notes)


def _tie(tie: Taped) -> Fed:
    row = {"x": tie.x, "y": tie.y, "tape": tie.length_m, "tolerance": tie.tolerance_m}
    level = tie.tie.held("difference_of_level")
    rests = (*tie.landmark.held("x"), *tie.landmark.held("y"), *tie.tie.held("distance"), *level)
    how = f"{tie.landmark.tag}, {tie.tie.words('distance')}, {tie.tie.on}"
    return Fed(
        key="tie",
        value=row,
        rests=rests,
        how=tell("figures.brought_level", how=how) if level else how,
    )


def _side(point: TiedPoint) -> Iterator[str]:
    sides = sorted({tie.side for tie in point.ties} - {""})
    if len(point.ties) == 2 and sides:
        yield tell("figures.side_recorded", sides=", ".join(sides))
    if len(point.ties) == 2 and point.fix is not None:
        yield tell("figures.so_x_m_y", x_m=f"{point.fix.x_m:.3f}", y_m=f"{point.fix.y_m:.3f}")
