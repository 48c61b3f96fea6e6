"""A workbook in the shape of COBie (sheets and columns as the US National BIM Standard names them).

It is shaped so, and no more: what COBie wants and the record does not know is "n/a", as COBie
writes it, and writers stand where it wants e-mail addresses. Sheets and columns are those of its
version 2.4, in their order, as an open implementation of it declares them.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from record.exports.items import Item, about, items
from record.exports.needed import needed
from record.readers import View

NONE = "n/a"


def _named(columns: str) -> tuple[str, ...]:
    return tuple(columns.split())


SHEETS: Mapping[str, tuple[str, ...]] = {
    "Contact": _named("""Email CreatedBy CreatedOn Category Company Phone ExtSystem ExtObject
        ExtIdentifier Department OrganizationCode GivenName FamilyName Street PostalBox Town
        StateRegion PostalCode Country"""),
    "Facility": _named("""Name CreatedBy CreatedOn Category ProjectName SiteName LinearUnits
        AreaUnits VolumeUnits CurrencyUnit AreaMeasurement ExternalSystem ExternalProjectObject
        ExternalProjectIdentifier ExternalSiteObject ExternalSiteIdentifier ExternalFacilityObject
        ExternalFacilityIdentifier Description ProjectDescription SiteDescription Phase"""),
    "Floor": _named("""Name CreatedBy CreatedOn Category ExtSystem ExtObject ExtIdentifier
        Description Elevation Height"""),
    "Space": _named("""Name CreatedBy CreatedOn Category FloorName Description ExtSystem ExtObject
        ExtIdentifier RoomTag UsableHeight GrossArea NetArea"""),
    "Type": _named("""Name CreatedBy CreatedOn Category Description AssetType Manufacturer
        ModelNumber WarrantyGuarantorParts WarrantyDurationParts WarrantyGuarantorLabor
        WarrantyDurationLabor WarrantyDurationUnit ExtSystem ExtObject ExtIdentifier
        ReplacementCost ExpectedLife DurationUnit WarrantyDescription NominalLength NominalWidth
        NominalHeight ModelReference Shape Size Color Finish Grade Material Constituents Features
        AccessibilityPerformance CodePerformance SustainabilityPerformance"""),
    "Component": _named("""Name CreatedBy CreatedOn TypeName Space Description ExtSystem ExtObject
        ExtIdentifier SerialNumber InstallationDate WarrantyStartDate TagNumber BarCode
        AssetIdentifier"""),
    "System": _named("""Name CreatedBy CreatedOn Category ComponentNames ExtSystem ExtObject
        ExtIdentifier Description"""),
    "Attribute": _named("""Name CreatedBy CreatedOn Category SheetName RowName Value Unit ExtSystem
        ExtObject ExtIdentifier Description AllowedValues"""),
    "Coordinate": _named("""Name CreatedBy CreatedOn Category SheetName RowName CoordinateXAxis
        CoordinateYAxis CoordinateZAxis ExtSystem ExtObject ExtIdentifier ClockwiseRotation
        ElevationalRotation YawRotation"""),
}  # fmt: skip
#: Kinds that are a place in the building, and not a part of it.
FLOORS, SPACES = ("hull",), ("room",)
PARTS = (
    "run",
    "store",
    "panel",
    "valve",
    "drain",
    "equipment",
    "fitting",
    "penetration",
    "door",
    "way out",
    "cable",
    "marker",
    "insulation",
    "fit-out",
    "dip pipe",
    "concealed entry",
)
_SYSTEM = "asburied"
Row = dict[str, Any]


def workbook(view: View) -> bytes:
    """Return the workbook (.xlsx). Raises NotInstalled."""
    openpyxl = needed("openpyxl", "workbook")
    book = openpyxl.Workbook()
    told = book.active
    told.title = "Instruction"
    _fill(told, about(view))
    rows = tables(view)
    for name, columns in SHEETS.items():
        sheet = book.create_sheet(name)
        written = ([row.get(column, NONE) for column in columns] for row in rows[name])
        _fill(sheet, [columns, *written])
        sheet.freeze_panes = "B2"
    stamp = datetime.fromisoformat(_newest(view).replace("Z", ""))
    book.properties.created = book.properties.modified = stamp
    book.properties.creator = _SYSTEM
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


def tables(view: View) -> dict[str, list[Row]]:
    """Return the rows of every sheet, before any library has a hand in it."""
    every = list(items(view))
    parts = [item for item in every if item.kind in PARTS]
    return {
        "Contact": list(_contacts(view)),
        "Facility": [_facility(view)],
        "Floor": [_floor(item) for item in every if item.kind in FLOORS],
        "Space": [_space(item) for item in every if item.kind in SPACES],
        "Type": list(_types(parts, view)),
        "Component": [_component(item) for item in parts],
        "System": list(_systems(parts)),
        "Attribute": [row for item in every for row in _attributes(item)],
        "Coordinate": [row for item in parts for row in _coordinates(item)],
    }


def _contacts(view: View) -> Iterator[Row]:
    for writer in sorted({e.link.writer for e in view.built.entries if e.content}):
        yield {"Email": writer, "CreatedBy": writer, "Category": "writer of the record"}


def _facility(view: View) -> Row:
    site = view.built.site_thing()
    made = _made(site.entries()) if site else {}
    return {
        "Name": view.built.site_name(),
        "Category": "earth-covered steel shelter",
        "ProjectName": view.built.site,
        "SiteName": view.built.site,
        "LinearUnits": "meters",
        "AreaUnits": "squaremeters",
        "VolumeUnits": "cubicmeters",
        "SiteDescription": f"grid: {site.words('grid')}" if site else NONE,
        "Phase": "as built",
        "ExternalSystem": _SYSTEM,
        **({name: made[name] for name in ("CreatedBy", "CreatedOn") if name in made}),
    }


def _made(entries: Iterable[Any]) -> Row:
    first = next(iter(entries), None)
    if first is None:
        return {}
    return {
        "CreatedBy": first.link.writer,
        "CreatedOn": first.link.recorded.removesuffix("Z"),
        "ExtSystem": _SYSTEM,
        "ExtIdentifier": first.number,
    }


def _base(item: Item) -> Row:
    return {
        "Name": item.tag,
        "Category": item.kind,
        "ExtObject": item.kind,
        **_made(item.thing.entries()),
    }


def _floor(item: Item) -> Row:
    level = item.thing.si("floor_level")
    return {
        **_base(item),
        "Description": item.thing.text("name") or item.kind,
        "Elevation": NONE if level is None else float(level),
    }


def _space(item: Item) -> Row:
    hull = item.thing.text("hull") or NONE
    return {**_base(item), "FloorName": hull, "Description": item.thing.text("name") or item.kind}


def _type_name(item: Item) -> str:
    words = (item.kind, item.thing.text("type") or item.thing.text("what"), _model(item))
    return " ".join(word.replace(",", " ") for word in words if word)


def _model(item: Item) -> str | None:
    return item.thing.text("maker's_part")


def _maker(item: Item, view: View) -> str:
    """Return who made it, as its lot says."""
    lots = (view.built.thing(tag) for tag in item.thing.tags("lot"))
    return next((maker for lot in lots if lot and (maker := lot.text("maker"))), NONE)


def _types(parts: Sequence[Item], view: View) -> Iterator[Row]:
    for name in sorted({_type_name(item) for item in parts}):
        first = next(item for item in parts if _type_name(item) == name)
        yield {
            **_base(first),
            "Name": name,
            "Description": name,
            "AssetType": "Fixed",
            "Manufacturer": _maker(first, view),
            "ModelNumber": _model(first) or NONE,
        }


def _component(item: Item) -> Row:
    base = _base(item)
    del base["Category"]  # it is its type's
    return {
        **base,
        "TypeName": _type_name(item),
        "Space": item.thing.text("room") or item.thing.text("hull") or NONE,
        "Description": _type_name(item),
        "SerialNumber": item.thing.text("serial") or NONE,
        "InstallationDate": item.thing.text("installed") or NONE,
        "TagNumber": item.tag,
    }


def _systems(parts: Sequence[Item]) -> Iterator[Row]:
    """A run, and what is on it or serves it: one system by the run's tag."""
    for run in (item for item in parts if item.kind == "run"):
        on = [
            item.tag
            for item in parts
            if item is not run
            and run.tag in (*item.thing.tags("on_run"), *item.thing.tags("serves"))
        ]
        yield {
            **_base(run),
            "Category": run.thing.text("carries") or run.kind,
            "ComponentNames": ",".join([run.tag, *on]),
            "Description": run.thing.text("carries") or run.kind,
        }


