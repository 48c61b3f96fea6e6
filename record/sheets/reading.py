"""What a block says while it is read: its values, and the faults so far."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass, replace
from difflib import get_close_matches

from record.facts import Kind
from record.facts.faults import ValueFault, with_article
from record.facts.fields import Field, read_absent
from record.facts.sizes import Measure, PipeLevel
from record.facts.values import Part, Value
from record.sheets.faults import SheetFault
from record.sheets.gaps import has_gap
from record.sheets.lines import Piece, SheetText
from record.units import Dimension
from record.units.table import UNITS

COMMON = ("at", "did", "saw", "by", "readers", "mends", "because")
PARTS = frozenset(Part)  # the words that say which level of a pipe it is


@dataclass(slots=True)
class Reading:
    """A block while it is read: what it says so far, and the faults so far."""

    text: SheetText
    faults: list[SheetFault]
    unitless: set[Piece] = dataclasses.field(
        default_factory=set
    )  # headings of columns told to lack a unit

    def fault(self, at: Piece, problem: str, remedy: str) -> None:
        self.faults.append(self.text.fault(at, problem, remedy))

    def value(self, field: Field, said: Piece, unit: str | None = None) -> Value | None:
        if has_gap(said.text):
            return None
        try:
            return field.read(said.text, unit)
        except ValueFault as fault:
            end = len(said.text) if fault.end is None else fault.end
            at = Piece(said.text[fault.start : end], said.line, said.column + fault.start)
            self.fault(at, f"{field.key}: {fault.problem}", fault.remedy)
            return None


@dataclass(frozen=True, slots=True)
class Column:
    field: Field
    unit: str | None
    part: str  # "crown " where the heading says which level of the pipe its cells are
    heading: Piece | None = None  # none of a field that stands alone


def column_of(
    field: Field, key: str, unit: str | None = None, heading: Piece | None = None
) -> Column:
    return Column(field, unit, f"{key} " if field.key != key else "", heading)


def field_of(kind: Kind, key: str) -> Field | None:
    """Return the field a key names; "crown" names the level, and says which."""
    field = kind.field(key)
    if field is None and key in PARTS:
        level = kind.field("level")
        if level is not None and isinstance(level.holds, PipeLevel):
            return level
    return field


def unknown_key(reading: Reading, kind: Kind, at: Piece, key: str, otherwise: str = "") -> None:
    names = [field.key for field in kind.fields] + list(COMMON)
    names += [part for part in Part if field_of(kind, part)]
    near = get_close_matches(key, names, 1, 0.7) or [
        name for name in names if name.endswith(f" {key}") or name.startswith(f"{key} ")
    ]
    known = ", ".join(field.key for field in kind.fields) or "none of its own"
    remedy = f'Did you mean "{near[0]}"?' if near else f"Its fields are {known}."
    more = f" {otherwise.format(at.text)}" if otherwise else ""
    reading.fault(at, f'{with_article(kind.word)} has no field "{at.text}"', remedy + more)


def read_cell(reading: Reading, column: Column, cell: Piece) -> Value | None:
    """Return what a cell says; that a column has no unit is told once, at its first number."""
    told = len(reading.faults)
    value = _read_cell(reading, column, cell)
    if column.heading and column.unit is None and reading.faults[told:]:
        _once(reading, column.field, column.heading, cell)
    return value


def _once(reading: Reading, field: Field, heading: Piece, cell: Piece) -> None:
    fault = reading.faults[-1]
    if not fault.problem.endswith(" has no unit") or "±" in cell.text:
        return
    reading.faults.pop()
    if heading in reading.unitless:
        return
    reading.unitless.add(heading)
    whole = f'"{heading.text} [{_unit_for(field)}]"'
    more = f"{fault.remedy} Or write it in the heading, for all below it: {whole}."
    reading.faults.append(replace(fault, remedy=more))


def _unit_for(field: Field) -> str:
    """Return a unit that a column of a field may be headed with."""
    measured = field.holds.dimension if isinstance(field.holds, Measure) else Dimension.LENGTH
    return UNITS[measured][0].name


def _read_cell(reading: Reading, column: Column, cell: Piece) -> Value | None:
    if not column.part or has_gap(cell.text):
        return reading.value(column.field, cell, column.unit)
    try:
        # The heading's word goes before the cell's, unless the cell states an absence.
        read = column.field.read(cell.text) if _is_absent(cell.text) else None
        return read if read is not None else column.field.read(column.part + cell.text, column.unit)
    except ValueFault as fault:
        shift = 0 if _is_absent(cell.text) else len(column.part)
        start = max(0, fault.start - shift)
        end = len(cell.text) if fault.end is None else max(start + 1, fault.end - shift)
        at = Piece(cell.text[start:end] or " ", cell.line, cell.column + start)
        reading.fault(at, f"{column.part.strip()}: {fault.problem}", fault.remedy)
        return None


def _is_absent(text: str) -> bool:

    try:
        return read_absent(text) is not None
    except ValueFault:
        return True
