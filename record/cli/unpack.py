"""asburied unpack"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, now, tell

if TYPE_CHECKING:
    from record.archive import Unpacked


@app.command()
def unpack(
    ctx: typer.Context,
    bag: Annotated[Path, typer.Argument(metavar="BAG", help="The bag: a folder, or a .tar.")],
    as_json: Json = False,
) -> None:
    """
    Restore a record from a bag that `pack` made, into a new folder.

    Every file is held to the bag's manifests, and every line to its hash, before anything is put in
    place; a bag that was tampered with is refused whole, and each bad file is named. For a database
    or a record that is there already: unpack into a new folder, and `merge` that.

    Example: asburied --record larch-end-again unpack /media/stick/larch-end

    Exit status is 0 if it was restored, 1 if it was refused, 2 if the command itself was wrong.
    """
    from record.archive import BadBag
    from record.archive import unpack as restore
    from record.posting.clock import instant

    if not isinstance(ctx.obj, Path):
        raise Refused(
            f"a bag is unpacked into a folder: asburied --record FOLDER unpack {bag}, then "
            f"asburied --record {ctx.obj} merge FOLDER",
            2,
        )
    if not bag.exists():
        raise Refused(f"{bag} is not there", 2)
    try:
        done = restore(bag, ctx.obj, received=instant(now()))
    except BadBag as fault:
        raise Refused(str(fault)) from fault
    tell(_words(done, ctx.obj), {**asdict(done), "record": str(ctx.obj)}, as_json)


def _words(done: Unpacked, to: Path) -> Iterator[str]:
    yield f"Restored: {to}, the record of {done.site}"
    told = "all of what they say" if done.contents == done.entries else f"what {done.contents} say"
    yield f"  {done.entries} entries, {told}; {done.files} kept files"
    yield f"  checkpoint {done.checkpoint}"
    if done.absent:
        yield f"  {len(done.absent)} files that entries name were not in the bag"
