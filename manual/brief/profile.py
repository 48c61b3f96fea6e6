"""asburied profile"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from record.cli import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, spelled, tell, view


@app.command()
def profile(
    ctx: typer.Context,
    run: Annotated[str, typer.Argument(metavar="RUN", help="The run's tag.")],
    svg: Annotated[
        Path | None,
        typer.Option("--svg", metavar="FILE", help="Also draw it to scale in this new file."),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Show a run from the side: levels, falls, low points, cover, and the frost line.

    A table of its stations, a picture in the terminal, and to scale as SVG. Between stations
    nothing was measured, and it says so.

    Example: asburied --record larch-end profile D-1 --svg D-1.svg

    Exit status is 0 once told, 1 if there is no such run, the file is there already or the record
    cannot be read, 2 if the command itself was wrong.
    """
    from record import answers
    from record.answers.profile import profile as ask
    from record.answers.profile_words import profile_words

    seen = view(ctx.obj, known_at, as_of, reader)
    found = ask(seen, spelled(seen, run))
    words = profile_words(found)
    if svg is not None:
        from manual.drawings.long_section import long_section
        from manual.plans.drawn import run_section

        drawn = run_section(seen, seen.built.things[found.tag])
        if drawn is None:
            raise Refused(f"{found.tag} cannot be drawn: fewer than two stations have a level", 1)
        _write(svg, long_section(drawn).svg)
        words.append(f"Drawn to scale in {svg}.")
    tell(words, answers.json_form(found), as_json)


def _write(path: Path, text: str) -> None:
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise Refused(f"{path} is there already; give a new name", 1) from None
