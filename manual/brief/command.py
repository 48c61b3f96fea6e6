"""asburied brief"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from record.cli import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, asked_words, spelled, tell, view


@app.command()
def brief(
    ctx: typer.Context,
    tag: Annotated[str, typer.Argument(metavar="PANEL|TAG", help="What will be worked on.")],
    at: Annotated[
        str | None,
        typer.Option("--at", metavar="U,V", help="A point on the panel, from its left and bottom."),
    ] = None,
    writer: Annotated[str, typer.Option("--writer", help="Who writes the sheet; else a gap.")] = "",
    out: Annotated[
        Path, typer.Option("--out", metavar="FOLDER", help="Where both files go.")
    ] = Path(),
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Print one or two pages to take along, and a sheet beside them to write what was found.

    For a panel what lies behind it, drawn with its measures; for another thing what is recorded
    of it; then hazards, what to shut first, what was done there, and blanks. The sheet asks the
    same as the blanks do, and posts back.

    Example: asburied --record larch-end brief A-L3 --reader technician --out .

    Exit status is 0 if both files were written, 1 if there is no such thing, the sheet is there
    already or the pages cannot be printed, 2 if the command itself was wrong.
    """
    from manual.brief.form import brief_form
    from manual.brief.press import press_brief
    from manual.brief.told import brief as make
    from manual.printing.press import PressFault
    from record.blank import Form, write
    from record.cli.asking import today_there
    from record.cli.blank import part_for
    from record.cli.lengths import point
    from record.log.whole import put_whole

    seen = view(ctx.obj, known_at, as_of, reader)
    tag = spelled(seen, tag)
    whole = make(seen, tag, at=point(at) if at else None)
    name = f"{seen.built.site}-brief-{tag.replace('/', '-')}"
    if reader != "owner":
        name += f"-{reader}"
    sheet, page = out / f"{name}.md", out / f"{name}.pdf"
    day, zone = today_there(seen, None)
    form = Form(
        day=day,
        writer=writer,
        part=part_for(seen, day, f"brief {tag}"),
        site=seen.built.site,
        zone=zone,
        notes=(f"What was found at {tag}, and how it was left.",),
        blocks=whole.blocks,
    )
    try:
        pressed = press_brief(seen, whole, sheet=sheet.name, asked=asked_words())
    except PressFault as fault:
        raise Refused(f"the brief was not printed: {fault}") from fault
    out.mkdir(parents=True, exist_ok=True)
    try:
        with sheet.open("x", encoding="utf-8") as file:
            file.write(write(form))
    except FileExistsError as fault:
        raise Refused(f"{sheet} is there already, and may be half filled in") from fault
    put_whole(page, [pressed.pdf])
    more = f"; {pressed.earlier} of the past left out" if pressed.earlier else ""
    words = [
        f"{page}: {pressed.pages} page{'' if pressed.pages == 1 else 's'}{more}",
        f"{sheet}: fill it in, then `asburied post {sheet}`",
    ]
    tell(words, brief_form(whole, pressed, page=page, sheet=sheet), as_json)
