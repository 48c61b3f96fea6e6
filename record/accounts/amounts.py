"""Amounts as crews write them in words: how many of what, or how much by which measure."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from record.units import Dimension, UnitFault, in_both, read_quantity

MEASURES = (Dimension.LENGTH, Dimension.VOLUME, Dimension.MASS, Dimension.AREA)
COUNT = re.compile(r"(?P<number>[0-9]{1,6})(?:\s*(?:×\s*)?(?P<of>[^\W\d].*))?")


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a measure in its SI unit, or so many (``of`` None)."""

    number: Decimal
    of: Dimension | None = None

    @property
    def words(self) -> str:
        return f"{self.number:f}" if self.of is None else in_both(self.number, self.of)


def read_amount(text: str) -> Amount | None:
    """
    Return what an amount says, or None where it says nothing that can be added up.

    A number with a unit is a measure; a whole number, alone or with what it counts, is a count.

    >>> read_amount("24.00 m"), read_amount("12"), read_amount("2 cans"), read_amount("some")
    (Amount(number=Decimal('24'), of=<Dimension.LENGTH: 'length'>), \
Amount(number=Decimal('12'), of=None), Amount(number=Decimal('2'), of=None), None)
    """
    for dimension in MEASURES:
        try:
            return Amount(read_quantity(text, dimension).si, dimension)
        except UnitFault:
            continue
    found = COUNT.fullmatch(text.strip())
    return Amount(Decimal(found["number"])) if found else None
