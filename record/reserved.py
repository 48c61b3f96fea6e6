"""What a copy keeps reserved of what it does not hold, as worked out when it was packed.

Whoever packs has the whole record, and knows which panels and which modules of ground are to be
left alone. Of each panel that, and of each module, goes along: yes or no, as the one gate answers
from the whole record, and nothing of why. It is bound to the very contents that the copy lacks and
to the heads of the record; where anything may be otherwise by now, all is reserved.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Protocol

from record.entry import Entry, checkpoint, stubs
from record.facts import STORED
from record.place import FaceFrame
from record.proof import PACKED, Proof, read_proof
from record.trust import OfKey, judged

FORM = 1  # raised whenever the meaning of what is carried changes
PLACE, SUFFIX = "reserved", ".json"
MOST_M = 10  # whole metres behind a panel that are told of; farther back all is reserved
#: What may have come in since without moving anything, by kind: it is told, and places nothing.
MOVES_NOTHING = frozenset({
    "remark", "sheet posted", "photographed", "tested", "inspected", "serviced", "left as",
    "reading taken", "weld inspected", "coating inspected", "compaction tested",
    "pressure tested", "flow tested", "holiday tested", "contents checked", "copy handed over",
    "writer key", "signed off", "witness point", "edition issued", "worked by others",
    "opened up", "pass returned",
})  # fmt: skip


class _Found(Protocol):
    @property
    def data(self) -> bytes: ...

    @property
    def sha256(self) -> str: ...


class _Files(Protocol):
    def found(self, what: str, sha256: str) -> _Found | None: ...


Box = tuple[float, float, float, float]
Undone = tuple[str, str | None, tuple[str, ...]]  # day, hour, the tags that the reader sees


@dataclass(frozen=True, slots=True, kw_only=True)
class Reserved:
    """
    What is reserved for ``reader``; of the rest of what is carried nothing comes out.

    ``panels``: a panel's frame, hashed → for 1 to 10 m behind it 1 where it is reserved.
    ``blocks``: a hull with the ground round it, hashed → whether it is. ``squares``: by their
    lower left corner on the site grid, in sides of ``side_m``.
    """

    reader: str
    heads: tuple[tuple[str, int, str], ...]  # writer, count, hash of the last link
    anywhere: bool
    panels: Mapping[str, str]
    blocks: Mapping[str, bool]
    squares: tuple[tuple[int, int], ...]
    side_m: float
    undone: tuple[Undone, ...] = ()
    unread: Mapping[str, int]
    signer: str = ""  # public key, 64 hex digits, of whoever signed the bag it came in

    def behind(self, frame: FaceFrame, reach_m: float) -> bool:
        """Return whether a panel is reserved, asked in whole metres behind it."""
        told = "" if self.anywhere else self.panels.get(named(frame), "")
        return not 1 <= reach_m <= len(told) or told[int(reach_m) - 1] != "0"

    def below(self, blocks: Mapping[str, Box], asked: Box) -> bool:
        """Return whether a spot is in a reserved module, or near one; ``blocks`` by their hull."""
        by_name = {block_name(tag, box): box for tag, box in blocks.items()}
        if self.anywhere or not by_name.keys() <= self.blocks.keys():
            return True
        own = (box for name, box in by_name.items() if self.blocks[name])
        return any(_meet(asked, box) for box in (*own, *map(self._square, self.squares)))

    def modules(
        self, blocks: Mapping[str, Box]
    ) -> tuple[frozenset[str], frozenset[tuple[int, int]]] | None:
        """Return the hulls and the squares that are reserved; None: all there is."""
        by_name = {block_name(tag, box): tag for tag, box in blocks.items()}
        if self.anywhere or not by_name.keys() <= self.blocks.keys():
            return None
        own = frozenset(tag for name, tag in by_name.items() if self.blocks[name])
        return own, frozenset(self.squares)

    def _square(self, corner: tuple[int, int]) -> Box:
        x, y = (each * self.side_m for each in corner)
        return x, y, x + self.side_m, y + self.side_m


def _meet(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


def named(frame: FaceFrame) -> str:
    """Return a hash of where a panel is: one that was moved since is another."""
    return _hash(repr(frame))


def block_name(tag: str, box: Box) -> str:
    return _hash(f"{tag} {box!r}")


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:32]


def written(reserved: Reserved, stubs: str) -> bytes:
    """Return it as a file: one line of JSON, and its SHA-256 on the next."""
    form = {"asburied_reserved": FORM, "lacks": stubs, **asdict(reserved)}
    line = json.dumps(form, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return f"{line}\n{hashlib.sha256(line.encode()).hexdigest()}\n".encode()


def read_reserved(data: bytes, stubs: str) -> Reserved | None:
    """Return what a file says that is of a copy with just these stubs; None where it is not."""
    line, _, seal = data.partition(b"\n")
    if seal.strip().decode("ascii", "replace") != hashlib.sha256(line).hexdigest():
        return None
    try:
        form = json.loads(line)
        if form.pop("asburied_reserved") != FORM or form.pop("lacks") != stubs:
            return None
        lists = ("heads", "squares", "undone")
        return Reserved(**{**form, **{name: tuple(map(tuple, form[name])) for name in lists}})
    except (ValueError, TypeError, KeyError, AttributeError):
        return None


def holds(reserved: Reserved, entries: Sequence[Entry]) -> bool:
    """
    Return whether nothing came in since it was packed that may have moved anything.

    ``entries`` lack the very contents that they lacked then. What came in since must be told to
    this copy, mend nothing, and be of a kind that places nothing.
    """
    counts = {writer: count for writer, count, _ in reserved.heads}
    hashes = {entry.hash for entry in entries}
    if not {head for _, _, head in reserved.heads} <= hashes:
        return False
    if len(counts) < len(reserved.heads) or _forked(entries):
        return False
    return all(map(_moves_nothing, _newer(entries, counts)))


def _forked(entries: Sequence[Entry]) -> bool:
    return len({(e.link.writer, e.link.seq) for e in entries}) < len(entries)


def _newer(entries: Iterable[Entry], counts: Mapping[str, int]) -> Iterable[Entry]:
    return (e for e in entries if e.link.seq > counts.get(e.link.writer, 0))


def _moves_nothing(entry: Entry) -> bool:
    content = entry.content
    kind = STORED.get(content.kind) if content else None
    return bool(content and kind and kind.word in MOVES_NOTHING and not content.replaces)


def carried_in(files: _Files, entries: Sequence[Entry]) -> Reserved | None:
    """Return what goes with a copy, of those very contents that it lacks; None where nothing."""
    lacks = stubs(entries)
    found = files.found(PLACE, lacks) if lacks else None
    reserved = read_reserved(found.data, lacks) if found and lacks else None
    if found is None or lacks is None or reserved is None:
        return None
    proof = proof_kept(files, lacks)
    if proof is None:
        return None if reserved.signer else reserved
    _, wrong = signed_by(proof, reserved, entries, found.sha256)
    return None if wrong else reserved


def signed_by(
    proof: Proof, reserved: Reserved, entries: Sequence[Entry], sha256: str
) -> tuple[OfKey, str]:
    """Return who signed the bag it came in, and why that is not over it; "" where it is."""
    of_key = judged(proof, entries, {writer: count for writer, count, _ in reserved.heads})
    if not of_key.counts:
        return of_key, f"the signature of its bag does not count: {of_key.why}"
    covered = proof.covers(path_of(stubs(entries) or ""), sha256)
    return of_key, "" if covered else f"it is not what {of_key.signer} signed"


def proof_kept(files: _Files, stubs: str) -> Proof | None:
    """Return what the bag was signed with that a copy with these stubs was made of."""
    kept = files.found(PACKED, stubs)
    return read_proof(kept.data) if kept else None


def path_of(stubs: str) -> str:
    """Return where the file lies in a bag."""
    return f"data/{PLACE}/{stubs}{SUFFIX}"


def heads_of(entries: Sequence[Entry]) -> tuple[tuple[str, int, str], ...]:
    """Return writer, count and last hash of every chain, as the checkpoint has them."""
    lines = checkpoint(entries[0].link.site, entries).text.splitlines()[1:]
    words = (line.split(" ") for line in lines)
    return tuple((writer, int(count), head) for writer, count, head in words)
