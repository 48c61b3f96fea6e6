"""asburied init"""

from __future__ import annotations

import typer

from record.cli.app import app


@app.command()
def init(ctx: typer.Context) -> None:
    """
    Start an empty record in a folder.

    Example: asburied --record larch-end init

    Exit status is 0 if it was made, 1 if a record is there already or the folder cannot be
    written, 2 if the command itself was wrong.
    """
    from record.log import Log

    with Log.make(ctx.obj) as log:
        print(f"A record starts in {log.folder.path}. Post the first day sheet:")
        print(f"  asburied --record {log.folder.path} post SHEET.md")
