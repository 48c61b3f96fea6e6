"""A record again from its bag: all of it, checked, or nothing."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from record.archive.check import BadBag, checked_copy
from record.archive.untar import untar
from record.entry import Entry, checkpoint, stubs, tips
from record.halves import half_of
from record.log import Log, LogFault, NotMerged, handed_over, merge, verify
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
    bag: Path, to: Path, *, received: str, opened: Callable[[Path], bytes] | None = None
) -> Unpacked:
    """
    Restore the record of a bag, a folder or a tar, in ``to``, which holds nothing yet.

    ``opened`` gives the tar that a sealed file holds. What is opened lies beside ``to``, for its
    owner alone, until the record is whole. Raises BadBag, naming the file, and LogFault where the
    disk refuses.
    """
    if to.is_symlink() or (to.exists() and not (to.is_dir() and not any(to.iterdir()))):
        raise LogFault(f"{to} is there already; nothing was restored. Name a new folder.")
    work = half_of(to.absolute())
    try:
        work.mkdir(0o700, parents=True)
        folder = bag
        if not bag.is_dir():
            tar = bag
            if opened is not None:
                tar = work / "opened.tar"
                write_file(tar, [opened(bag)])
            folder = untar(tar, work / "bag")
        try:
            proof = checked_copy(folder, work / "copy")
        except BadBag as fault:  # it knows a tar by where that was taken apart
            raise BadBag(str(fault).replace(str(folder), str(bag))) from fault
        done = _restored(bag, work / "copy" / "data", work / "record", received, proof)
        (work / "record").rename(to)
    except OSError as fault:
        name = fault.filename if fault.filename else to
        raise LogFault(f"{name}: {fault.strerror or fault}; nothing was restored") from fault
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return done


def _restored(bag: Path, data: Path, to: Path, received: str, proof: Proof | None) -> Unpacked:
    try:
        handed = handed_over(data)
        with Log.make(to) as log:
            merged = merge(log, [handed], received=received)
            verdict = verify(log.lines())
            entries = log.entries()
            lacks = stubs(entries)
            if proof is not None and lacks is not None:
                log.files.put(PACKED, lacks, ".json", proof.written())
    except NotMerged as fault:
        words = str(fault).replace(f"{data}: ", "data/").removesuffix("; nothing was merged")
        raise BadBag(f"{bag}: {words}; nothing was restored") from fault
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
