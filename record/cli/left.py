"""asburied left"""

from __future__ import annotations

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def left(
    ctx: typer.Context,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what is only there for a time and still on, and how every valve and switch was left.

    What was served or opened after it was last left is in no known position until somebody says.

    Example: asburied --record larch-end left

    Exit status is 0 if nothing is still on or left for a time and every position is known, 1 if
    not, 2 if the command itself was wrong.
    """
    from record.accounts.left import for_a_time, form, positions, still_on, words

    seen = view(ctx.obj, known_at, as_of, reader)
    on, places = still_on(seen), positions(seen)
    tell(words(on, places, seen.withheld), form(on, places), as_json)
    if on or for_a_time(places) or any(place.state == "not known" for place in places):
        raise typer.Exit(1)
