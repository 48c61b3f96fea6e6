"""asburied rests-on"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command("rests-on")
def rests_on(
    ctx: typer.Context,
    what: Annotated[
        str, typer.Argument(help="A landmark, benchmark, hull, instrument, lot, batch or person.")
    ],
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what depends on a mark, an instrument, a lot or a person, and what holds without it.

    Places through their ties, levels through their runs, tests by instrument, coats by lot.

    Example: asburied --record larch-end rests-on W1

    Exit status is 0 once told, 1 if the record knows nothing of that name or cannot be read,
    2 if the command itself was wrong.
    """
    from record import answers
    from record.answers.rests_on import rests_on as ask
    from record.answers.rests_on_words import rests_on_words

    answer = ask(view(ctx.obj, known_at, as_of, reader), what)
    tell(rests_on_words(answer), answers.json_form(answer), as_json)
