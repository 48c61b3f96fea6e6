"""Lengths and levels on a drawing in metres and in feet, from one stored number.

Neither says more than was measured: what is known no better than a centimetre is told in
centimetres and half inches; what is known better, or nobody wrote how well, as it is stored: in
millimetres and sixteenths of an inch. Inches are never finer than the metres beside them.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from record.units import feet_and_inches

#: Decimals of a metre → the step in inches that is no finer: 1.6 mm and 12.7 mm.
STEPS_IN = {3: Fraction(1, 16), 2: Fraction(1, 2)}
COARSE_M = 0.01  # what is known no better is told in centimetres and in half inches


def in_metres(length_m: float, within_m: float | None = None, *, places: int = 3) -> str:
    """
    Return the number alone, in metres.

    >>> in_metres(47.812), in_metres(47.812, 0.02), in_metres(-0.0001)
    ('47.812', '47.81', '0.000')
    """
    words = f"{length_m:.{_places(within_m, places)}f}"
    return words.removeprefix("-") if float(words) == 0 else words


def in_feet(length_m: float, within_m: float | None = None, *, places: int = 3) -> str:
    r"""
    Return the same length in feet and inches.

    >>> in_feet(47.812), in_feet(47.812, 0.02)
    ('156\' 10 3/8"', '156\' 10 1/2"')
    """
    return feet_and_inches(Decimal(f"{length_m:.4f}"), STEPS_IN[_places(within_m, places)])


def both(length_m: float, within_m: float | None = None, *, places: int = 3) -> str:
    r"""
    Return a length in metres, and in feet and inches in brackets.

    >>> both(0.347), both(0.347, 0.02)
    ('0.347 m (1\' 1 11/16")', '0.35 m (1\' 1 1/2")')
    """
    metres = in_metres(length_m, within_m, places=places)
    return f"{metres} m ({in_feet(length_m, within_m, places=places)})"


def level(level_m: float, within_m: float | None = None) -> tuple[str, str]:
    r"""
    Return a level as it is called out beside its line: in metres, and in feet.

    >>> level(47.812)
    ('47.812 m', '156\' 10 3/8"')
    """
    return f"{in_metres(level_m, within_m)} m", in_feet(level_m, within_m)


def _places(within_m: float | None, most: int) -> int:
    """How many decimals of a metre a number has that is known within so much."""
    return most if within_m is None or within_m < COARSE_M else min(most, 2)
