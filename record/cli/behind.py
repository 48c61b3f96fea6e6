"""asburied behind"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view
from record.cli.lengths import metres, point


@app.command()
def behind(
    ctx: typer.Context,
    panel: Annotated[str, typer.Argument(help="The panel's tag.")],
    at: Annotated[
        str | None,
        typer.Option(
            "--at", metavar="U,V", help="Only round this point: from its left and bottom edges."
        ),
    ] = None,
    reach: Annotated[
        str, typer.Option("--reach", metavar="L", help="How deep to look, from the room face.")
    ] = "1 m",
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what is recorded behind a panel, how sure, and what is not recorded.

    Offsets are from the panel's own edges as you stand before it, depths from the room face.
    It never says that a place is clear to drill.

    Example: asburied --record larch-end behind A-L3 --at "0.40 m,0.60 m" --reader technician

    Exit status is 0 once told, 1 if there is no such panel or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record import answers

    seen = view(ctx.obj, known_at, as_of, reader)
    answer = answers.behind(
        seen,
        spelled(seen, panel),
        at=point(at) if at else None,
        reach_m=metres(reach),
    )
    tell(answers.behind_words(answer), answers.json_form(answer), as_json)
