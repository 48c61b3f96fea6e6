"""Fields that hold what was measured: a number, a number with its unit, a level of a pipe."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal

from record.facts.faults import ValueFault
from record.facts.values import Level, Part, Value
from record.units import Dimension, Quantity, UnitFault, read_quantity

NUMBER = re.compile(r"(~)? ?([0-9]{1,9}(?:\.[0-9]{1,9})?)(?: ?± ?([0-9]{1,9}(?:\.[0-9]{1,9})?))?")
_PARTS = frozenset(Part)


@dataclass(frozen=True, slots=True)
class Number:
    """A number that has no unit, such as a loss coefficient; ± and ~ as for what is measured."""

    says = "a number without a unit, such as 0.45"

    def read(self, text: str, unit: str | None = None) -> Value:
        found = NUMBER.fullmatch(text.strip())
        if found is None:
            raise ValueFault(f'"{text}" is not a number alone', "Write a number, such as 0.45.")
        about, number, tolerance = found.groups()
        return Quantity(
            si=Decimal(number),
            unit="1",
            text=text.strip(),
            tol=None if tolerance is None else Decimal(tolerance),
            estimated=bool(about),
        )


@dataclass(frozen=True, slots=True)
class Measure:
    """A measured value with its unit."""

    dimension: Dimension

    @property
    def says(self) -> str:
        return f"{self.dimension.value} with its unit"

    def read(self, text: str, unit: str | None = None) -> Value:
        try:
            return _with_its_unit(read_quantity(text, self.dimension, column_unit=unit), unit)
        except UnitFault as fault:
            raise ValueFault(fault.problem, fault.remedy, fault.start, fault.end) from fault


def _with_its_unit(quantity: Quantity, unit: str | None) -> Quantity:
    """Give a bare number from a table the unit of its column: alone, it would say nothing."""
    number, sign, tolerance = quantity.text.partition("±")
    if unit is None or re.search(r"[^\W\d_]|['\"%°:/′″’”]", number):
        return quantity
    text = f"{number.rstrip()} {unit}" + (f" ± {tolerance.strip()}" if sign else "")
    return replace(quantity, text=text)


@dataclass(frozen=True, slots=True)
class PipeLevel:
    """A level of a pipe: "crown 98.612 m", or a column headed invert, centre or crown."""

    says = "invert, centre or crown, and the level with its unit"

    def read(self, text: str, unit: str | None = None) -> Value:
        word, rest = (*text.split(None, 1), "", "")[:2]
        if word.casefold() not in _PARTS:
            raise ValueFault(
                f'"{text}" does not say which level of the pipe it is',
                'Write "invert", "centre" or "crown" before it, such as "crown 98.612 m".',
            )
        skipped = len(text.rstrip()) - len(rest.rstrip())
        try:
            height = read_quantity(rest.strip(), Dimension.LENGTH, column_unit=unit)
            height = _with_its_unit(height, unit)
        except UnitFault as fault:
            raise ValueFault(
                fault.problem, fault.remedy, fault.start + skipped, fault.end + skipped
            ) from fault
        return Level(Part(word.casefold()), height)


length = Measure(Dimension.LENGTH)
