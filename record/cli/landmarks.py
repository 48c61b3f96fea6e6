"""asburied landmarks"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view


@app.command()
def landmarks(
    ctx: typer.Context,
    tag: Annotated[
        str | None, typer.Argument(help="What would become harder to find without this one?")
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say which landmarks still stand, and what is harder to find without one, and by how much.

    For each that is lost, or the one that is named: the circle to dig in with it and without it,
    which tapes are left, and what has no check any more.

    Example: asburied --record larch-end landmarks W1

    Exit status is 0 once told, 1 if no landmark has that tag or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record import answers
    from record.answers.landmarks import landmarks as ask
    from record.answers.landmarks import landmarks_words

    seen = view(ctx.obj, known_at, as_of, reader)
    found = ask(seen, spelled(seen, tag) if tag else tag)
    tell(landmarks_words(found), answers.json_form(found), as_json)
