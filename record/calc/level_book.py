"""The page of a level run as booked: one row a staff position, and what makes it no book."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

__all__ = ["Fault", "NotALevelBook", "Row", "book_of", "refuse_bad_book", "setup_numbers"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One staff position. A change point has a foresight and the next set-up's backsight.

    A staff held upside down against a soffit is booked as a negative reading.
    """

    point: str
    backsight_m: float | None = None
    intermediate_m: float | None = None
    foresight_m: float | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one row of a book."""

    row: int  # counted from 1
    point: str
    what: str
    instead: str

    def __str__(self) -> str:
        return f"row {self.row} ({self.point}): {self.what}; {self.instead}"


class NotALevelBook(ValueError):
    """The rows are not a level run; ``faults`` holds every reason, in the order of the rows."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__("\n".join(map(str, faults)))
        self.faults = tuple(faults)


def book_of(setups: Sequence[Sequence[float]], points: Sequence[str] = ()) -> tuple[Row, ...]:
    """
    Return the book of readings listed by set-up of the instrument.

    The first reading of a set-up is its backsight, the last its foresight, the rest are
    intermediate. The last point of a set-up is the first of the next.

    Parameters
    ----------
    setups : sequence of sequence of float
        Readings in the order taken, at least two a set-up. [m]
    points : sequence of str
        A name for each point; 1, 2, 3 ... if none are given.

    Raises
    ------
    NotALevelBook
        If a set-up has fewer than two readings, or a reading is not a number.
    ValueError
        If there are names, but not one for each point.

    Examples
    --------
    >>> for row in book_of([[2.0, 1.5, 0.5], [1.8, 1.0]]):
    ...     print(row.point, row.backsight_m, row.intermediate_m, row.foresight_m)
    1 2.0 None None
    2 None 1.5 None
    3 1.8 None 0.5
    4 None None 1.0
    """
    short = [
        Fault(number, f"set-up {number}", f"has {len(one)} reading(s)", "take a BS and an FS")
        for number, one in enumerate(setups, 1)
        if len(one) < 2
    ]
    if short:
        raise NotALevelBook(short)
    count = sum(len(one) - 1 for one in setups) + 1
    names = list(points) or [str(number) for number in range(1, count + 1)]
    if len(names) != count:
        raise ValueError(f"{count} points were levelled, and {len(names)} are named")
    rows = tuple(_rows(setups, iter(names)))
    refuse_bad_book(rows)
    return rows


def _rows(setups: Sequence[Sequence[float]], names: Iterator[str]) -> Iterator[Row]:
    foresight_m = None
    for backsight_m, *between, last in setups:
        yield Row(point=next(names), backsight_m=backsight_m, foresight_m=foresight_m)
        for reading_m in between:
            yield Row(point=next(names), intermediate_m=reading_m)
        foresight_m = last
    if foresight_m is not None:
        yield Row(point=next(names), foresight_m=foresight_m)


def refuse_bad_book(rows: Sequence[Row]) -> None:
    """
    Raise `NotALevelBook` with every fault, unless ``rows`` are a level run.

    A run opens with a backsight alone and ends with a foresight alone. Between them each row is
    an intermediate sight alone, or a change point with both a foresight and a backsight.

    Examples
    --------
    >>> refuse_bad_book([Row(point="BM1", backsight_m=1.4), Row(point="CP1", backsight_m=1.1),
    ...                  Row(point="BM2", foresight_m=1.0)])
    Traceback (most recent call last):
    record.calc.level_book.NotALevelBook: row 2 (CP1): backsight 1.1 with no foresight, two \
backsights running; book the foresight that was read on it before the instrument moved
    """
    if len(rows) < 2:
        last = rows[0].point if rows else "none"
        lone = f"the book ends after {len(rows)} row(s)"
        raise NotALevelBook([Fault(len(rows), last, lone, "a run needs a BS and an FS")])
    found = [fault for number in range(len(rows)) for fault in _faults(rows, number)]
    if found:
        raise NotALevelBook(found)


def setup_numbers(rows: Sequence[Row]) -> tuple[int, ...]:
    """
    Return from which set-up each point was levelled, counted from 1; 0 for the opening point.

    A change point belongs to the set-up of its foresight.

    Examples
    --------
    >>> setup_numbers(book_of([[2.0, 1.5, 0.5], [1.8, 1.0]]))
    (0, 1, 1, 2)
    """
    refuse_bad_book(rows)
    setups, numbers = 0, []
    for row in rows:
        numbers.append(setups)
        setups += row.backsight_m is not None
    return tuple(numbers)


def _faults(rows: Sequence[Row], place: int) -> Iterator[Fault]:
    row = rows[place]
    readings = {
        "backsight": row.backsight_m,
        "intermediate sight": row.intermediate_m,
        "foresight": row.foresight_m,
    }
    for name, reading_m in readings.items():
        if reading_m is not None and not math.isfinite(reading_m):
            yield Fault(place + 1, row.point, f"{name} {reading_m} is not a number", "read again")
    booked = {name: reading_m for name, reading_m in readings.items() if reading_m is not None}
    wrong = _wrong(booked, first=place == 0, last=place == len(rows) - 1)
    if wrong:
        yield Fault(place + 1, row.point, *wrong)


def _wrong(booked: dict[str, float], *, first: bool, last: bool) -> tuple[str, str] | None:
    """Return what is wrong with the readings of one row, and what to book instead."""
    words = " and ".join(f"{name} {reading_m}" for name, reading_m in booked.items()) or "nothing"
    kinds = set(booked)
    if first:
        fine, instead = [{"backsight"}], "open with the backsight on the first point, alone"
    elif last:
        fine, instead = [{"foresight"}], "end with the foresight on the last point, alone"
    else:
        fine = [{"intermediate sight"}, {"backsight", "foresight"}]
        instead = "book an intermediate sight alone, or the FS and BS of a change point"
    if kinds in fine:
        return None
    if kinds == {"backsight"} and not last:
        return (
            f"{words} with no foresight, two backsights running",
            "book the foresight that was read on it before the instrument moved",
        )
    if kinds == {"foresight"} and not first:
        return (
            f"{words} with no backsight, and the run goes on",
            "book the backsight read on it after the move, or an intermediate sight",
        )
    return f"{words} booked", instead
