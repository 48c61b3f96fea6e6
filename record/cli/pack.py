"""asburied pack"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import Refused, app
from record.cli.asking import Json, tell
from record.cli.passphrase import passphrase

if TYPE_CHECKING:
    from record.archive import HeldBack, Packed
    from record.entry import Entry
    from record.log.folder import Files

SHOWN = 12  # files that are missing, by name
LIES_OPEN = "Whoever has it can read it: the record is encrypted, and this bag is not (--sealed)."


@app.command()
def pack(
    ctx: typer.Context,
    to: Annotated[
        Path,
        typer.Argument(metavar="TO", help="A new folder; one file for .tar, or sealed."),
    ],
    reader: Annotated[
        str,
        typer.Option(
            "--for",
            metavar="READER",
            help="Whose copy: owner, technician, trade or responder; what they may see goes in.",
        ),
    ] = "owner",
    sealed: Annotated[
        bool,
        typer.Option(
            "--sealed",
            help="Encrypt it, as one file, with a passphrase: from --passphrase-file, else "
            "$ASBURIED_PASSPHRASE, else it is asked for.",
        ),
    ] = False,
    passphrase_file: Annotated[
        Path | None,
        typer.Option(
            "--passphrase-file", metavar="FILE", help="A file whose first line is the passphrase."
        ),
    ] = None,
    recipients: Annotated[
        list[str] | None,
        typer.Option(
            "--recipient",
            metavar="age1…",
            help="With --sealed: encrypt for this public key of age instead. Repeatable.",
        ),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option(
            "--without",
            metavar="TAG",
            help="Hold back all that is about this thing or names it, or one entry by its number. "
            "Repeatable.",
        ),
    ] = None,
    signer: Annotated[
        str | None,
        typer.Option(
            "--as", metavar="WRITER", help="Sign all of it, by the key of this writer here."
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """
    Pack the record for keeping or handing on, so that it can be read and checked without asburied.

    It is a BagIt 1.0 bag (RFC 8493): the entry lines as JSON, pictures, sheets, editions, a CSV
    table and a page of words for each kind, and a README on how to check it all with sha256sum,
    openssl and a text editor. The same record gives the same bytes. A reader's copy holds every
    link, so that it verifies, and of contents and pictures what they may see. With --without, as
    when a house is sold, what tells of a thing by its tag stays out as well; words that tell of it
    by no tag are for you to find (asburied entries), and to name by their entry. With --as all of
    it is signed: whoever unpacks a changed one is told, and a copy can be held to the signature
    ever after. Sealed, it is one file that the age tools open too: a passphrase that is lost is
    lost for good.

    Example: asburied --record larch-end pack larch-end-technician --for technician --as ow

    Exit status is 0 if it was packed, 1 if it could not be, 2 if the command itself was wrong.
    """
    from record.archive import packed, write_folder, write_tar
    from record.archive.write import refuse_what_is_there
    from record.facts import READERS
    from record.log import Log
    from record.readers import look
    from record.trust import keys_folder, read_key

    if reader not in READERS:
        raise Refused(f'"{reader}" is not a reader; readers are {", ".join(READERS)}', 2)
    if not sealed and (passphrase_file or recipients):
        raise Refused("only a sealed bag has a passphrase or recipients; add --sealed", 2)
    if passphrase_file and recipients:
        raise Refused("a bag is sealed with a passphrase or for keys, not both", 2)
    refuse_what_is_there(to)
    key = read_key(keys_folder(os.environ), signer) if signer else None
    seal = _sealing(passphrase_file, recipients or []) if sealed else None
    with Log.open(ctx.obj) as log:
        entries, out = log.entries(), None
        if without:
            out = _held_back(entries, without, log.files)
            more = _seen_less(entries, out.entries, reader)
            seen = look(out.entries, reader, whole=entries)
            bag = packed(seen, log.files, held_back=more, key=key)
        else:
            bag = packed(look(entries, reader), log.files, key=key)
        if seal is not None:
            write_tar(seal(_tar(bag, to)), to)
        elif to.suffix == ".tar":
            write_tar(_tar(bag, to), to)
        else:
            write_folder(bag.files, to)
        open_now = seal is None and log.vault is not None
    half = out.half if out else ()
    tell(
        [*_words(bag, to), *_half_words(half), *([LIES_OPEN] if open_now else [])],
        {**_form(bag, to), "told_of_still": list(half)},
        as_json,
    )


def _held_back(entries: Sequence[Entry], asked: Sequence[str], files: Files) -> HeldBack:
    from record.archive import NothingSuch, held_back

    try:
        return held_back(entries, asked, files)
    except NothingSuch as fault:
        raise Refused(str(fault)) from fault


def _seen_less(whole: Sequence[Entry], held: Sequence[Entry], reader: str) -> int:
    """Return how many entries that this reader may see are held back."""
    shown = {e.hash for e in held if e.content is not None}
    return sum(
        e.hash not in shown and (reader == "owner" or reader in e.content.readers)
        for e in whole
        if e.content is not None
    )


def _half_words(half: Sequence[str]) -> Iterator[str]:
    if half:
        yield (
            "Of these an entry was held back, as it named or showed the same; they are told of "
            f"still: {', '.join(half)}"
        )
        yield "  Add --without for one that should not be."


def _tar(bag: Packed, to: Path) -> Iterator[bytes]:
    from record.archive.write import tar_pieces

    return tar_pieces(bag.files, to.name.partition(".")[0] or bag.site)


def _sealing(
    words: Path | None, recipients: Sequence[str]
) -> Callable[[Iterable[bytes]], Iterable[bytes]]:
    from record.archive.seal import sealed_for, sealed_with

    if recipients:
        return lambda pieces: sealed_for(pieces, recipients)
    said = passphrase(words, twice=True)
    return lambda pieces: sealed_with(pieces, said)


def _words(bag: Packed, to: Path) -> Iterator[str]:
    from record.entry.counted import entries_said

    yield f"Packed for {bag.reader}: {to}"
    told = "all of what they say" if bag.contents == bag.entries else f"what {bag.contents} say"
    files = f"{bag.kept} kept files; {len(bag.files)} files in all"
    yield f"  {entries_said(bag.entries)}, {told}; {files}"
    if bag.held_back:
        held_back = entries_said(bag.held_back)
        yield f"  held back: {held_back}; the README says so, and not what they are"
    yield f"  checkpoint {bag.checkpoint}"
    yield f"  signed by {bag.signed_by}" if bag.signed_by else "  nobody signed it (--as WRITER)"
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
        "held_back": bag.held_back,
        "kept_files": bag.kept,
        "files_absent": list(bag.absent),
        "checkpoint": bag.checkpoint,
        "signed_by": bag.signed_by or None,
    }
