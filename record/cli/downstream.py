"""asburied downstream"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view


@app.command()
def downstream(
    ctx: typer.Context,
    tag: Annotated[
        str, typer.Argument(help="A run, a station, a valve, a drain, a machine, a hull, a cable.")
    ],
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what comes after a thing on its run, and where water goes.

    In order, to where it ends: valves and how they were left, drains, outlets, what goes dead.

    Example: asburied --record larch-end downstream DV-1

    Exit status is 0 once told, 1 if nothing has that tag or it is on no run, 2 if the command
    itself was wrong.
    """
    from record import answers
    from record.answers.stream_words import stream_words
    from record.answers.streams import stream

    seen = view(ctx.obj, known_at, as_of, reader)
    found = stream(seen, spelled(seen, tag), "downstream")
    tell(stream_words(found), answers.json_form(found), as_json)
