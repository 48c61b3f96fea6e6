"""asburied pack"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, tell

if TYPE_CHECKING:
    from record.archive import Packed

SHOWN = 12  # files that are missing, by name


@app.command()
def pack(
    ctx: typer.Context,
    to: Annotated[
        Path,
        typer.Argument(metavar="TO", help="The bag: a new folder, or one file that ends in .tar."),
    ],
    reader: Annotated[
        str,
        typer.Option(
            "--for",
            metavar="READER",
            help="Whose copy: owner, technician, trade or responder; what they may see goes in.",
        ),
    ] = "owner",
    as_json: Json = False,
) -> None:
    """
    Pack the record for keeping or handing on, so that it can be read and checked without asburied.

    It is a BagIt 1.0 bag (RFC 8493): the entry lines as JSON, pictures, sheets, editions, a CSV
    table and a page of words for each kind, and a README on how to check it all with sha256sum,
    openssl and a text editor. The same record gives the same bytes. A reader's copy holds every
    link, so that it verifies, and of contents and pictures what they may see.

    Example: asburied --record larch-end pack larch-end-technician --for technician

    Exit status is 0 if it was packed, 1 if it could not be, 2 if the command itself was wrong.
    """
    from record.archive import packed, write_folder, write_tar
    from record.archive.write import refuse_what_is_there, tar_pieces
    from record.facts import READERS
    from record.log import Log
    from record.readers import look

    if reader not in READERS:
        raise Refused(f'"{reader}" is not a reader; readers are {", ".join(READERS)}', 2)
    refuse_what_is_there(to)
    with Log.open(ctx.obj) as log:
        bag = packed(look(log.entries(), reader), log.files)
        if to.suffix == ".tar":
            write_tar(tar_pieces(bag.files, to.stem), to)
        else:
            write_folder(bag.files, to)
    tell(_words(bag, to), _form(bag, to), as_json)


def _words(bag: Packed, to: Path) -> Iterator[str]:
    yield f"Packed for {bag.reader}: {to}"
    told = "all of what they say" if bag.contents == bag.entries else f"what {bag.contents} say"
    yield f"  {bag.entries} entries, {told}; {bag.kept} kept files; {len(bag.files)} files in all"
    yield f"  checkpoint {bag.checkpoint}"
    yield "  README.txt in it says how to check it"
    if bag.absent:
        shown = ", ".join(name[: name.index("/") + 13] + "…" for name in bag.absent[:SHOWN])
        yield f"{len(bag.absent)} files that entries name are not in this record: {shown}"


def _form(bag: Packed, to: Path) -> dict[str, Any]:
    return {
        "bag": str(to),
        "site": bag.site,
        "reader": bag.reader,
        "entries": bag.entries,
        "contents": bag.contents,
        "kept_files": bag.kept,
        "files_absent": list(bag.absent),
        "checkpoint": bag.checkpoint,
    }
