"""A record again from its bag: all of it, checked, or nothing."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from record.archive.check import BadBag, FolderBag, checked_copy
from record.archive.in_place import handed_in_place
from record.archive.untar import TarBag, untar
from record.entry import Entry, checkpoint, stubs, tips
from record.halves import half_of
from record.log import Handed, Log, LogFault, NotMerged, handed_over, merge, verify
from record.log.whole import write_file
from record.proof import PACKED, SIGNATURE, Proof
from record.trust import OfKey, judged


@dataclass(frozen=True, slots=True)
class Unpacked:
    """
    What was restored: entries, how many of them say what they say, files, and the checkpoint.

    ``absent`` are files that entries name and the bag does not hold.
    """

    site: str
    entries: int
    contents: int
    files: int
    absent: tuple[str, ...]
    checkpoint: str
    signed_by: str = ""  # whoever signed the bag; "" where nobody did
    signature: str = ""  # what that is worth: a Standing, and why


def unpack(
    bag: Path,
    to: Path,
    *,
    received: str,
    opened: Callable[[Path], bytes] | None = None,
    sealed_with: str | None = None,
) -> Unpacked:
    """
    Restore the record of a bag, a folder or a tar, in ``to``, which holds nothing yet.

    ``opened`` gives the tar that a sealed file holds. With ``sealed_with`` the record is encrypted
    with that passphrase from its first byte, and the bag is read where it lies: nothing of it is
    written plain. Without, what is opened lies beside ``to``, for its owner alone, until the record
    is whole. Raises BadBag, naming the file, and LogFault where the disk refuses.
    """
    if to.is_symlink() or (to.exists() and not (to.is_dir() and not any(to.iterdir()))):
        raise LogFault(f"{to} is there already; nothing was restored. Name a new folder.")
    work = half_of(to.absolute())
    try:
        work.mkdir(0o700, parents=True)
        with _handed(bag, work, opened, in_place=sealed_with is not None) as (handed, proof):
            done = _restored(bag, handed, work / "record", received, proof, sealed_with)
        (work / "record").rename(to)
    except NotMerged as fault:
        raise _bad(bag, fault) from fault
    except OSError as fault:
        name = fault.filename if fault.filename else to
        raise LogFault(f"{name}: {fault.strerror or fault}; nothing was restored") from fault
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return done


@contextmanager
def _handed(
    bag: Path, work: Path, opened: Callable[[Path], bytes] | None, *, in_place: bool
) -> Iterator[tuple[Handed, Proof | None]]:
    """Give the record that a bag holds, every file held to its hash, and the bag's signature."""
    if not in_place:
        folder = _taken_apart(bag, work, opened)
        try:
            proof = checked_copy(folder, work / "copy")
        except BadBag as fault:  # it knows a tar by where that was taken apart
            raise BadBag(str(fault).replace(str(folder), str(bag))) from fault
        yield handed_over(work / "copy" / "data"), proof
        return
    source: FolderBag | TarBag
    if bag.is_dir():
        source = FolderBag(bag)
    else:
        source = TarBag(bag, None if opened is None else opened(bag))
    try:
        handed, held = handed_in_place(source)
        yield handed, held.proof
    finally:
        if isinstance(source, TarBag):
            source.close()


def _taken_apart(bag: Path, work: Path, opened: Callable[[Path], bytes] | None) -> Path:
    if bag.is_dir():
        return bag
    tar = bag
    if opened is not None:
        tar = work / "opened.tar"
        write_file(tar, [opened(bag)])
    return untar(tar, work / "bag")


def _bad(bag: Path, fault: NotMerged) -> BadBag:
    where, mark, words = str(fault).partition("/data: ")
    told = f"data/{words}" if mark else where
    return BadBag(f"{bag}: {told.removesuffix('; nothing was merged')}; nothing was restored")


def _restored(
    bag: Path,
    handed: Handed,
    to: Path,
    received: str,
    proof: Proof | None,
    sealed_with: str | None,
) -> Unpacked:
    with Log.make(to, sealed_with=sealed_with) as log:
        merged = merge(log, [handed], received=received)
        verdict = verify(log.lines())
        entries = log.entries()
        lacks = stubs(entries)
        if proof is not None and lacks is not None:
            log.files.put(PACKED, lacks, ".json", proof.written())
    if not verdict.sound:
        first = verdict.faults[0]
        raise BadBag(f"{bag}: {first.entry}: {first.problem}; nothing was restored")
    if not entries:
        raise BadBag(f"{bag}: data/links.jsonl holds no entry; nothing was restored")
    of_key = _signature(bag, proof, entries) if proof else None
    return Unpacked(
        entries[0].link.site,
        len(entries),
        sum(1 for entry in entries if entry.content is not None),
        len(merged.files),
        merged.absent,
        checkpoint(entries[0].link.site, entries).hash,
        of_key.signer if of_key else "",
        of_key.worth if of_key else "",
    )


def _signature(bag: Path, proof: Proof, entries: Sequence[Entry]) -> OfKey:
    """Return whose signature it is. Raises BadBag where it is over something else, or nobody's."""
    counts = {writer: heads[0].link.seq for writer, heads in tips(entries).items()}
    of_key = judged(proof, entries, counts)
    if not of_key.counts:
        raise BadBag(f"{bag}: {SIGNATURE}: {of_key.why}; nothing was restored")
    return of_key
