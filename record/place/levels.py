"""Level runs → reduced, checked, closed and adjusted levels, and how sure each of them is.

**Tolerance of a levelled point**, at 95 %. Of its own: the readings between it and the benchmark
the run is worked from, √(2i) × `READING_M` for a point i set-ups away, and what the run is out by.
A run that closes within k√K is adjusted, and the correction is taken as one more independent
doubt (root sum square). A run that does not close is not adjusted, for a blunder is not to be
shared out; its misclosure is added in full. A run that came back to nothing known has no check
on a staff read a decimetre wrong: it is worth no less than `OPEN_M`.

The benchmark's own tolerance is kept apart: points of one benchmark share it, so it cancels
between them; against a point of another it adds in full.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from record.calc.combine import root_sum_square
from record.calc.levelling import (
    NotALevelBook,
    Row,
    adjusted_m,
    allowable_m,
    check_collimation,
    check_page,
    height_of_collimation,
    rise_and_fall,
    setup_numbers,
)
from record.entry import Entry
from record.fold import AsBuilt, Happening, Thing
from record.place.bygone import Bygone
from record.place.level_rows import Staff, booked, books, length_km, named, staff, steps_apart
from record.words import tell, term

READING_M = 0.002  # one reading of a staff; common practice, no source
OPEN_M = 0.10  # of a run that was never closed; a declared default, no source
K_MM = 12.0
K_FROM = "third order, Surveyor-General of South Australia"
#: Of a benchmark that says no tolerance and is not the datum itself: NAVFAC's figure for as-built
#: utility surveys, ± 25 mm (read in a secondary page).
BENCHMARK_NOT_KNOWN_M = 0.025


@dataclass(frozen=True, slots=True)
class Known:
    """A mark of known level met in a run. ``tolerance_m`` is 0 for the datum's own mark."""

    place: int  # its row, from 0
    thing: Thing
    level_m: float
    tolerance_m: float
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelPoint:
    """One point of a run: its level as booked and as adjusted, and its tolerance. Metres."""

    row: Happening
    staff: Staff
    reduced_m: float
    level_m: float
    own_m: float  # against other points of the same benchmark
    entries: tuple[Entry, ...]  # what it rests on: its readings, the marks' levels


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelRun:
    """
    One run. ``faults`` are (row counted from 1, what is wrong); then there are no levels.

    ``slips`` are rows where the crew's own page disagrees with its readings. ``misclosure_m`` is
    levelled less known; None where it came back to no known mark.
    """

    name: str
    rows: tuple[Happening, ...]
    points: tuple[LevelPoint, ...] = ()
    faults: tuple[tuple[int, str], ...] = ()
    slips: tuple[tuple[int, str], ...] = ()
    sums: tuple[str, ...] = ()  # arithmetic checks of the page that fail
    benchmark: Known | None = None
    closed_on: Known | None = None
    misclosure_m: float | None = None
    allowed_m: float | None = None
    allowed_words: str = ""

    @property
    def closes(self) -> bool | None:
        """Whether it came back within what is allowed; None is "cannot be told"."""
        if self.misclosure_m is None or self.allowed_m is None:
            return None
        return abs(self.misclosure_m) <= self.allowed_m + 1e-9

    @property
    def words(self) -> str:
        """What a level of this run rests on, in a line."""
        if self.benchmark is None:
            return tell("place.levelled_run_from_no", name=self.name)
        start = tell("place.levelled_run_from", name=self.name, tag=self.benchmark.thing.tag)
        return f"{start}, {self.closing_words}"

    @property
    def closing_words(self) -> str:
        if self.misclosure_m is None or self.closed_on is None:
            return tell("place.never_closed_on_known")
        out = tell(
            "place.mm_on",
            misclosure_m=f"{self.misclosure_m * 1000:+.0f}",
            tag=self.closed_on.thing.tag,
        )
        if self.allowed_m is None:
            return tell("place.came_back_how_much", out=out)
        allowed = math.floor(self.allowed_m * 10_000 + 1e-6) / 10  # never more than is allowed
        verdict = "closed" if self.closes else "does_not_close"
        return tell(f"place.allowed.{verdict}", out=out, allowed=f"{allowed:.1f}")


def level_runs(
    built: AsBuilt, wanted: Callable[[Staff], bool] | None = None
) -> tuple[LevelRun, ...]:
    """
    Return every level run of the record, reduced by both methods; in the order of their days.

    ``wanted`` leaves out the runs none of whose points it is true of.
    """
    bygone = Bygone(built)
    return tuple(
        _run(built, bygone, rows)
        for rows in books(built)
        if wanted is None or any(wanted(staff(built, row)) for row in rows)
    )


def _run(built: AsBuilt, bygone: Bygone, rows: tuple[Happening, ...]) -> LevelRun:
    first = rows[0]
    name = first.text("run_name") or tell("place.of", on=first.on, number=first.entry.number)
    book = tuple(map(booked, rows))
    try:
        steps = rise_and_fall(book, 0.0)
    except NotALevelBook as fault:
        faults = tuple((one.row, f"{one.point}: {one.what}; {one.instead}") for one in fault.faults)
        return LevelRun(name=name, rows=rows, faults=faults)
    marks = tuple(_known(built, bygone, rows))
    base = marks[0] if marks else None
    shift = base.level_m - steps[base.place].rl_m if base else 0.0
    levels = [one.rl_m + shift for one in steps]
    end = next((mark for mark in reversed(marks) if base and mark.place != base.place), None)
    out = None if end is None else levels[end.place] - end.level_m
    allowed, words = _allowed(rows)
    run = LevelRun(
        name=name,
        rows=rows,
        slips=tuple(steps_apart(rows, levels)),
        sums=tuple(_sums(book, levels[0])),
        benchmark=base,
        closed_on=end,
        misclosure_m=out,
        allowed_m=allowed,
        allowed_words=words,
    )
    return _with_points(built, run, book, levels)


