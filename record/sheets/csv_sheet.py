"""A comma-separated file → a sheet: a day sheet's head, and then one table of cells.

Above the heading row stand the lines that any day sheet starts with (``# day writer``,
``- site:``, ``## run AIR-IN``); an instrument's bare export has none, and is told from outside.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from record.facts import Kind
from record.facts.fields import Measure, PipeLevel
from record.sheets.blocks import RawBlock, RawField, RawTable, blocks
from record.sheets.csv_cells import (
    SEPARATORS,
    OpenQuote,
    cells_of,
    ends_within_quotes,
    separator_of,
)
from record.sheets.csv_numbers import decimal_commas, with_points
from record.sheets.faults import SheetFault, SheetRejected
from record.sheets.gaps import form_faults
from record.sheets.headings import find_kind, read_heading, said_key
from record.sheets.lines import Piece, SheetText, take
from record.sheets.read import Sheet, read_head, sheet_of
from record.sheets.reading import field_of
from record.sheets.row_drafts import UNIT

LARGEST = 20_000_000  # bytes; a hundred thousand rows and more
LONGEST = 20_000  # letters in a line; an entry must stay under record.entry.LONGEST_LINE
MOST_FAULTS = 100
HEAD = re.compile(r"\s*$|#{1,6}\s|- |\s+\S|<!--")
WHAT_IT_IS = (
    'Put "# ", the day and the writer, "- site: " and "## run AIR-IN" above the headings; or give '
    "--day, --writer and --about."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is said of a file from outside: the head of a bare export, and how to read it."""

    day: str = ""
    writer: str = ""
    about: str = ""
    part: str = ""
    site: str = ""
    zone: str = ""
    leave_out: tuple[str, ...] = ()
    decimal_comma: bool = False


def read_csv(name: str, data: bytes, told: Told) -> Sheet:
    """
    Return what a comma-separated file says. Raises SheetRejected with every fault of it.

    A part of the day is made from the tag where none is given, or the file would be compared
    with the day's own sheet.
    """
    if told.day and (wrong := _told_faults(told)):
        raise SheetRejected(wrong)
    text = take(name, data, LARGEST)
    if isinstance(text, SheetFault):
        raise SheetRejected([text])
    first = _heading_row(text)
    head = replace(text, plain=text.plain[:first] + ("",) * (len(text.lines) - first))
    text = replace(text, plain=text.plain[:first] + text.lines[first:])
    if text.open_hint > first:
        text = replace(text, open_hint=0)
    raw, faults = blocks(head)
    faults += form_faults(text)
    raw = _with_told(text, raw, told, first, faults)
    if raw and first < len(text.lines):
        table = _table(text, first, raw[-1], told, faults)
        if table:
            raw[-1].items.append(table)
    sheet = sheet_of(text, raw, faults) if raw else None
    if faults or sheet is None:
        raise SheetRejected(_fewer(text, _told_of_commas(faults)))
    return sheet if sheet.part else replace(sheet, part=part_for(sheet.drafts[0].about))


def part_for(tag: str) -> str:
    """Return the part of the day that a table about a tag is called by.

    >>> part_for("AIR-IN/2")
    'table-air-in'
    """
    plain = re.sub(r"[^a-z0-9]+", "-", tag.partition("/")[0].casefold()).strip("-")
    return f"table-{plain}"[:31].rstrip("-")


def _heading_row(text: SheetText) -> int:
    """Return which line (from 0) the headings stand on: the first that no head could hold."""
    lines = enumerate(text.plain)
    return next((n for n, line in lines if not HEAD.match(line)), len(text.lines))


def _with_told(
    text: SheetText, raw: list[RawBlock], told: Told, first: int, faults: list[SheetFault]
) -> list[RawBlock]:
    """Return the blocks of the head, from the file or from what is told; never of both."""
    at = Piece(text.lines[min(first, len(text.lines) - 1)], min(first + 1, len(text.lines)), 1)
    if first >= len(text.lines):
        faults.append(text.fault(at, "there is no row of headings", "Write one, then the rows."))
        return raw
    if raw and told.day:
        says = "the file says its day and writer itself"
        faults.append(text.fault(raw[0].heading, says, "Leave --day, --writer and --about out."))
    if raw or not told.day:
        if not any(block.level == 2 for block in raw):
            faults.append(text.fault(at, "nothing says what this table is of", WHAT_IT_IS))
            return []
        return raw
    return _bare_head(told, at.line)


def _bare_head(told: Told, line: int) -> list[RawBlock]:
    """Return the head of a bare export; it stands nowhere in the file, so at its first row."""

    def piece(words: str) -> Piece:
        return Piece(words, line, 1)

    head = " ".join(filter(None, (told.day, told.writer, told.part)))
    fields = [("site", told.site), ("zone", told.zone)]
    items = [RawField(piece(key), piece(said), (line,)) for key, said in fields if said]
    return [RawBlock(piece(head), 1, [*items]), RawBlock(piece(told.about), 2)]


def _told_faults(told: Told) -> list[SheetFault]:
    """Return what is wrong with what is told from outside, shown as it was given."""
    faults: list[SheetFault] = []
    head = Piece(" ".join(filter(None, (told.day, told.writer, told.part))), 1, 1)
    read_head(SheetText("--day, --writer, --part", b"", (head.text,)), head, faults)
    about = Piece(told.about, 1, 1)
    read_heading(SheetText("--about", b"", (told.about,)), about, told.site, faults)
    return faults


def _table(
    text: SheetText, first: int, block: RawBlock, told: Told, faults: list[SheetFault]
) -> RawTable | None:
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


def _told_of_commas(faults: list[SheetFault]) -> list[SheetFault]:
    more = " Where every comma of the file is a decimal point, give --decimal-comma."
    return [
        replace(fault, remedy=fault.remedy + more)
        if "which may be a decimal point" in fault.problem
        else fault
        for fault in faults
    ]


def _fewer(text: SheetText, faults: list[SheetFault]) -> list[SheetFault]:
    """Return the first faults, and how many there are: nobody reads a hundred thousand."""
    if len(faults) <= MOST_FAULTS:
        return faults
    says = f"there are {len(faults)} faults; the first {MOST_FAULTS} are told here"
    remedy = "Mend what they have in common, then post it again."
    return [SheetFault(0, 0, says, remedy, sheet=text.name), *sorted(faults)[:MOST_FAULTS]]
