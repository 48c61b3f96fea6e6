"""asburied drift"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def drift(
    ctx: typer.Context,
    tag: Annotated[str | None, typer.Argument(metavar="[TAG]", help="One thing's only.")] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Put every later reading beside that of day one: what moved, and by how much.

    It never says whether a change is safe; a limit is shown where somebody recorded one, with the
    readings past it. Three readings and more are carried on to the limit as a straight line, with
    the doubt of that line.

    Example: asburied --record larch-end drift DP-1

    Exit status is 0 once told, 1 if nothing has that tag, 2 if the command itself was wrong.
    """
    from record.accounts.drift import series
    from record.accounts.drift_words import form, words
    from record.answers.found import find_thing

    seen = view(ctx.obj, known_at, as_of, reader)
    asked = series(seen, find_thing(seen, tag).tag if tag is not None else None)
    tell(words(asked), {"drift": [form(one) for one in asked]}, as_json)
