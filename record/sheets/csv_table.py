"""The cells of a comma-separated file → a table, each cell at its own line and column."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from record.facts import Kind
from record.facts.sizes import Measure, PipeLevel
from record.sheets.blocks import RawBlock, RawTable
from record.sheets.csv_cells import (
    SEPARATORS,
    OpenQuote,
    cells_of,
    ends_within_quotes,
    separator_of,
)
from record.sheets.csv_head import Told
from record.sheets.csv_numbers import decimal_commas, with_points
from record.sheets.faults import SheetFault
from record.sheets.headings import find_kind, said_key
from record.sheets.lines import Piece, SheetText
from record.sheets.reading import field_of
from record.sheets.row_drafts import UNIT

LONGEST = 20_000  # letters in a line; an entry must stay under record.entry.LONGEST_LINE


def table_of(
    text: SheetText, first: int, block: RawBlock, told: Told, faults: list[SheetFault]
) -> RawTable | None:
    """
    Return the table whose headings stand on line ``first`` (from 0), under the block it is of.

    Columns left out by name are not in it, and rows that do not fit are only told of; None, with
    the fault added, where the separator cannot be told or every column is left out.
    """
    heading = Piece(text.lines[first], first + 1, 1)
    marks = separator_of(heading.text)
    if len(marks) > 1:
        names = " and ".join(SEPARATORS[mark] for mark in marks)
        remedy = "Save it with one of them between cells, or put quotes around the headings."
        faults.append(text.fault(heading, f"the heading row has both {names}", remedy))
        return None
    every = list(_rows(text, first, marks[0], faults))
    if not every or every[0][0].line != first + 1:
        return None
    head, *rows = every
    keep = _kept(text, head, told, faults)
    if not keep:
        remedy = "Leave out only what the record has no field for."
        faults.append(text.fault(heading, "every column is left out", remedy))
        return None
    sound = [row for row in rows if _fits(text, row, head, faults)]
    table = RawTable(
        tuple(head[n] for n in keep),
        tuple(tuple(row[n] for n in keep) for row in sound),
        otherwise='Or leave it out: --leave-out "{}".',
    )
    if marks[0] == "," and not told.decimal_comma:
        return table
    return _with_points(table, _measured(block, table), told.decimal_comma)


def _rows(
    text: SheetText, first: int, separator: str, faults: list[SheetFault]
) -> Iterator[tuple[Piece, ...]]:
    """Yield the rows that say anything; what a cell with a line break takes up is told once."""
    inside = False
    for number, line in enumerate(text.lines[first:], start=first + 1):
        if inside:
            inside = ends_within_quotes(line, inside)
            continue
        if len(line) > LONGEST:
            whole = Piece(line[:40], number, 1)
            faults.append(text.fault(whole, "this line is too long", "Is it the right file?"))
            continue
        try:
            row = cells_of(line, number, separator)
        except OpenQuote as fault:
            faults.append(_open_quote(text, fault))
            inside = not fault.closed and _closes(text.lines[number:])
            continue
        if any(cell.text for cell in row):
            yield row


def _closes(lines: Sequence[str]) -> bool:
    """Return whether a quote that is open ends within a few lines, as a cell of words would."""
    first = next((line for line in lines[:20] if '"' in line), "")
    return first.count('"') % 2 == 1


def _open_quote(text: SheetText, fault: OpenQuote) -> SheetFault:
    if fault.closed:
        remedy = "Put the separator after the quote, or write a quote within a cell twice."
        return text.fault(fault.at, "words stand behind the end of this quoted cell", remedy)
    remedy = "Keep a row on one line; a cell that begins with a quote ends with one."
    return text.fault(fault.at, "this quoted cell does not end on its line", remedy)


def _fits(
    text: SheetText, row: Sequence[Piece], head: Sequence[Piece], faults: list[SheetFault]
) -> bool:
    if len(row) == len(head):
        return True
    whole = Piece(text.lines[row[0].line - 1], row[0].line, 1)
    faults.append(
        text.fault(
            whole,
            f"the row has {len(row)} cells, and the table has {len(head)} columns",
            'Give every column a cell; write "not recorded" or "none" where it holds.',
        )
    )
    return False


def _kept(
    text: SheetText, head: Sequence[Piece], told: Told, faults: list[SheetFault]
) -> list[int]:
    """Return which columns are read: those that nobody left out by name."""
    names = [_name(cell) for cell in head]
    for left in told.leave_out:
        if _plain(left) not in names:
            whole = Piece(text.lines[head[0].line - 1], head[0].line, 1)
            says = f'there is no column "{left}" to leave out'
            faults.append(text.fault(whole, says, f"The columns are {', '.join(names)}."))
    left_out = {_plain(left) for left in told.leave_out}
    return [n for n, name in enumerate(names) if name not in left_out]


def _name(cell: Piece) -> str:
    parted = UNIT.match(cell.text)
    return _plain(parted["key"] if parted else cell.text)


def _plain(name: str) -> str:
    return said_key(Piece(name.strip(), 1, 1))


def _measured(block: RawBlock, table: RawTable) -> set[int]:
    """Return which columns hold measured values."""
    kind, _ = find_kind(block.heading)
    of: Kind | None = (kind.rows or kind) if kind else None
    fields = [field_of(of, _name(cell)) if of else None for cell in table.head]
    return {n for n, f in enumerate(fields) if f and isinstance(f.holds, Measure | PipeLevel)}


def _with_points(table: RawTable, columns: set[int], surely: bool) -> RawTable:
    """Return the table with decimal points, where its commas are surely that."""
    cells = (row[n].text for row in table.rows for n in columns if n < len(row))
    if not surely and not decimal_commas(cells):
        return table
    rows = tuple(
        tuple(
            Piece(with_points(c.text), c.line, c.column) if n in columns else c
            for n, c in enumerate(row)
        )
        for row in table.rows
    )
    return replace(table, rows=rows)
