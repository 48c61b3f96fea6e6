"""Day sheets, and tables with commas: read, or refused with the line and what to write instead."""

from __future__ import annotations

from record.sheets.csv_head import Told
from record.sheets.csv_sheet import read_csv
from record.sheets.draft import Draft
from record.sheets.faults import SheetFault, SheetRejected, in_words
from record.sheets.headings import nearest_kind
from record.sheets.lines import SheetText
from record.sheets.read import Sheet, read_sheet

__all__ = [
    "Draft",
    "Sheet",
    "SheetFault",
    "SheetRejected",
    "SheetText",
    "Told",
    "in_words",
    "nearest_kind",
    "read_csv",
    "read_sheet",
]