def _attributes(item: Item) -> Iterator[Row]:
    sheet = "Floor" if item.kind in FLOORS else "Space" if item.kind in SPACES else "Component"
    made = _made(item.thing.entries())
    for name, words in item.fields if item.kind in (*FLOORS, *SPACES, *PARTS) else ():
        quantity = item.thing.quantity(name)
        yield {
            **made,
            "Name": name,
            "Category": item.kind,
            "SheetName": sheet,
            "RowName": item.tag,
            "Value": words,
            "Unit": quantity.unit if quantity else NONE,
        }


def _coordinates(item: Item) -> Iterator[Row]:
    """Lines by both ends, boxes by two corners: on the site grid, levels on the site datum."""
    for number, solid in enumerate(item.solids, 1):
        marks: tuple[tuple[str, tuple[float, float, float | None]], ...]
        if solid.line:
            known = solid.bottom_m is not None
            marks = tuple(
                (f"line-end-{end}", (x, y, z if known else None))
                for end, (x, y, z) in zip(("one", "two"), solid.line, strict=True)
            )
        else:
            low, high = solid.corners[0], solid.corners[2]
            marks = (
                ("box-lowerleft", (*low, solid.bottom_m)),
                ("box-upperright", (*high, solid.top_m)),
            )
        for category, (x, y, z) in marks:
            yield {
                **_made(solid.shape.entries),
                "Name": f"{item.tag} {number} {category}",
                "Category": category,
                "SheetName": "Component",
                "RowName": item.tag,
                "CoordinateXAxis": round(x, 4),
                "CoordinateYAxis": round(y, 4),
                "CoordinateZAxis": NONE if z is None else round(z, 4),
            }
