"""asburied post"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import clock, salt

if TYPE_CHECKING:
    from record.log import Log
    from record.posting import Posted
    from record.sheets import Told


TABLE = "Of a table without a head: "


@app.command()
def post(
    ctx: typer.Context,
    sheets: Annotated[
        list[Path],
        typer.Argument(metavar="SHEET…", help="Day sheets, or tables in .csv; in order."),
    ],
    day: Annotated[
        str, typer.Option("--day", metavar="DAY", help=f"{TABLE}the day it was measured.")
    ] = "",
    writer: Annotated[str, typer.Option("--writer", help=f"{TABLE}who writes it down.")] = "",
    about: Annotated[
        str,
        typer.Option("--about", metavar="KIND TAG", help=f"{TABLE}what of, such as run AIR-IN."),
    ] = "",
    part: Annotated[
        str, typer.Option("--part", help=f"{TABLE}a part of the day, where there are two.")
    ] = "",
    leave_out: Annotated[
        list[str] | None,
        typer.Option("--leave-out", metavar="COLUMN", help="A column of a table not to be read."),
    ] = None,
    decimal_comma: Annotated[
        bool,
        typer.Option("--decimal-comma", help="Every comma within a table's numbers is a point."),
    ] = False,
) -> None:
    """
    Record day sheets, and tables from instruments.

    All of a sheet is recorded or none of it. Every fault is reported at once, with its line,
    its column and what to write instead. Posting a sheet again records only what is new in it.
    A .csv file is a sheet whose one table is cells: above its headings stand the same lines as
    in a sheet, or --day, --writer and --about say them.

    Example: asburied --record larch-end post sheets/2031-05-14-ld.md

    Exit status is 0 if every sheet was recorded or was there already, 1 if one was not (those
    before it are kept), 2 if the command itself was wrong.
    """
    from record.log import Log
    from record.posting import post as post_sheet
    from record.sheets import Told

    told = Told(
        day=day,
        writer=writer,
        about=about,
        part=part,
        leave_out=tuple(leave_out or ()),
        decimal_comma=decimal_comma,
    )
    _refuse_half_told(told, sheets)
    with Log.open(ctx.obj) as log:
        for path in sheets:
            data = _bytes(path)
            posted = post_sheet(
                log,
                str(path),
                data,
                folder=path.parent,
                clock=clock(),
                salt=salt(),
                table=_of_record(told, log) if _is_table(path) else None,
            )
            for line in words(path, posted):
                print(line)
            sys.stdout.flush()


def _is_table(path: Path) -> bool:
    return path.suffix.casefold() == ".csv"


def _refuse_half_told(told: Told, sheets: list[Path]) -> None:
    """Refuse options that would do nothing, or that leave the head of a table half said."""
    from record.sheets import Told

    if told == Told():
        return
    if not all(_is_table(path) for path in sheets):
        raise Refused("--day, --writer, --about and the like are of tables (.csv) only", 2)
    head = {"--day": told.day, "--writer": told.writer, "--about": told.about}
    lacks = [name for name, said in head.items() if not said]
    if len(lacks) in (1, 2) or (lacks and told.part):
        raise Refused(f"a table without a head needs {' and '.join(lacks)} too", 2)


def _of_record(told: Told, log: Log) -> Told:
    """Return what is told of a bare table, with the site and zone of the record it goes to."""
    from dataclasses import replace

    from record.fold import zone_of

    if not told.day:
        return told
    entries = log.entries()
    if not entries:
        raise Refused(EMPTY)
    return replace(told, site=entries[0].link.site, zone=zone_of(entries))


def _bytes(path: Path) -> bytes:
    from record.sheets.csv_sheet import LARGEST

    try:
        with path.open("rb") as file:  # a device never ends; the reader refuses what is too long
            return file.read(LARGEST + 1)
    except OSError as fault:
        raise Refused(f"{path}: {fault.strerror}; nothing of it was recorded") from fault


def words(path: Path, posted: Posted) -> list[str]:
    from record.entry.counted import entries_said

    if not posted.recorded:
        lines = [f"{path}: already recorded, {entries_said(len(posted.already))}; nothing new"]
    else:
        first, last = posted.recorded[0].number, posted.recorded[-1].number
        known = f"; {len(posted.already)} were there already" if posted.already else ""
        which = first if first == last else f"{first} to {last}"
        lines = [f"{path}: {entries_said(len(posted.recorded))}, {which}{known}"]
    return lines + (_not_in_it(posted) if posted.vanished else [])


def _not_in_it(posted: Posted) -> list[str]:
    """Tell what was recorded under this heading and is not in the sheet, in a few lines."""
    found = _runs(sorted(entry.link.seq for entry in posted.vanished))
    writer = posted.vanished[0].link.writer
    numbers = ", ".join(
        f"{writer}-{first}" + (f" to {writer}-{last}" if last > first else "")
        for first, last in found
    )
    day = " ".join(posted.title.split()[:2])
    return [
        f"  Recorded under the same heading, and no longer in the sheet: {numbers}. It stays.",
        f'  Is it another sheet of that day? Then all is well; head the next "# {day} evening".',
        '  To take an entry back, write "## withdrawn", "- mends: …" and "- because: …".',
    ]


def _runs(numbers: list[int]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for number in numbers:
        if found and number - found[-1][1] == 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return found
