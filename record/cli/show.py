"""asburied show"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view


@app.command()
def show(
    ctx: typer.Context,
    tag: Annotated[str, typer.Argument(help="A thing, or a part of one such as AIR-IN/2.")],
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Show one thing as it stands, each field with the entry it rests on.

    Two statements that differ, neither written knowing the other, are both shown as not settled.

    Example: asburied --record larch-end show AIR-IN --as-known-at 2022-05-18T20:00

    Exit status is 0 once told, 1 if nothing has that tag or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record.answers import show as answer

    seen = view(ctx.obj, known_at, as_of, reader)
    shown = answer.show(seen, spelled(seen, tag))
    tell(answer.show_words(shown), answer.show_form(shown), as_json)
