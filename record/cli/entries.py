"""asburied entries"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, day_option, tell, view


@app.command()
def entries(
    ctx: typer.Context,
    tag: Annotated[str | None, typer.Option("--tag", help="About this thing.")] = None,
    kind: Annotated[str | None, typer.Option("--kind", help="Of this kind.")] = None,
    writer: Annotated[str | None, typer.Option("--writer", help="By this writer.")] = None,
    day: Annotated[str | None, typer.Option("--day", help="True of this day.")] = None,
    sheet: Annotated[
        str | None,
        typer.Option("--sheet", help='From this sheet: its file, or "2031-05-14 ld".'),
    ] = None,
    since: Annotated[
        str | None, typer.Option("--from", metavar="DAY", help="True of this day or later.")
    ] = None,
    until: Annotated[
        str | None, typer.Option("--until", metavar="DAY", help="True of this day or earlier.")
    ] = None,
    mends: Annotated[
        bool, typer.Option("--mends", help="Only what mends or withdraws another.")
    ] = False,
    forked: Annotated[
        bool, typer.Option("--forked", help="Only those whose number stands twice.")
    ] = False,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    List the entries of the log, oldest first.

    What is asked for holds together: --tag AIR-IN --mends lists what was mended of AIR-IN. An
    entry marked ~ was mended or withdrawn by a later one; it stays as it was written.

    Example: asburied --record larch-end entries --tag AIR-IN

    Exit status is 0 once told, 1 if the record cannot be read, 2 if the command itself was wrong.
    """
    from record.answers.entry_list import Wanted, entry_list, entry_words
    from record.answers.told import told_form

    days = [day_option(each).isoformat() if each else None for each in (day, since, until)]
    wanted = Wanted(
        tag=tag,
        kind=kind,
        writer=writer,
        day=days[0],
        sheet=sheet,
        since=days[1],
        until=days[2],
        mends=mends,
        forked=forked,
    )
    found = entry_list(view(ctx.obj, known_at, as_of, reader), wanted)
    tell(entry_words(found), [told_form(told) for told in found], as_json)
