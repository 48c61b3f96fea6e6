"""asburied fill"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def fill(
    ctx: typer.Context,
    tag: Annotated[str | None, typer.Argument(metavar="[TAG]", help="One thing's only.")] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    List the fill by side and lift, and how the hull's shape moved while it went in.

    Each lift stands beside the opposite side as it then was; limits are those of the engineer.

    Example: asburied --record larch-end fill FILL-AB

    Exit status is 0 once told, 1 if nothing has that tag, 2 if the command itself was wrong.
    """
    from record.accounts.fill import form, lifts, shapes, words
    from record.answers.found import find_thing

    seen = view(ctx.obj, known_at, as_of, reader)
    whole = find_thing(seen, tag).tag if tag is not None else None
    put_in, followed = lifts(seen, whole), shapes(seen, whole)
    tell(words(put_in, followed), form(put_in, followed), as_json)
