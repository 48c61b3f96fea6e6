"""asburied fixings"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view
from record.cli.lengths import metres, size


@app.command()
def fixings(
    ctx: typer.Context,
    panel: Annotated[str, typer.Argument(help="The panel's tag.")],
    deep: Annotated[
        str, typer.Option("--depth", metavar="D", help="How deep a hole, from the room face.")
    ],
    room: Annotated[
        str | None,
        typer.Option("--size", metavar="WxH", help='Room for this: "300 mm x 200 mm".'),
    ] = None,
    margin: Annotated[
        str,
        typer.Option(
            "--margin", metavar="M", help="Kept beside what is recorded and from the edges."
        ),
    ] = "50 mm",
    pitch: Annotated[
        str, typer.Option("--grid", metavar="L", help="How far apart the marks are.")
    ] = "100 mm",
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say where holes of a depth keep out of everything recorded behind a panel.

    Zones to keep out of and why, the largest rectangle with nothing recorded in it, a grid of
    marks. Where nobody looked it says unknown; it never says clear, and never advises the shell.

    Example: asburied --record larch-end fixings A-R1 --depth "40 mm" --size "300 mm x 200 mm"

    Exit status is 0 once told, 1 if there is no such panel or the record cannot be read, 2 if
    the command itself was wrong.
    """
    from record import answers
    from record.answers.fixings import fixings as ask
    from record.answers.fixings_words import fixings_words

    depth_m, margin_m, pitch_m = metres(deep), metres(margin), metres(pitch)
    size_m = size(room) if room else None
    seen = view(ctx.obj, known_at, as_of, reader)
    found = ask(
        seen,
        spelled(seen, panel),
        depth_m=depth_m,
        size_m=size_m,
        margin_m=margin_m,
        pitch_m=pitch_m,
    )
    tell(fixings_words(found), answers.json_form(found), as_json)
