"""A workbook in the shape of COBie (sheets and columns as the US National BIM Standard names them).

It is shaped so, and no more: what COBie wants and the record does not know is "n/a", as COBie
writes it, and writers stand where it wants e-mail addresses. Sheets and columns are those of its
version 2.4, in their order, as an open implementation of it declares them.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from record.exports.cobie_rows import tables
from record.exports.cobie_sheets import NONE, SHEETS, SYSTEM
from record.exports.cobie_upkeep import upkeep_told
from record.exports.items import about
from record.exports.needed import needed
from record.readers import View


def workbook(view: View) -> bytes:
    """Return the workbook (.xlsx). Raises NotInstalled."""
    openpyxl = needed("openpyxl", "workbook")
    book = openpyxl.Workbook()
    told = book.active
    told.title = "Instruction"
    _fill(told, [*about(view), upkeep_told(view)])
    rows = tables(view)
    for name, columns in SHEETS.items():
        sheet = book.create_sheet(name)
        written = ([row.get(column, NONE) for column in columns] for row in rows[name])
        _fill(sheet, [columns, *written])
        sheet.freeze_panes = "B2"
    stamp = datetime.fromisoformat(_newest(view).replace("Z", ""))
    book.properties.created = book.properties.modified = stamp
    book.properties.creator = SYSTEM
    out = io.BytesIO()
    book.save(out)
    return _same_each_time(out.getvalue(), stamp)


def _fill(sheet: Any, rows: Iterable[Sequence[Any]]) -> None:
    """Write rows. Words stay words: nothing anybody wrote is taken for a sum."""
    for place, row in enumerate(rows, 1):
        for column, value in enumerate(row, 1):
            words = isinstance(value, str)
            cell = sheet.cell(place, column, _printable(value) if words else value)
            if words:
                cell.data_type = "s"


def _printable(text: str) -> str:
    """Leave out what XML cannot hold."""
    return "".join(sign for sign in text if sign >= " " or sign in "\n\t")


def _same_each_time(data: bytes, stamp: datetime) -> bytes:
    """Write the archive again with one day in it: openpyxl puts the clock into it."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in sorted(old.namelist()):
            held = old.read(name)
            if name == "docProps/core.xml":
                held = _stamped(held, stamp)
            new.writestr(zipfile.ZipInfo(name), held, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _stamped(xml: bytes, stamp: datetime) -> bytes:
    day = stamp.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    return re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + day, xml)


def _newest(view: View) -> str:
    stamps = [entry.link.recorded for entry in view.built.entries if entry.content]
    return max(stamps, default="1970-01-01T00:00:00Z")


__all__ = ["SHEETS", "tables", "upkeep_told", "workbook"]
