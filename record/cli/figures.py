"""asburied figures"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def figures(
    ctx: typer.Context,
    asked: Annotated[
        str | None,
        typer.Argument(metavar="NAME or TAG", help="Only this sum, or only of this thing."),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Work every sum the record can feed, with its inputs and the entries they rest on.

    Nothing is guessed: a usual value is told as usual, and a figure whose inputs are not recorded
    comes last, with what to record.

    Example: asburied --record larch-end figures uplift

    Exit status is 0 once told, 1 if there is no such sum or tag, 2 if the command itself was wrong.
    """
    from record.figures import chosen, form, words
    from record.figures import figures as every
    from record.reckon import SUMS

    seen = view(ctx.obj, known_at, as_of, reader)
    found = every(seen)
    if asked is not None:
        found = chosen(found, asked)
        if not found and asked not in SUMS and asked not in seen.built.things:
            raise Refused(_unknown(asked, (*SUMS, *seen.built.things)))
    none = () if found else (f"No figure is fed from the record for {asked or 'anything'}.",)
    said = (*words(found, seen.withheld), *none)
    tell(said, {"figures": [form(one) for one in found]}, as_json)


def _unknown(asked: str, names: Iterable[str]) -> str:
    near = get_close_matches(asked, list(names), 1, 0.5)
    hint = f"Did you mean {near[0]}?" if near else "`asburied reckon` lists the sums."
    return f'there is no sum and no tag "{asked}". {hint}'
