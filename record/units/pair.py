"""Two units written together: feet with inches, hours with minutes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from record.units.dimension import Dimension
from record.units.number import Number
from record.units.table import Unit, unit_of


@dataclass(frozen=True, slots=True)
class Pair:
    """A larger unit, the smaller one that may follow it, and how many of it make one."""

    big: str
    small: str
    count: int
    first: re.Pattern[str]  # the larger unit's mark, up to where the smaller number begins
    second: re.Pattern[str]

    def value(self, larger: Number, smaller: Number, dimension: Dimension) -> tuple[Fraction, Unit]:
        """Return both as one number in the SI unit. A minus before the pair is for the whole."""
        big, small = unit_of(self.big, dimension), unit_of(self.small, dimension)
        if big is None or small is None:
            raise LookupError(f"{self.big} and {self.small} are not both units of {dimension}")
        size = abs(larger.value) * big.factor + smaller.value * small.factor
        return (-size if larger.negative else size), big


PAIRS = {
    Dimension.LENGTH: Pair(
        "ft",
        "in",
        12,
        re.compile(r"\s*(?:'(?!')|ft\.?|foot|feet)\s*-?\s*(?=[0-9.])", re.IGNORECASE),
        re.compile(r"\"|''|in\.?|inch|inches", re.IGNORECASE),
    ),
    Dimension.DURATION: Pair(
        "h",
        "min",
        60,
        re.compile(r"\s*(?:h|hrs?|hours?)\s*(?=[0-9.])", re.IGNORECASE),
        re.compile(r"mins?|minutes?", re.IGNORECASE),
    ),
}
