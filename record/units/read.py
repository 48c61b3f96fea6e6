"""Reading a quantity: ["~"] number unit ["±" number unit].

A crew writes feet and inches, metres and millimetres side by side. Each is read exactly, and
whatever could be read two ways is refused with the words to write instead.
"""

from __future__ import annotations

import re
from fractions import Fraction

from record.units.dimension import Dimension
from record.units.fold import Folded, fold
from record.units.number import Number, NumberFault, number_at, why_not
from record.units.pair import PAIRS, Pair
from record.units.quantity import Quantity, UnitFault, to_decimal
from record.units.table import NEVER_NEGATIVE, Unit, unit_of
from record.units.words import (
    ABOUT,
    AGAIN,
    DITTO,
    GUESSES,
    REMEDY,
    TOLERANCE,
    short,
    wrong_unit,
)

_TOLERANCE = re.compile(r"±|\+\s*/\s*-|\+-")
_LONGEST = 200  # code points; no quantity is longer, and no reader should have to wade
_RATIO = re.compile(r"(?P<sign>[+-]?)(?P<rise>[0-9.]+)\s*(?::|in)\s*(?P<run>[0-9.]+)")
_ABSOLUTE_ZERO = Fraction("-273.15")


def read_quantity(text: str, dimension: Dimension, *, column_unit: str | None = None) -> Quantity:
    r"""Return the quantity that ``text`` states.

    Parameters
    ----------
    text : str
        One cell or value as written; blanks at its ends do not count.
    dimension : Dimension
        What it is to be a quantity of.
    column_unit : str, optional
        The unit in a table heading. It holds for a bare number, never for a tolerance.

    Raises
    ------
    UnitFault
        If it cannot be read, or could be read two ways.

    Examples
    --------
    >>> read_quantity("7' 4-1/2\"", Dimension.LENGTH).si
    Decimal('2.2479')
    >>> q = read_quantity("~98.612 ± 5 mm", Dimension.LENGTH, column_unit="m")
    >>> q.si, q.tol, q.estimated
    (Decimal('98.612'), Decimal('0.005'), True)
    >>> read_quantity("1:96", Dimension.SLOPE).si
    Decimal('0.0104166666667')
    """
    return _Reader(text, dimension, column_unit).quantity()


def read_unit(text: str, dimension: Dimension) -> str:
    """Return this program's name for the unit in a column heading. Raises UnitFault.

    >>> read_unit("feet", Dimension.LENGTH)
    'ft'
    """
    unit = unit_of(fold(text).text, dimension)
    if unit is None:
        raise UnitFault(wrong_unit(text.strip(), dimension), REMEDY[dimension], 0, len(text))
    return unit.name


