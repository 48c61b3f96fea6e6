"""A measured value as the crew wrote it, and the fault of one that cannot be read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

DIGITS_KEPT = 12


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in its SI unit, beside the crew's own words for it.

    ``si`` is exact wherever a decimal can be: feet and inches down to any half, quarter, 1/16
    or 1/64. What no decimal ends (1/3 in, 70 °F, psi) is rounded to 12 significant digits.
    """

    si: Decimal
    unit: str  # "m", "degC", "1" for a ratio; see Dimension.si_unit
    text: str  # the whole cell as written, stripped
    tol: Decimal | None = None  # ± at 95 %, in the same unit; None is "not stated"
    estimated: bool = False  # written with a leading ~


class UnitFault(ValueError):
    """A value that cannot be read: what is wrong, what to write instead, and where.

    ``start`` and ``end`` are offsets of code points within the text that was given, from 0;
    ``end`` is one past the last.
    """

    def __init__(self, problem: str, remedy: str, start: int, end: int) -> None:
        super().__init__(problem)
        self.problem, self.remedy, self.start, self.end = problem, remedy, start, end


def to_decimal(value: Fraction) -> Decimal:
    """Return ``value`` exactly if a decimal can hold it, else to 12 significant digits.

    The result has no idle zeros, so that one value has one text.

    >>> to_decimal(Fraction(9, 16) * Fraction("0.0254"))
    Decimal('0.0142875')
    >>> to_decimal(Fraction(1, 3))
    Decimal('0.333333333333')
    """
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest == 1:
        places = max(twos, fives)
        return _plain(value.numerator * (10**places // value.denominator), places)
    places = _places_for(value)
    return _plain(round(value * 10**places), places)


def rounded(value: Fraction, places: int) -> Decimal:
    """Return ``value`` to that many decimal places, a half going away from zero."""
    scaled = abs(value) * 10**places
    whole = int(scaled + Fraction(1, 2))
    return _decimal(-whole if value < 0 else whole, places)


def whole_digits(value: Fraction) -> int:
    """Return how many digits stand before the point; 0.05 has -1, zero has 1.

    >>> [whole_digits(Fraction(x)) for x in ("123", "1", "0.5", "0.05", "0")]
    [3, 1, 0, -1, 1]
    """
    if value == 0:
        return 1
    size, count = abs(value), 0
    while size >= 1:
        size, count = size / 10, count + 1
    while size * 10 < 1:
        size, count = size * 10, count - 1
    return count


def _places_for(value: Fraction) -> int:
    return max(DIGITS_KEPT - whole_digits(value), 0)


def _decimal(whole: int, places: int) -> Decimal:
    # Built from text: arithmetic would round to the context's 28 digits.
    return Decimal(f"{whole}E-{places}")


def _plain(whole: int, places: int) -> Decimal:
    while places > 0 and whole % 10 == 0:
        whole, places = whole // 10, places - 1
    return _decimal(whole, places)
