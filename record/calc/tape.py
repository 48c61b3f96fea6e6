"""Tapes: what is level of a slope, and what a tie is worth."""

from __future__ import annotations

import math

from record.calc.combine import root_sum_square

__all__ = ["horizontal_m", "tape_tolerance_m"]

_TAPE_MM = {"I": (0.1, 0.1), "II": (0.3, 0.2), "III": (0.6, 0.4)}  # a, b


def horizontal_m(slope_m: float, rise_m: float) -> float:
    """
    Return the horizontal length of a tape held on the slope, √(s² − Δh²).  [m]

    Parameters
    ----------
    slope_m : float
        As taped. [m]
    rise_m : float
        Difference of level of the two ends, either sign. [m]

    Raises
    ------
    ValueError
        If the ends are not less far apart in level than along the tape.

    Notes
    -----
    Pythagoras. Sag, pull and temperature are not taken off.

    Examples
    --------
    By hand, √(72.25 − 1.44):

    >>> round(horizontal_m(8.50, 1.20), 5)
    8.41487
    """
    if not abs(rise_m) < slope_m < math.inf:
        raise ValueError(f"a tape of {slope_m} m cannot reach {rise_m} m up")
    return math.sqrt(slope_m**2 - rise_m**2)


def tape_tolerance_m(length_m: float, accuracy_class: str, holding_m: float) -> float:
    """
    Return the tolerance of a tie, of the tape and of how it was held.  [m]

    Parameters
    ----------
    length_m : float
        Of the tie. [m]
    accuracy_class : 'I', 'II' or 'III'
        Printed on the tape.
    holding_m : float
        Of finding the mark, holding and reading, ± at 95 %; sag and pull too. [m]

    Raises
    ------
    ValueError
        If the class is another, or a number is negative or none.

    Notes
    -----
    The largest permitted error of the tape is ±(a + bL) mm, L being rounded up to the next whole
    metre: a, b are 0.1, 0.1 for class I, 0.3, 0.2 for II, 0.6, 0.4 for III [1]_. Taken as its
    tolerance at 95 %, and added by root sum square. One tape for all ties shares its error, so
    ties that agree do not prove it.

    Examples
    --------
    By hand, class II at 14.142 m: 0.3 + 0.2 × 15 = 3.3 mm.

    >>> round(tape_tolerance_m(14.142, "II", 0.0) * 1000, 3)
    3.3

    References
    ----------
    .. [1] Directive 2014/32/EU, annex X (MI-008), chapter I, table 1; the same in UK S.I.
       2016/1153, schedule 1I.
    """
    if accuracy_class not in _TAPE_MM:
        raise ValueError(f"class {accuracy_class!r} is none of I, II, III")
    if not 0 < length_m < math.inf:
        raise ValueError(f"a length of {length_m} m must be above 0")
    fixed_mm, per_m_mm = _TAPE_MM[accuracy_class]
    return root_sum_square((fixed_mm + per_m_mm * math.ceil(length_m)) / 1000, holding_m)
