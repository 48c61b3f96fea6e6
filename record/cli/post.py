"""asburied post"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import clock, salt

if TYPE_CHECKING:
    from record.posting import Posted


@app.command()
def post(
    ctx: typer.Context,
    sheets: Annotated[list[Path], typer.Argument(metavar="SHEET…", help="Day sheets, in order.")],
) -> None:
    """
    Record day sheets.

    All of a sheet is recorded or none of it. Every fault is reported at once, with its line,
    its column and what to write instead. Posting a sheet again records only what is new in it.

    Example: asburied --record larch-end post sheets/2031-05-14-ld.md

    Exit status is 0 if every sheet was recorded or was there already, 1 if one was not (those
    before it are kept), 2 if the command itself was wrong.
    """
    from record.log import Log
    from record.posting import post as post_sheet

    with Log.open(ctx.obj) as log:
        for path in sheets:
            data = _bytes(path)
            posted = post_sheet(
                log, str(path), data, folder=path.parent, clock=clock(), salt=salt()
            )
            for line in words(path, posted):
                print(line)
            sys.stdout.flush()


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as fault:
        raise Refused(f"{path}: {fault.strerror}; nothing of it was recorded") from fault


def words(path: Path, posted: Posted) -> list[str]:
    if not posted.recorded:
        lines = [f"{path}: already recorded, {len(posted.already)} entries; nothing new"]
    else:
        first, last = posted.recorded[0].number, posted.recorded[-1].number
        known = f"; {len(posted.already)} were there already" if posted.already else ""
        lines = [f"{path}: {len(posted.recorded)} entries, {first} to {last}{known}"]
    lines += [
        f"  {entry.number} is in the record but no longer in the sheet; it stays. "
        'To take it back, write "## withdrawn", "- mends: …" and "- because: …".'
        for entry in posted.vanished
    ]
    return lines
