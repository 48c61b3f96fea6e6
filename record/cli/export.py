"""asburied export"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view

if TYPE_CHECKING:
    from record.exports import Tie
    from record.readers import View


class Format(StrEnum):
    """What can be exported."""

    GEOJSON = "geojson"
    CSV = "csv"
    WORKBOOK = "workbook"
    IFC = "ifc"


@app.command()
def export(
    ctx: typer.Context,
    format_: Annotated[
        Format, typer.Argument(metavar="FORMAT", help="geojson, csv, workbook or ifc.")
    ],
    out: Annotated[
        Path, typer.Option("--out", metavar="FILE", help="A new file; for csv, a new folder.")
    ],
    tie: Annotated[
        str | None,
        typer.Option(
            metavar="LAT,LON,BEARING",
            help="GeoJSON on earth: where the grid's zero lies (WGS 84), and how its north points "
            "from true north, in degrees. It is written into the file and nowhere else.",
        ),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Write the record for other programs: a map, tables, a workbook or a model in an open format.

    geojson (RFC 7946) has each thing in plan, in metres of the site's grid or tied to the earth;
    csv a table for each kind; workbook sheets in the shape of COBie (.xlsx); ifc a model, IFC 4.3.
    Each holds what the reader may see and says for whom it is. The last two need the extra
    "exports".

    Example: asburied --record larch-end export geojson --out larch-end.geojson --reader trade

    Exit status is 0 if it was written, 1 if it could not be, 2 if the command itself was wrong.
    """
    from record.exports.needed import NotInstalled
    from record.exports.save import refuse_what_is_there

    refuse_what_is_there(out)
    tied = _tie(tie, format_)
    seen = view(ctx.obj, known_at, as_of, reader)
    try:
        _write(seen, format_, out, tied)
    except NotInstalled as fault:
        raise Refused(str(fault)) from fault
    things = len(seen.built.things)
    form = {"format": format_.value, "out": str(out), "reader": reader, "things": things}
    tell(_words(seen, format_, out, tied), {**form, "withheld": seen.withheld}, as_json)


def _tie(text: str | None, format_: Format) -> Tie | None:
    from record.exports import read_tie

    if text is None:
        return None
    if format_ is not Format.GEOJSON:
        raise Refused("--tie is for geojson; the others have the site's own grid", 2)
    try:
        return read_tie(text)
    except ValueError as fault:
        raise Refused(str(fault), 2) from None


def _write(seen: View, format_: Format, out: Path, tie: Tie | None) -> None:
    from record.exports import csv_tables, geojson, save_file, save_folder

    if format_ is Format.CSV:
        save_folder(csv_tables(seen), out)
    elif format_ is Format.GEOJSON:
        save_file(geojson(seen, tie), out)
    elif format_ is Format.WORKBOOK:
        from record.exports.workbook import workbook

        save_file(workbook(seen), out)
    else:
        from record.exports.ifc import ifc

        save_file(ifc(seen), out)


def _words(seen: View, format_: Format, out: Path, tie: Tie | None) -> Iterator[str]:
    from record.entry.counted import withheld_said

    yield f"{out}: {len(seen.built.things)} things, for {seen.reader}"
    if format_ is Format.GEOJSON and tie is None:
        yield "  Coordinates are metres on the site's grid, and no longitude and latitude."
    if tie is not None:
        yield "  It says where on earth the site lies: hand it on as you would the place itself."
    if seen.withheld:
        yield f"  {withheld_said(seen.withheld)} from it: a gap is no sign of empty ground."
