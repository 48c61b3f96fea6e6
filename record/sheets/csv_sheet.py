"""A comma-separated file → a sheet: a day sheet's head, and then one table of cells.

Above the heading row stand the lines that any day sheet starts with (``# day writer``,
``- site:``, ``## run AIR-IN``); an instrument's bare export has none, and is told from outside.
"""

from __future__ import annotations

import re
from dataclasses import replace

from record.sheets.blocks import blocks
from record.sheets.csv_head import Told, heading_row, told_faults, with_told
from record.sheets.csv_table import table_of
from record.sheets.faults import SheetFault, SheetRejected
from record.sheets.gaps import form_faults
from record.sheets.lines import SheetText, take
from record.sheets.read import Sheet, sheet_of

LARGEST = 20_000_000  # bytes
MOST_LINES = 150_000  # more is no instrument's day, and takes minutes
MOST_FAULTS = 100


def read_csv(name: str, data: bytes, told: Told) -> Sheet:
    """
    Return what a comma-separated file says. Raises SheetRejected with every fault of it.

    A part of the day is made from the tag where none is given, or the file would be compared
    with the day's own sheet.
    """
    if told.day and (wrong := told_faults(told)):
        raise SheetRejected(wrong)
    text = take(name, data, LARGEST)
    if isinstance(text, SheetFault):
        raise SheetRejected([text])
    if len(text.lines) > MOST_LINES:
        says = f"it has {len(text.lines)} lines, and may have {MOST_LINES}"
        raise SheetRejected([SheetFault(0, 0, says, "Post it in parts.", sheet=name)])
    first = heading_row(text)
    head = replace(text, plain=text.plain[:first] + ("",) * (len(text.lines) - first))
    text = replace(text, plain=text.plain[:first] + text.lines[first:])
    if text.open_hint > first:
        text = replace(text, open_hint=0)
    raw, faults = blocks(head)
    faults += form_faults(text)
    raw = with_told(text, raw, told, first, faults)
    if raw and first < len(text.lines):
        table = table_of(text, first, raw[-1], told, faults)
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
