"""asburied unpack"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, now, tell
from record.cli.passphrase import for_a_record, passphrase

if TYPE_CHECKING:
    from record.archive import Unpacked


@app.command()
def unpack(
    ctx: typer.Context,
    bag: Annotated[Path, typer.Argument(metavar="BAG", help="A folder, a .tar, or sealed.")],
    passphrase_file: Annotated[
        Path | None,
        typer.Option(
            "--passphrase-file",
            metavar="FILE",
            help="The passphrase of a sealed bag; else $ASBURIED_PASSPHRASE, else it is asked for.",
        ),
    ] = None,
    identity: Annotated[
        Path | None,
        typer.Option(
            "--identity", metavar="FILE", help="The private key of age that opens a sealed bag."
        ),
    ] = None,
    sealed: Annotated[
        bool,
        typer.Option(
            "--sealed",
            help="Restore it as an encrypted record, with a passphrase of its own: the first line "
            "of the file that $ASBURIED_RECORD_PASSPHRASE_FILE names, else it is asked for.",
        ),
    ] = False,
    as_json: Json = False,
) -> None:
    """
    Restore a record from a bag that `pack` made, into a new folder.

    Every file is held to the bag's manifests, and every line to its hash, before anything is put in
    place; a bag that was tampered with is refused whole, and each bad file is named. For a database
    or a record that is there already: unpack into a new folder, and `merge` that. A sealed bag is
    opened by its passphrase or a key. What is restored lies open on the disk, and while that goes
    on so does what a sealed bag holds. With --sealed the record is encrypted from its first byte,
    and no plain byte of the bag is written anywhere.

    Example: asburied --record larch-end-again unpack /media/stick/larch-end

    Exit status is 0 if it was restored, 1 if it was refused, 2 if the command itself was wrong.
    """
    from record.archive import BadBag, NotOpened
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
        opened = _opening(bag, passphrase_file, identity)
        words = for_a_record() if sealed else None
        done = restore(bag, ctx.obj, received=instant(now()), opened=opened, sealed_with=words)
    except (BadBag, NotOpened) as fault:
        raise Refused(str(fault)) from fault
    tell(_words(done, ctx.obj), _form(done, ctx.obj), as_json)


def _form(done: Unpacked, to: Path) -> dict[str, Any]:
    signed = {"signed_by": done.signed_by or None, "signature": done.signature or None}
    return {**asdict(done), **signed, "record": str(to)}


def _opening(
    bag: Path, words: Path | None, identity: Path | None
) -> Callable[[Path], bytes] | None:
    """Return what opens a sealed bag; None where it is not sealed."""
    from record.archive.seal import asks_for_words, is_sealed, opened_by, opened_with

    if bag.is_dir() or not is_sealed(bag):
        return None
    if asks_for_words(bag):
        said = passphrase(words, twice=False)
        return lambda path: opened_with(path, said)
    if identity is None:
        raise Refused(f"{bag} was sealed for a key; name its file: --identity FILE", 2)
    key = identity
    return lambda path: opened_by(path, key)


def _words(done: Unpacked, to: Path) -> Iterator[str]:
    from record.entry.counted import entries_said

    yield f"Restored: {to}, the record of {done.site}"
    told = "all of what they say" if done.contents == done.entries else f"what {done.contents} say"
    yield f"  {entries_said(done.entries)}, {told}; {done.files} kept files"
    yield f"  checkpoint {done.checkpoint}"
    if done.signed_by:
        yield f"  all of the bag was signed by {done.signed_by}: {done.signature}"
    else:
        yield "  nobody signed the bag: hold the checkpoint against one from elsewhere"
    if done.absent:
        yield f"  {len(done.absent)} files that entries name were not in the bag"
