"""asburied seal, and asburied unseal"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, tell
from record.cli.passphrase import another, for_a_record

if TYPE_CHECKING:
    from record.log.convert import Converted

SHOWN = 12  # files that are somebody's own, by name
LOST = "A passphrase that is lost is lost for good, and the record with it."


@app.command()
def seal(
    ctx: typer.Context,
    change: Annotated[
        bool, typer.Option("--change", help="Give an encrypted record another passphrase.")
    ] = False,
    new_file: Annotated[
        Path | None,
        typer.Option(
            "--new-passphrase-file",
            metavar="FILE",
            help="With --change: a file whose first line is the new one; else it is asked for.",
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """
    Encrypt the record on the disk: its lines, pictures, sheets, editions and index.

    The encrypted one is made beside the plain, read back and held to it, before it counts and the
    plain files are removed; cut short at any moment it is the one or the other, and run again it
    goes on. Removed files may still be found in free blocks of the disk, and in copies of it made
    before. The passphrase is the first line of the file that $ASBURIED_RECORD_PASSPHRASE_FILE
    names, else it is asked for, twice. With --change everything is encrypted anew, with new keys;
    copies made before open by the old passphrase. A passphrase that is lost is lost for good, and
    the record with it.

    Example: asburied --record larch-end seal

    Exit status is 0 if it is encrypted, 1 if it could not be and is as it was, 2 if the command
    itself was wrong.
    """
    from record.log import Folder, Log, NotARecord
    from record.log.convert import finish
    from record.log.convert import seal as encrypt
    from record.recall.many import forget_record

    path = _folder(ctx.obj)
    if not Folder(path).database.is_file():
        raise NotARecord(f"{path} is not a record")
    there = bool(Folder(path).sealed())
    if new_file is not None and not change:
        raise Refused("--new-passphrase-file goes with --change", 2)
    if change and not there:
        raise Refused(f"{path} is not encrypted: it has no passphrase to change", 2)
    if there and not change:
        done, head = finish(path), f"{path} is encrypted already"
    else:
        Log.open(path).close()  # the old passphrase is asked for before the new
        done = encrypt(path, another(new_file) if change else for_a_record())
        head = f"{path} is encrypted{' anew' if change else ''}"
    forget_record(path)
    tell(_sealed_words(head, done, path), {**asdict(done), "record": str(path)}, as_json)


@app.command()
def unseal(ctx: typer.Context, as_json: Json = False) -> None:
    """
    Make an encrypted record plain again: whoever has its folder can read it then.

    The plain one is made beside the encrypted, read back and held to it, before it counts; cut
    short at any moment the record is still the encrypted one, and `seal` removes what was made.

    Example: asburied --record larch-end unseal

    Exit status is 0 if it is plain, 1 if it could not be made so and is as it was, 2 if the
    command itself was wrong.
    """
    from record.log.convert import unseal as decrypt

    path = _folder(ctx.obj)
    done = decrypt(path)
    words = [f"{path} is plain: {_count(done)}. Whoever has the folder can read it."]
    tell(words, {**asdict(done), "record": str(path)}, as_json)


def _folder(at: object) -> Path:
    if not isinstance(at, Path):
        raise Refused("a record in a database is not sealed here: encrypt the server's disk", 2)
    return at


def _count(done: Converted) -> str:
    from record.entry.counted import entries_said

    return f"{entries_said(done.entries)}, {done.files} kept files"


def _sealed_words(head: str, done: Converted, path: Path) -> Iterator[str]:
    yield f"{head}: {_count(done)}. {LOST}"
    if done.removed:
        yield f"Removed: {done.removed} files of it that lay open or opened otherwise."
    if done.left:
        more = f" and {len(done.left) - SHOWN} more" if len(done.left) > SHOWN else ""
        yield f"Not the record's, left open in {path}: {', '.join(done.left[:SHOWN])}{more}"
