"""Levels from staff readings: both reductions, and the checks that a page holds in itself.

Each function takes sights as booked. Curvature, refraction and a line of sight that is out of
level cancel only where backsight and foresight are of one length; an intermediate sight has
nothing to cancel against, and no check here sees what is wrong with it in the ground.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.closing import Closure, adjusted_m, allowable_m, closure
from record.calc.level_book import (
    Fault,
    NotALevelBook,
    Row,
    book_of,
    refuse_bad_book,
    setup_numbers,
)

__all__ = [
    "Check",
    "Closure",
    "Fault",
    "NotALevelBook",
    "Row",
    "Sighted",
    "Stepped",
    "adjusted_m",
    "allowable_m",
    "book_of",
    "check_collimation",
    "check_page",
    "closure",
    "height_of_collimation",
    "opening_rl_m",
    "rise_and_fall",
    "setup_numbers",
]

_ROUNDING_M = 1e-6  # of sums in floating point; a page is kept to the millimetre


@dataclass(frozen=True, slots=True)
class Stepped:
    """One row of a page reduced by rise and fall. The first has neither."""

    point: str
    rise_m: float | None
    fall_m: float | None
    rl_m: float


@dataclass(frozen=True, slots=True)
class Sighted:
    """One row of a page reduced by height of collimation, None but where a backsight sets it."""

    point: str
    hpc_m: float | None
    rl_m: float


@dataclass(frozen=True, slots=True)
class Check:
    """Two sums of one page that must be the same."""

    what: str
    left_m: float
    right_m: float

    @property
    def holds(self) -> bool:
        return abs(self.left_m - self.right_m) <= _ROUNDING_M


def rise_and_fall(rows: Sequence[Row], opening_m: float) -> tuple[Stepped, ...]:
    """
    Return the reduced level of every point, from the one before it in the same set-up.

    Parameters
    ----------
    rows : sequence of Row
        The book. [m]
    opening_m : float
        Reduced level of the first point. [m]

    Raises
    ------
    NotALevelBook
        With every fault of the book, by row.
    ValueError
        If the opening level is not a number.

    Notes
    -----
    d = previous reading − this reading; RL = previous RL + d. At a change point the new
    backsight takes the foresight's place as previous reading [1]_.

    Examples
    --------
    >>> for one in rise_and_fall(book_of([[2.0, 1.5, 0.5], [1.75, 2.0]]), 100.0):
    ...     print(one.rise_m, one.fall_m, round(one.rl_m, 3))
    None None 100.0
    0.5 None 100.5
    1.0 None 101.5
    None 0.25 101.25

    References
    ----------
    .. [1] Ghilani & Wolf, Elementary Surveying, ch. 5 (chapter from memory).
    """
    _refuse(rows, opening_m)
    previous_m, level_m = rows[0].backsight_m, opening_m
    page = [Stepped(rows[0].point, None, None, opening_m)]
    for row in rows[1:]:
        assert previous_m is not None
        step_m = previous_m - _read(row)
        level_m += step_m
        rise_m, fall_m = (step_m, None) if step_m >= 0 else (None, -step_m)
        page.append(Stepped(row.point, rise_m, fall_m, level_m))
        previous_m = _read(row) if row.backsight_m is None else row.backsight_m
    return tuple(page)


def height_of_collimation(rows: Sequence[Row], opening_m: float) -> tuple[Sighted, ...]:
    """
    Return the reduced level of every point, from the height of the line of sight.

    Parameters and errors as for `rise_and_fall`.

    Notes
    -----
    HPC = RL + BS; RL = HPC − IS, or HPC − FS [1]_. An inverted staff is read negative, and so
    comes out above the line of sight.

    Examples
    --------
    >>> for one in height_of_collimation(book_of([[2.0, -1.5, 0.5], [1.8, 1.0]]), 100.0):
    ...     print(one.hpc_m, round(one.rl_m, 3))
    102.0 100.0
    None 103.5
    103.3 101.5
    None 102.3

    References
    ----------
    .. [1] Ghilani & Wolf, Elementary Surveying, ch. 5 (chapter from memory).
    """
    _refuse(rows, opening_m)
    hpc_m = math.nan
    page = []
    for place, row in enumerate(rows):
        level_m = hpc_m - _read(row) if place else opening_m
        if row.backsight_m is not None:
            hpc_m = level_m + row.backsight_m
        page.append(Sighted(row.point, hpc_m if row.backsight_m is not None else None, level_m))
    return tuple(page)


def opening_rl_m(rows: Sequence[Row], place: int, known_m: float) -> float:
    """
    Return the level of the first point where the benchmark is the one at ``place``.  [m]

    ``place`` counts from 0. Errors as for `rise_and_fall`, and IndexError off the book.

    Examples
    --------
    >>> round(opening_rl_m(book_of([[2.0, 1.5, 0.5]]), 1, 100.5), 3)
    100.0
    """
    return known_m - rise_and_fall(rows, 0.0)[place].rl_m


def check_page(rows: Sequence[Row], page: Sequence[Stepped]) -> tuple[Check, ...]:
    """
    Return the arithmetic checks of a page reduced by rise and fall, by hand or by `rise_and_fall`.

    ΣBS − ΣFS = Σrises − Σfalls = last RL − first RL [1]_. The second sees a slip in an
    intermediate; neither sees a reading that was booked wrongly.

    Raises
    ------
    NotALevelBook, ValueError
        If the book is none, or the page is empty.

    Examples
    --------
    >>> rows = book_of([[2.0, 1.5, 0.5], [1.8, 1.0]])
    >>> [one.holds for one in check_page(rows, rise_and_fall(rows, 100.0))]
    [True, True]

    References
    ----------
    .. [1] A rise and fall worksheet and its worked example, zerdly.com.
    """
    refuse_bad_book(rows)
    if not page:
        raise ValueError("an empty page has no levels to check")
    readings_m = _backsights_less_foresights(rows)
    steps_m = math.fsum((one.rise_m or 0.0) - (one.fall_m or 0.0) for one in page)
    levels_m = page[-1].rl_m - page[0].rl_m
    return (
        Check("ΣBS − ΣFS = Σrises − Σfalls", readings_m, steps_m),
        Check("Σrises − Σfalls = last RL − first RL", steps_m, levels_m),
    )


def check_collimation(rows: Sequence[Row], page: Sequence[Sighted]) -> tuple[Check, ...]:
    """
    Return the arithmetic checks of a page reduced by height of collimation.

    ΣBS − ΣFS = last RL − first RL does not see the intermediates. The second check does: the
    sum of all levels but the first = Σ(each HPC × the sights less its BS) − (ΣIS + ΣFS). It is
    RL = HPC − reading, summed over the page; common practice, no source.

    Raises
    ------
    NotALevelBook, ValueError
        If the book is none, or the page has not one row for each of the book's.

    Examples
    --------
    >>> rows = book_of([[2.0, 1.5, 0.5], [1.8, 1.0]])
    >>> [one.holds for one in check_collimation(rows, height_of_collimation(rows, 100.0))]
    [True, True]
    """
    refuse_bad_book(rows)
    if len(page) != len(rows):
        raise ValueError(f"the book has {len(rows)} rows and the page {len(page)}")
    hpcs_m, last_m = [], page[0].hpc_m
    for one in page[1:]:
        hpcs_m.append(math.nan if last_m is None else last_m)
        last_m = last_m if one.hpc_m is None else one.hpc_m
    levels_m = math.fsum(one.rl_m for one in page[1:])
    sights_m = math.fsum(hpcs_m) - math.fsum(_read(row) for row in rows[1:])
    return (
        Check(
            "ΣBS − ΣFS = last RL − first RL",
            _backsights_less_foresights(rows),
            page[-1].rl_m - page[0].rl_m,
        ),
        Check("ΣRL but the first = Σ(HPC × sights) − (ΣIS + ΣFS)", levels_m, sights_m),
    )


def _read(row: Row) -> float:
    """Return the reading that fixes a point, an intermediate sight or foresight."""
    reading_m = row.foresight_m if row.intermediate_m is None else row.intermediate_m
    assert reading_m is not None
    return reading_m


def _backsights_less_foresights(rows: Sequence[Row]) -> float:
    return math.fsum((row.backsight_m or 0.0) - (row.foresight_m or 0.0) for row in rows)


def _refuse(rows: Sequence[Row], opening_m: float) -> None:
    refuse_bad_book(rows)
    if not math.isfinite(opening_m):
        raise ValueError(f"an opening level of {opening_m} m is not a number")
