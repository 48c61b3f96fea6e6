"""GeoJSON (RFC 7946): a feature for each thing, on the site grid or, where it is tied, on earth."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from record.exports.earth import Tie
from record.exports.items import ASK, Item, Point, Solid, about, items
from record.exports.reserved import Box, reserved_of
from record.readers import View

LOCAL = (
    "coordinates are metres on the site's own grid, x then y, and NOT longitude and latitude; a "
    "program that takes them for degrees shows them wrongly"
)
TIED = (
    "longitude and latitude, WGS 84, worked from the site's grid with the tie below, which was "
    "given when this was exported and is not in the record"
)


def geojson(view: View, tie: Tie | None = None) -> bytes:
    """
    Return a FeatureCollection of everything a reader may see.

    With a tie, coordinates are as RFC 7946 has them. Without, they are metres of the site grid,
    and the foreign member ``grid`` says so (RFC 7946, 4 and 6.1). What has no place on record is a
    feature without geometry (3.2). Levels are on the site datum, so they are properties and never
    a third coordinate.
    """
    whole = {
        "type": "FeatureCollection",
        "grid": _grid(view, tie),
        "about": dict(about(view)),
        "features": [
            *(_feature(item, tie) for item in items(view)),
            *(_reserved(n, *each, tie) for n, each in enumerate(reserved_of(view).ground, 1)),
        ],
    }
    return (json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _grid(view: View, tie: Tie | None) -> dict[str, Any]:
    told: dict[str, Any] = {"coordinates": TIED if tie else LOCAL, "site": view.built.site}
    if tie:
        told["tie"] = {
            "latitude_deg": tie.latitude_deg,
            "longitude_deg": tie.longitude_deg,
            "grid_north_bearing_deg": tie.bearing_deg,
        }
    return told


def _feature(item: Item, tie: Tie | None) -> dict[str, Any]:
    return {
        "type": "Feature",
        "id": item.tag,
        "geometry": _geometry(item, tie),
        "properties": {
            "tag": item.tag,
            "kind": item.kind,
            "placed": item.placed,
            "said": dict(item.fields),
            "solids": [_told(each) for each in item.solids],
            "level_m": item.level_m,
            "entries": list(item.entries),
        },
    }


def _reserved(number: int, what: str, box: Box, tie: Tie | None) -> dict[str, Any]:
    x0, y0, x1, y1 = box
    return {
        "type": "Feature",
        "id": f"reserved {number}",
        "geometry": _polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], tie),
        "properties": {"kind": "reserved", "what": what, "caution": ASK},
    }


def _told(solid: Solid) -> dict[str, Any]:
    shape = solid.shape
    return {
        "words": shape.words,
        "bottom_m": _rounded(solid.bottom_m),
        "top_m": _rounded(solid.top_m),
        "radius_m": _rounded(solid.radius_m) if solid.line else None,
        "tolerance_m": _rounded(solid.tolerance_m),
        "tolerance_up_m": _rounded(solid.tolerance_up_m),
        "basis": shape.basis,
        "assumed": shape.assumed,
        "not_recorded": list(shape.missing),
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


def _geometry(item: Item, tie: Tie | None) -> dict[str, Any] | None:
    lines = list(_joined([solid.line for solid in item.solids if solid.line]))
    found = [_line([end[:2] for end in line], tie) for line in lines]
    found += [_polygon(solid.corners, tie) for solid in item.solids if solid.corners]
    if not found and item.at is not None:
        found = [{"type": "Point", "coordinates": _at(item.at, tie)}]
    if len(found) > 1:
        return {"type": "GeometryCollection", "geometries": found}
    return found[0] if found else None


def _joined(
    lines: Iterable[Sequence[tuple[float, float, float]]],
) -> Iterator[list[tuple[float, float, float]]]:
    """Yield lines, each that begins where the last ended as one with it."""
    whole: list[tuple[float, float, float]] = []
    for line in lines:
        if whole and whole[-1] == line[0]:
            whole.extend(line[1:])
            continue
        if whole:
            yield whole
        whole = list(line)
    if whole:
        yield whole


def _line(points: Sequence[Point], tie: Tie | None) -> dict[str, Any]:
    places = [_at(point, tie) for point in points]
    kept = [place for n, place in enumerate(places) if n == 0 or place != places[n - 1]]
    if len(kept) == 1:  # upright, or a ball
        return {"type": "Point", "coordinates": kept[0]}
    return {"type": "LineString", "coordinates": kept}


def _polygon(corners: Sequence[Point], tie: Tie | None) -> dict[str, Any]:
    """Return a ring that runs against the clock and ends where it began (RFC 7946, 3.1.6)."""
    doubled = sum(
        (x0 * y1 - x1 * y0)
        for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    ring = [_at(corner, tie) for corner in (corners if doubled > 0 else reversed(corners))]
    return {"type": "Polygon", "coordinates": [[*ring, ring[0]]]}


def _at(point: Point, tie: Tie | None) -> list[float]:
    return list(tie.lon_lat(*point)) if tie else [round(value, 4) for value in point]
