"""asburied find"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view


@app.command()
def find(
    ctx: typer.Context,
    tag: Annotated[str, typer.Argument(help="A hidden thing, a run, or one station: AIR-IN/2.")],
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say where to dig for a hidden thing: two tapes, which side, a check, how deep, how sure.

    Landmarks that are lost are not offered. It is what was recorded, never a clearance to dig.

    Example: asburied --record larch-end find AIR-IN/2

    Exit status is 0 once told, 1 if nothing has that tag or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record import answers
    from record.answers.find import find as ask
    from record.answers.find_words import find_words

    seen = view(ctx.obj, known_at, as_of, reader)
    found = ask(seen, spelled(seen, tag))
    tell(find_words(found), answers.json_form(found), as_json)