def _sums(book: Sequence[Row], opening_m: float) -> Iterator[str]:
    """Yield the arithmetic checks that do not hold, by either method, and levels that differ."""
    stepped, sighted = rise_and_fall(book, opening_m), height_of_collimation(book, opening_m)
    for check in (*check_page(book, stepped), *check_collimation(book, sighted)):
        if not check.holds:
            yield tell(
                "place.against",
                what=check.what,
                left_m=f"{check.left_m:.4f}",
                right_m=f"{check.right_m:.4f}",
            )
    for one, other in zip(stepped, sighted, strict=True):
        if abs(one.rl_m - other.rl_m) > 1e-6:
            yield tell(
                "place.by_rise_and_fall",
                point=one.point,
                rl_m=f"{one.rl_m:.4f}",
                rl_m_2=f"{other.rl_m:.4f}",
            )


def _known(built: AsBuilt, bygone: Bygone, rows: Sequence[Happening]) -> Iterator[Known]:
    for place, row in enumerate(rows):
        tag, _ = named(built, row.text("of") or row.text("point") or "")
        thing = bygone.thing(tag, row.on, ("level",)) if tag else None
        if thing is None or thing.kind.word not in ("benchmark", "landmark"):
            continue
        level = thing.quantity("level")
        if level is None:
            continue
        yield Known(place, thing, float(level.si), *benchmark_tolerance_m(thing))


def benchmark_tolerance_m(mark: Thing) -> tuple[float, bool]:
    """Return the tolerance of a mark's level on the site datum, and whether it is assumed.

    The mark that makes the datum has none: its level is so by definition.
    """
    level = mark.quantity("level")
    if level is not None and level.tol is not None:
        return float(level.tol), False
    if "datum" in (mark.text("how") or "").casefold():
        return 0.0, False
    return BENCHMARK_NOT_KNOWN_M, True


def _allowed(rows: Sequence[Happening]) -> tuple[float | None, str]:
    """Return the misclosure allowed, k√K, and whose k it is."""
    stated = next(((row, q) for row in rows if (q := row.quantity("allowed_over_1_km"))), None)
    k_mm, source = K_MM, K_FROM
    if stated is not None:
        k_mm, source = float(stated[1].si) * 1000, stated[0].words("allowed_from")
    length = length_km(rows)
    words = tell("place.mm_km", k_mm=f"{k_mm:g}", source=term(source))
    return (None if length is None or k_mm <= 0 else allowable_m(k_mm, length)), words


def _with_points(
    built: AsBuilt, run: LevelRun, book: Sequence[Row], levels: Sequence[float]
) -> LevelRun:
    """Return the run with its points: adjusted where it closes, with each one's tolerance."""
    base = run.benchmark
    if base is None:
        return run
    numbers = setup_numbers(book)
    away = [max(0, number - numbers[base.place]) for number in numbers]
    shares = _corrections(run, away, levels)
    points = tuple(
        LevelPoint(
            row=row,
            staff=staff(built, row),
            reduced_m=level,
            level_m=level - share,
            own_m=_own_m(run, _setups(book, numbers, base.place, place), share),
            entries=_rests_on(run, place),
        )
        for place, (row, level, share) in enumerate(zip(run.rows, levels, shares, strict=True))
    )
    return LevelRun(
        **{name: getattr(run, name) for name in LevelRun.__slots__ if name != "points"},
        points=points,
    )


def _corrections(run: LevelRun, away: Sequence[int], levels: Sequence[float]) -> Sequence[float]:
    """Return what is taken off each level: its share by set-ups, nothing where none closed."""
    end = run.closed_on
    if not run.closes or end is None or run.misclosure_m is None or away[end.place] == 0:
        return [0.0] * len(levels)
    up_to = [min(one, away[end.place]) for one in away]
    span = adjusted_m(levels, _ending(up_to), run.misclosure_m)
    return [level - adjusted for level, adjusted in zip(levels, span, strict=True)]


def _ending(along: Sequence[int]) -> list[int]:
    """Return places that never go back: rows before the benchmark stand at it."""
    return [max(along[: place + 1]) for place in range(len(along))]


def _setups(book: Sequence[Row], numbers: Sequence[int], one: int, other: int) -> int:
    """Return how many set-ups of the instrument lie between two rows; two readings each."""
    if one == other:
        return 0

    def from_(place: int) -> set[int]:
        ahead = {numbers[place] + 1} if book[place].backsight_m is not None else set()
        return ahead | ({numbers[place]} if numbers[place] else set())

    return min(abs(a - b) for a in from_(one) for b in from_(other)) + 1


def _own_m(run: LevelRun, setups: int, share_m: float) -> float:
    read = READING_M * math.sqrt(2 * setups)
    if run.closes:
        return root_sum_square(read, share_m)
    out = run.misclosure_m
    return max(read, OPEN_M) if out is None else read + abs(out)


def _rests_on(run: LevelRun, place: int) -> tuple[Entry, ...]:
    """Return the entries of a level: its row, those that carry the line, the marks' levels."""
    rows = [
        row for at, row in enumerate(run.rows) if at == place or row.si("backsight") is not None
    ]
    if run.closed_on is not None:
        rows.append(run.rows[run.closed_on.place])
    found = {entry.hash: entry for row in rows for entry in row.entries()}
    for mark in (run.benchmark, run.closed_on):
        if mark is not None:
            found.update({held.entry.hash: held.entry for held in mark.thing.held("level")})
    return tuple(sorted(found.values(), key=lambda entry: entry.order))
