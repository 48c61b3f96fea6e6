"""asburied init"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import Refused, app, place
from record.cli.passphrase import for_a_record


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
    sealed: Annotated[
        bool,
        typer.Option(
            "--sealed",
            help="Keep it encrypted, with a passphrase: the first line of the file that "
            "$ASBURIED_RECORD_PASSPHRASE_FILE names, else it is asked for.",
        ),
    ] = False,
) -> None:
    """
    Start an empty record in a folder, or in a database that holds many sites.

    In a database the tables are made once, and two roles: asburied_crew may read and add,
    asburied_reader may read. Nobody's login may change or delete. A password is never part of
    the URL: it stands in ~/.pgpass, or in a file that $PGPASSFILE names.

    Sealed, all of it lies encrypted on the disk, pictures and sheets with it, and each command
    asks for the passphrase. A passphrase that is lost is lost for good, and the record with it.

    Example: asburied --record larch-end init

    Exit status is 0 if it was made, 1 if a record is there already or it cannot be written there,
    2 if the command itself was wrong.
    """
    from record.log import Log, Office

    at = place(office) if office else ctx.obj
    if office and not isinstance(at, Office):
        raise Refused(f"{office} is not a database; write postgresql://HOST/DATABASE", 2)
    if sealed and isinstance(at, Office):
        raise Refused("a record in a database is not sealed here: encrypt the server's disk", 2)
    with Log.make(at, sealed_with=for_a_record() if sealed else None):
        if isinstance(at, Office) and not at.site:
            print(f"{at} has its tables. Name the site a sheet is of:")
            at = at.of("SITE")
        else:
            print(f"A record starts in {at}. Post the first day sheet:")
        print(f"  asburied --record {at} post SHEET.md")
        print("To have one to fill in, TAG being what the site is to be called:")
        print(f"  asburied --record {at} blank site TAG --out SHEET.md")
