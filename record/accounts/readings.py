"""A reading as it was written, read as a quantity where it says just one."""

from __future__ import annotations

import re

from record.units import Dimension, Quantity, UnitFault, read_quantity

MEASURES = (
    Dimension.LENGTH,
    Dimension.FLOW,
    Dimension.PRESSURE,
    Dimension.TEMPERATURE,
    Dimension.ROTATION,
    Dimension.VOLUME,
    Dimension.AREA,
    Dimension.MASS,
    Dimension.FORCE,
    Dimension.VOLTAGE,
    Dimension.POWER,
    Dimension.PERCENT,
    Dimension.DURATION,
)
#: Where a condition begins that the reading was taken under: "21 m³/h at 60 Pa".
CONDITION = re.compile(r"\s+(?:at|with|by|after|under)\s|[,;(]")


def read_reading(text: str) -> tuple[Quantity, Dimension] | None:
    """
    Return the quantity a reading states and what it is one of; None where words are all there is.

    A condition after it is left aside. Never guessed: what could be read as two things is None.

    >>> read_reading("21 m³/h at 60 Pa")[0].text, read_reading("45.95 m")[1].value
    ('21 m³/h', 'length')
    >>> read_reading("100 lb"), read_reading("5.0 L in, 4.8 L out"), read_reading("dry")
    (None, None, None)
    """
    for piece in dict.fromkeys((text.strip(), CONDITION.split(text.strip(), maxsplit=1)[0])):
        found = [each for dimension in MEASURES if (each := _read(piece, dimension))]
        if len(found) == 1:
            return found[0]
    return None


def _read(text: str, dimension: Dimension) -> tuple[Quantity, Dimension] | None:
    try:
        return read_quantity(text, dimension), dimension
    except UnitFault:
        return None
