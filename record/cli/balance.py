"""asburied balance"""

from __future__ import annotations

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def balance(
    ctx: typer.Context,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Hold what came against what was built in, sent back and kept.

    Names what was planned and never came, what came and was never built in, and what is built in
    and never came. What is built in is counted from the record itself.

    Example: asburied --record larch-end balance

    Exit status is 0 if all adds up or cannot be told, 1 if something does not add up, 2 if the
    command itself was wrong.
    """
    from record.accounts.balance import accounts
    from record.accounts.balance_words import form, words

    kept = accounts(view(ctx.obj, known_at, as_of, reader))
    tell(words(kept), {"balance": [form(one) for one in kept]}, as_json)
    if any(not one.even and (one.left is not None or not one.came) for one in kept):
        raise typer.Exit(1)
