"""Round scales, as they are marked on a scale rule, and round steps for an axis."""

import math

# Denominators in metres per metre; past the end they go on in steps of 1, 2 and 5.
_DENOMINATORS = (5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750)
_TIMES = (50, 20, 10, 5, 2, 1)


def round_scale(span_m: float, room_mm: float) -> int:
    """The largest round scale, as the n of 1:n, at which a span fits into the room.

    >>> round_scale(12.9, 140.0)
    100
    """
    least = span_m * 1000 / room_mm
    for denominator in _DENOMINATORS:
        if denominator >= least:
            return denominator
    power = int(10 ** math.floor(math.log10(least)))
    return next(n for n in (power, 2 * power, 5 * power, 10 * power) if n >= least)


def exaggeration(span_m: float, denominator: int, room_mm: float) -> int:
    """How many times heights are stretched against lengths: 1, 2, 5, 10, 20 or 50.

    >>> exaggeration(2.2, 100, 110.0)
    5
    """
    return next((n for n in _TIMES if span_m * 1000 / denominator * n <= room_mm), 1)


def step(span_m: float, most_ticks: int) -> float:
    """A step of 1, 2 or 5 times a power of ten that gives no more than so many ticks.

    >>> step(2.2, 6)
    0.5
    """
    rough = span_m / most_ticks
    power = 10.0 ** math.floor(math.log10(rough))
    return next(n * power for n in (1, 2, 5, 10) if n * power >= rough * (1 - 1e-9))
