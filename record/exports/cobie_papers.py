"""What is on paper, as documents of a COBie workbook: editions, procedures, sheets, pictures.

Files are named as the record, and a bag of it, keep them: by their SHA-256.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePosixPath

from record.exports.cobie_made import Row, made
from record.exports.cobie_sheets import sheet_of
from record.facts.kind import OWNER
from record.fold import Happening
from record.readers import View

#: File of an edition, as its entry names it → how the kept file ends.
ENDINGS = {
    "pdf": ".pdf",
    "html": ".html",
    "calendar": ".ics",
    "emergency": ".html",
    "cards": ".pdf",
}
STAGE = "As Built"


def documents(view: View) -> Iterator[Row]:
    """Yield a row for each: editions made for this reader alone, or all of them for the owner."""
    name = view.built.site_name()
    for edition in view.built.happened("edition issued"):
        if view.reader in (OWNER, edition.text("reader")):
            yield from _edition(edition, name)
    for procedure in view.built.of_kind("procedure"):
        yield {
            **made(procedure.entries()),
            **_of("Facility", name),
            "Name": procedure.tag,
            "Category": "Emergency Procedure",
            "ExtObject": procedure.kind.word,
            "Description": f"{procedure.words('event')}: {len(procedure.parts)} steps",
        }
    for sheet in view.built.happened("sheet posted"):
        yield {
            **_file(sheet, name, "sheets", sheet.text("sha256"), _ending(sheet, "name")),
            "Category": "Day Sheet",
            "Description": f"day sheet of {sheet.on}",
        }
    for picture in view.built.happened("photographed"):
        yield from _picture(view, picture, name)


def _of(sheet: str, row: str) -> Row:
    return {"Stage": STAGE, "SheetName": sheet, "RowName": row}


def _file(what: Happening, row: str, folder: str, sha256: str | None, ending: str) -> Row:
    return {
        **made([what.entry]),
        **_of("Facility", row),
        "Name": what.entry.number,
        "ExtObject": what.kind.word,
        **({"Directory": folder, "File": f"{sha256}{ending}"} if sha256 else {}),
    }


def _ending(what: Happening, field: str) -> str:
    """Return the suffix that a kept file has: that of its name when it was posted."""
    return PurePosixPath(what.text(field) or "").suffix.casefold()


def _edition(edition: Happening, name: str) -> Iterator[Row]:
    told = f"edition {edition.words('edition')} of the manual, {edition.words('reader')}"
    for file, ending in ENDINGS.items():
        if edition.text(file):
            yield {
                **_file(edition, name, "editions", edition.text(file), ending),
                "Name": f"{edition.entry.number} {file}",
                "Category": "Operation and Maintenance",
                "Description": f"{told}: {file}",
                "Reference": f"checkpoint {edition.words('checkpoint')}",
            }


def _picture(view: View, picture: Happening, name: str) -> Iterator[Row]:
    """Yield a row for each thing a picture shows that has a row of its own."""
    ending = _ending(picture, "file")
    shown = [thing for tag in picture.tags("shows") if (thing := view.built.thing(tag))]
    rows = {(sheet_of(thing.kind.word), thing.tag) for thing in shown}
    for sheet, tag in sorted(row for row in rows if row[0] != "Facility") or [("Facility", name)]:
        yield {
            **_file(picture, tag, "photos", picture.text("sha256"), ending),
            **_of(sheet, tag),
            "Name": f"{picture.entry.number} {tag}",
            "Category": "Photograph",
            "Description": picture.words("caption"),
        }
