"""asburied proofs"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def proofs(
    ctx: typer.Context,
    tag: Annotated[str | None, typer.Argument(metavar="[TAG]", help="One thing's only.")] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    List the tests that passed: which still prove something, and what has undone the others.

    Drilling, welding, cutting or opening finished work undoes what was proved of it, until the
    same test is passed again.

    Example: asburied --record larch-end proofs A --as-of 2022-06-15

    Exit status is 0 if every proof stands, 1 if one does not or nothing has that tag, 2 if the
    command itself was wrong.
    """
    from record.accounts.proof_words import form, words
    from record.accounts.proofs import STANDS
    from record.accounts.proofs import proofs as ask
    from record.answers.found import find_thing

    seen = view(ctx.obj, known_at, as_of, reader)
    asked = ask(seen, find_thing(seen, tag).tag if tag is not None else None)
    tell(words(asked), {"proofs": [form(one) for one in asked]}, as_json)
    if any(one.state != STANDS for one in asked):
        raise typer.Exit(1)
