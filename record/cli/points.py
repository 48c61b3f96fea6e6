"""What somebody was handed, a checkpoint or an edition, held against the record of today."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from record.cli.app import Refused

if TYPE_CHECKING:
    from record.entry import Entry

_HASH = re.compile(r"[0-9a-f]{8,64}")
Lacks = tuple[tuple[str, str], ...]  # entry, what is wrong
Received = Sequence[tuple[str, str]]  # when an entry came in, its hash


@dataclass(frozen=True, slots=True)
class Held:
    """One thing that was handed over, in words, and what of it the record does not hold."""

    what: str
    entries: int  # that it covers; 0 where it cannot be told
    lacks: Lacks = ()


def of_checkpoint(asked: str, entries: Sequence[Entry], received: Received) -> Held:
    """
    Hold a checkpoint against the record: its hash or the first 8 digits, or a file of its heads.

    Raises Refused where ``asked`` is neither.
    """
    if _HASH.fullmatch(asked.casefold()):
        return _of_hash(asked.casefold(), entries, received)
    from record.entry import BadPoint, not_extended, read_heads

    try:
        point = read_heads(Path(asked).read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise Refused(
            f"{asked} is neither a checkpoint nor a file; write its first 8 digits or more, or "
            "put the lines printed under it into a file and name that",
            2,
        ) from None
    except (BadPoint, UnicodeDecodeError) as fault:
        raise Refused(f"{asked}: {fault}", 2) from None
    return Held(f"What {asked} tells", _covered(point.heads), not_extended(point, entries))


def _of_hash(start: str, entries: Sequence[Entry], received: Received) -> Held:
    from record.entry import history

    what = f"Checkpoint {start[:16]}{'…' if len(start) > 16 else ''}"
    for point in history(entries, tuple(_batches(entries, received))):
        if point.hash.startswith(start):
            return Held(what, _covered(point.heads))
    return Held(what, 0, ((start[:16], NOWHERE),))


NOWHERE = (
    "this record gave that checkpoint at no time it knows of. Either something that stood in it "
    "then is gone or changed, or it is of another copy. The lines printed under the checkpoint, in "
    "a file given to --checkpoint, tell which entry."
)


def _batches(entries: Sequence[Entry], received: Received) -> Iterator[list[Entry]]:
    here = {entry.hash: entry for entry in entries}
    for _, batch in groupby(sorted(received), key=lambda one: one[0]):
        yield [here[stored] for _, stored in batch if stored in here]


def _covered(heads: Iterable[tuple[str, int, str]]) -> int:
    return sum({writer: count for writer, count, _ in sorted(heads)}.values())


def of_edition(number: int, entries: Sequence[Entry]) -> Held:
    """Hold an edition's checkpoint against what its entry had seen."""
    from record.entry import checkpoint
    from record.fold import known_to

    issued = [e for e in entries if e.content and e.content.kind == "edition-issued"]
    asked = [e for e in issued if _body(e, "edition") == str(number)]
    what = f"Edition {number}"
    if not asked:
        there = ", ".join(sorted({_body(e, "edition") for e in issued}, key=int)) or "none"
        gone = f"no entry here says it was issued (editions here: {there}). {NOT_HERE}"
        return Held(what, 0, ((what.casefold(), gone),))
    lacks: list[tuple[str, str]] = []
    covers = 0
    for entry in asked:
        then = known_to(entries, entry)
        gives, printed = checkpoint(entry.link.site, then).hash, _body(entry, "checkpoint")
        covers = max(covers, len(then))
        if gives != printed:
            wrong = f"it was printed with checkpoint {printed[:16]}…, and {gives[:16]}… is found"
            lacks.append((entry.number, wrong))
    return Held(what, covers, tuple(lacks))


NOT_HERE = (
    "Whoever holds such an edition holds proof that this record was cut, or is another copy: "
    "its table of heads, in a file given to --checkpoint, tells which entries are gone."
)


def _body(entry: Entry, name: str) -> str:
    return str(entry.content.body.get(name, "")) if entry.content else ""


def unread() -> Held:
    """Return what can be said where a line of the record cannot be read at all."""
    return Held("What was handed over earlier", 0, (("not held", "a line cannot be read"),))


def words(held: Sequence[Held]) -> Iterator[str]:
    """Say of each whether the record of today extends it."""
    for one in held:
        if not one.lacks:
            yield f"{one.what} is extended by this record: all {one.entries} entries it rests on."
            continue
        yield f"{one.what} is NOT extended by this record:"
        yield from (f"  {entry}: {what}" for entry, what in one.lacks)
