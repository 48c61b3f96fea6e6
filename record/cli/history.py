"""asburied history"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view
from record.cli.lengths import metres


@app.command()
def history(
    ctx: typer.Context,
    tag: Annotated[str, typer.Argument(help="A thing, a part of one, a panel or a room.")],
    reach: Annotated[
        str,
        typer.Option("--reach", metavar="L", help="Also what was done so near to it; 0 m: not."),
    ] = "1 m",
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Tell everything that happened to a thing, in the order of the work.

    Each entry has both its times: when it was so, and when it was written down. What was mended
    stays, struck with ~, with what it says now and why. Then what was done within reach.

    Example: asburied --record larch-end history AIR-IN

    Exit status is 0 once told, 1 if nothing has that tag or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record.answers import history as answer

    reach_m = metres(reach)
    if reach_m < 0:
        raise Refused(f"a reach of {reach} is none", 2)
    seen = view(ctx.obj, known_at, as_of, reader)
    found = answer.history(seen, spelled(seen, tag), reach_m=reach_m)
    tell(answer.history_words(found), answer.history_form(found), as_json)
