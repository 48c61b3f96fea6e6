"""The rows of a COBie workbook: places, types, components, systems, what is said of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.exports.cobie_made import Row, made
from record.exports.cobie_papers import documents
from record.exports.cobie_sheets import FLOORS, NONE, PARTS, SPACES, SYSTEM, sheet_of
from record.exports.cobie_upkeep import jobs
from record.exports.items import Item, items
from record.readers import View


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
        "Job": list(jobs(view, {item.tag: type_name(item) for item in parts})),
        "Document": list(documents(view)),
        "Attribute": [row for item in every for row in _attributes(item)],
        "Coordinate": [row for item in parts for row in _coordinates(item)],
    }


def _contacts(view: View) -> Iterator[Row]:
    for writer in sorted({e.link.writer for e in view.built.entries if e.content}):
        yield {"Email": writer, "CreatedBy": writer, "Category": "writer of the record"}


def _facility(view: View) -> Row:
    site = view.built.site_thing()
    first = made(site.entries()) if site else {}
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
        "ExternalSystem": SYSTEM,
        **({name: first[name] for name in ("CreatedBy", "CreatedOn") if name in first}),
    }


def _base(item: Item) -> Row:
    return {
        "Name": item.tag,
        "Category": item.kind,
        "ExtObject": item.kind,
        **made(item.thing.entries()),
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


def type_name(item: Item) -> str:
    words = (item.kind, item.thing.text("type") or item.thing.text("what"), _model(item))
    return " ".join(word.replace(",", " ") for word in words if word)


def _model(item: Item) -> str | None:
    return item.thing.text("maker's_part")


def _maker(item: Item, view: View) -> str:
    """Return who made it, as its lot says."""
    lots = (view.built.thing(tag) for tag in item.thing.tags("lot"))
    return next((maker for lot in lots if lot and (maker := lot.text("maker"))), NONE)


def _types(parts: Sequence[Item], view: View) -> Iterator[Row]:
    for name in sorted({type_name(item) for item in parts}):
        first = next(item for item in parts if type_name(item) == name)
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
        "TypeName": type_name(item),
        "Space": item.thing.text("room") or item.thing.text("hull") or NONE,
        "Description": type_name(item),
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
    sheet = sheet_of(item.kind)
    first = made(item.thing.entries())
    for name, words in item.fields if item.kind in (*FLOORS, *SPACES, *PARTS) else ():
        quantity = item.thing.quantity(name)
        yield {
            **first,
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
                **made(solid.shape.entries),
                "Name": f"{item.tag} {number} {category}",
                "Category": category,
                "SheetName": "Component",
                "RowName": item.tag,
                "CoordinateXAxis": round(x, 4),
                "CoordinateYAxis": round(y, 4),
                "CoordinateZAxis": NONE if z is None else round(z, 4),
            }