class _Reader:
    """One text being read. Offsets are into the folded text until a fault leaves here."""

    def __init__(self, text: str, dimension: Dimension, column_unit: str | None) -> None:
        self.original = text
        self.folded: Folded = fold(text)
        self.plain = self.folded.text
        self.dimension = dimension
        self.column_unit = column_unit
        self._bare = column_unit is None  # so that nothing but its own words gives its unit
        self.remedy = REMEDY[dimension]

    def quantity(self) -> Quantity:
        start, end = self._stripped(0, len(self.plain))
        self._refuse_no_value(start, end)
        estimated = self.plain[start] == "~"
        head, tail = self._split(start + estimated, end)
        si, unit = self._measure(*head)
        tol = self._tolerance(*tail, unit) if tail else None
        self._refuse_impossible(si, *head)
        return Quantity(
            si=to_decimal(si),
            unit=unit.si or self.dimension.si_unit,
            text=self.original.strip(),
            tol=None if tol is None else to_decimal(tol),
            estimated=estimated,
        )

    def fault(self, problem: str, start: int, end: int, remedy: str | None = None) -> UnitFault:
        first, last = self.folded.span(start, end)
        return UnitFault(problem, remedy or self.remedy, first, last)

    def _stripped(self, start: int, end: int) -> tuple[int, int]:
        while end > start and self.plain[end - 1].isspace():
            end -= 1
        while start < end and self.plain[start].isspace():
            start += 1
        return start, end

    def _refuse_no_value(self, start: int, end: int) -> None:
        words = self.plain[start:end]
        if end - start > _LONGEST:
            raise self.fault("this is too long for a value", start, end)
        if not words:
            raise self.fault("a blank is not a value", 0, len(self.plain), AGAIN)
        if words.casefold() in DITTO:
            raise self.fault(f"{words} is not a value", start, end, AGAIN)

    def _split(self, start: int, end: int) -> tuple[tuple[int, int], tuple[int, int] | None]:
        marks = list(_TOLERANCE.finditer(self.plain, start, end))
        if not marks:
            return self._stripped(start, end), None
        if len(marks) > 1:
            raise self.fault(
                "a second ±", *marks[1].span(), "Write one tolerance, such as 2.25 m ± 5 mm."
            )
        return self._stripped(start, marks[0].start()), self._stripped(marks[0].end(), end)

    def _measure(self, start: int, end: int) -> tuple[Fraction, Unit]:
        """Return the value in the SI unit, and the unit it was written in."""
        if self.dimension is Dimension.SLOPE and (ratio := self._ratio(start, end)) is not None:
            return ratio, Unit("1:n", Fraction(1))
        number = self._number(start, end)
        spelling = self.plain[number.end : end]
        if unit := unit_of(spelling, self.dimension):
            return unit.in_si(number.value), unit
        if pair := self._pair(number, start, end):
            return pair
        if spelling.strip():
            raise self._bad_unit(start, number.end, end)
        if not number.value and self.dimension is Dimension.LENGTH and self._bare:
            return Fraction(0), Unit("m", Fraction(1))  # no length is none in any unit
        unit = self._unit_of_column(start, end)
        return unit.in_si(number.value), unit

    def _number(self, start: int, end: int) -> Number:
        try:
            return number_at(self.plain[:end], start)
        except NumberFault as refusal:
            piece = self.plain[start:end]
            odd = why_not(piece)
            if refusal.problem:
                raise self.fault(
                    refusal.problem, refusal.start, refusal.end, refusal.remedy
                ) from None
            if odd:
                raise self.fault(
                    odd.problem, start + odd.start, start + odd.end, odd.remedy
                ) from None
            if not piece:
                raise self.fault("there is no number", 0, len(self.plain)) from None
            word = re.match(r"\S+", piece)
            length = word.end() if word else len(piece)
            shown = short(self._as_written(start, start + length))
            about = ABOUT if shown.casefold() in GUESSES else None
            raise self.fault(f"{shown} is not a number", start, start + length, about) from None

    def _pair(self, larger: Number, start: int, end: int) -> tuple[Fraction, Unit] | None:
        """Read 7'-4 1/2", 6 ft 4 in or 1 h 30 min; None if this is no such pair."""
        pair = PAIRS.get(self.dimension)
        mark = pair.first.match(self.plain, larger.end, end) if pair else None
        if not (pair and mark):
            return None
        smaller = self._number(mark.end(), end)
        rest = self.plain[smaller.end : end].strip()
        shown = self._as_written(mark.end(), smaller.end)
        if not rest:
            raise self.fault(f"{shown} has no unit", mark.end(), smaller.end)
        if not pair.second.fullmatch(rest):
            raise self._bad_pair(smaller, end, pair)
        if not larger.whole:
            raise self.fault(
                f"{self._as_written(start, larger.end)} {pair.big} is not whole, "
                f"with {pair.small} after it",
                start,
                larger.end,
            )
        if smaller.value >= pair.count:
            problem = f"{shown} {pair.small} beside {pair.big} is {pair.count} or more"
            remedy = f"Write the {pair.big} and {pair.small} again, or {pair.small} alone."
            raise self.fault(problem, mark.end(), smaller.end, remedy)
        return pair.value(larger, smaller, self.dimension)

    def _bad_pair(self, smaller: Number, end: int, pair: Pair) -> UnitFault:
        first, last = self._stripped(smaller.end, end)
        if unit_of(self.plain[first:last], self.dimension):
            shown = self._as_written(first, last)
            return self.fault(f'"{shown}" after {pair.big} is not {pair.small}', first, last)
        return self._bad_unit(first, first, last)

    def _bad_unit(self, start: int, unit_start: int, end: int) -> UnitFault:
        piece = self.plain[start:end]
        odd = why_not(piece)
        if odd:
            return self.fault(odd.problem, start + odd.start, start + odd.end, odd.remedy)
        first, last = self._stripped(unit_start, end)
        shown = self._as_written(first, last)
        return self.fault(wrong_unit(shown, self.dimension), first, last)

    def _unit_of_column(self, start: int, end: int) -> Unit:
        shown = short(self._as_written(start, end))
        if self.column_unit is None:
            raise self.fault(f"{shown} has no unit", start, end)
        unit = unit_of(fold(self.column_unit).text, self.dimension)
        if unit is None:
            wrong = wrong_unit(self.column_unit.strip(), self.dimension)
            raise self.fault(
                f"{shown} stands in a column whose unit cannot be read: {wrong}", start, end
            )
        return unit

    def _tolerance(self, start: int, end: int, beside: Unit) -> Fraction:
        if start >= end:
            raise self.fault("nothing follows the ±", start - 1, start, TOLERANCE)
        self._bare = False
        self.column_unit, self.remedy = None, TOLERANCE  # a heading's unit never holds here
        size, unit = self._measure(start, end)
        size -= unit.offset
        if size <= 0:
            shown = self._as_written(start, end)
            raise self.fault(f"± {shown} is not a tolerance", start, end)
        if unit.si != beside.si:
            raise self.fault("a tolerance in another unit of the calendar", start, end)
        return size

    def _ratio(self, start: int, end: int) -> Fraction | None:
        found = _RATIO.fullmatch(self.plain, start, end)
        if not found:
            return None
        run = self._number(*found.span("run")).value
        if Fraction(1) != self._number(*found.span("rise")).value or run == 0:
            raise self.fault(
                f"{self._as_written(start, end)} could be rise to run or run to rise",
                start,
                end,
                "Write 1:96 for 1 down in 96 along, or a slope in %.",
            )
        return -1 / run if found["sign"] == "-" else 1 / run

    def _refuse_impossible(self, si: Fraction, start: int, end: int) -> None:
        shown = short(self._as_written(start, end))
        if si < 0 and self.dimension in NEVER_NEGATIVE:
            raise self.fault(f"{shown} is less than nothing", start, end)
        if self.dimension is Dimension.TEMPERATURE and si < _ABSOLUTE_ZERO:
            raise self.fault(f"{shown} is below absolute zero", start, end)
        if self.dimension is Dimension.INTERVAL and si.denominator != 1:
            raise self.fault(f"{shown} is not a whole number of months or days", start, end)
        if self.dimension is Dimension.INTERVAL and si == 0:
            raise self.fault(f"{shown} never comes round", start, end)

    def _as_written(self, start: int, end: int) -> str:
        first, last = self.folded.span(start, end)
        return self.original[first:last].strip()
