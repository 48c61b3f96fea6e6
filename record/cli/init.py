"""asburied init"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import Refused, app, place


@app.command()
def init(
    ctx: typer.Context,
    office: Annotated[
        str | None,
        typer.Option(
            "--office",
            metavar="URL",
            help="Make the tables in a PostgreSQL database, for any number of sites.",
        ),
    ] = None,
) -> None:
    """
    Start an empty record in a folder, or in a database that holds many sites.

    In a database the tables are made once, and two roles: asburied_crew may read and add,
    asburied_reader may read. Nobody's login may change or delete. A password is never part of
    the URL: it stands in ~/.pgpass, or in a file that $PGPASSFILE names.

    Example: asburied --record larch-end init

    Exit status is 0 if it was made, 1 if a record is there already or it cannot be written there,
    2 if the command itself was wrong.
    """
    from record.log import Log, Office

    at = place(office) if office else ctx.obj
    if office and not isinstance(at, Office):
        raise Refused(f"{office} is not a database; write postgresql://HOST/DATABASE", 2)
    with Log.make(at):
        if isinstance(at, Office) and not at.site:
            print(f"{at} has its tables. Name the site a sheet is of:")
            at = at.of("SITE")
        else:
            print(f"A record starts in {at}. Post the first day sheet:")
        print(f"  asburied --record {at} post SHEET.md")
