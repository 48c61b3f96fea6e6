"""Whether each signature of a record holds, and what has been written since.

A clock decides nothing that can be told without one: what a key was given up for stays in doubt
where the giving up had not seen the signature.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from record.entry import Entry, tips
from record.fold import Mends, Sight, mends, sight
from record.trust.ed25519 import holds
from record.trust.signed import Head, message, read_heads

SIGNED, INTRODUCED, GIVEN_UP = "signed-off", "writer-key", "key-given-up"


class Standing(StrEnum):
    """What a signature is worth."""

    GOOD = "good"
    BAD = "bad"
    KEY_UNKNOWN = "key unknown"
    KEY_GIVEN_UP = "key given up before"
    IN_DOUBT = "order not known"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Covered:
    """One chain that was signed: to which entry, and how many of it came since."""

    head: Head
    since: int
    since_of_day: int  # of them, those true of the day that was signed
    fault: str = ""  # the head is not here, or the chain no longer rests on it

    @property
    def to(self) -> str:
        return f"{self.head.writer}-{self.head.count}"


@dataclass(frozen=True, slots=True)
class Judged:
    """One sign-off, what it is worth, and what it covers."""

    entry: Entry
    signer: str
    day: str
    standing: Standing
    why: str
    covers: tuple[Covered, ...]

    @property
    def faulty(self) -> bool:
        """Whether something is wrong with the record, and not only with a key."""
        if self.standing is Standing.WITHDRAWN:
            return False
        return self.standing is Standing.BAD or any(one.fault for one in self.covers)


def judge(entries: Sequence[Entry]) -> tuple[Judged, ...]:
    """Return every sign-off that can be read, in showing order, with what it is worth."""
    signed = [e for e in entries if e.content and e.content.kind == SIGNED]
    if not signed:
        return ()
    seen = sight(entries)
    mended = mends(entries, seen)
    record = Introduced(entries, seen, mended, tips(entries))
    return tuple(_judged(entry, record) for entry in signed)


@dataclass(frozen=True, slots=True)
class Introduced:
    """A record's entries, and which of them about keys stand."""

    entries: Sequence[Entry]
    seen: Sight
    mended: Mends
    tips: Mapping[str, tuple[Entry, ...]]

    def stand(self, kind: str, public: str) -> Iterator[Entry]:
        """Yield the entries of a kind about a key that nobody withdrew."""
        for entry in self.entries:
            if entry.content and entry.content.kind == kind:
                same = entry.content.body.get("public_key") == public
                if same and entry.hash not in self.mended.withdrawn_by:
                    yield entry


def _judged(entry: Entry, record: Introduced) -> Judged:
    assert entry.content is not None
    body = {name: str(value) for name, value in entry.content.body.items()}
    signer, day = body.get("signer", ""), body.get("day", "")
    heads = read_heads(body.get("chains", ""))
    covers = tuple(_covered(entry, head, day, record) for head in heads or ())
    if entry.hash in record.mended.withdrawn_by:
        by = record.mended.withdrawn_by[entry.hash][0].number
        return Judged(entry, signer, day, Standing.WITHDRAWN, f"withdrawn by {by}", covers)
    standing, why = _worth(entry, signer, day, heads, body, record)
    return Judged(entry, signer, day, standing, why, covers)


def _worth(
    entry: Entry,
    signer: str,
    day: str,
    heads: Sequence[Head] | None,
    body: Mapping[str, str],
    record: Introduced,
) -> tuple[Standing, str]:
    public, signature = body.get("public_key", ""), body.get("signature", "")
    if entry.content and entry.content.replaces:
        return Standing.BAD, "a signature is not mended: withdraw it, and sign anew"
    if heads is None:
        return Standing.BAD, "the chains it covers cannot be read"
    said = message(entry.link.site, signer, day, heads)
    if not holds(_bytes(public), said, _bytes(signature)):
        return Standing.BAD, "the signature is not of what it says it covers"
    introduced = [
        e
        for e in record.stand(INTRODUCED, public)
        if e.content and e.content.body.get("writer") == signer
    ]
    if not introduced:
        return Standing.KEY_UNKNOWN, f"nobody introduced this key as {signer}'s"
    for given_up in record.stand(GIVEN_UP, public):
        since = str(given_up.content.body.get("since", "")) if given_up.content else ""
        if entry.content and entry.content.on >= since:
            return Standing.KEY_GIVEN_UP, f"given up since {since} ({given_up.number})"
        if not record.seen.saw(given_up, entry):
            return (
                Standing.IN_DOUBT,
                f"the key was given up since {since} by somebody who had not seen this signature "
                f"({given_up.number}): it may have been made after, with an earlier day",
            )
    return Standing.GOOD, ""


def _bytes(text: str) -> bytes:
    try:
        return bytes.fromhex(text)
    except ValueError:
        return b""


def _covered(entry: Entry, head: Head, day: str, record: Introduced) -> Covered:
    at = record.seen.here.get(head.hash)
    if at is None:
        return Covered(head, 0, 0, "what it signed is not in this record")
    if (at.link.writer, at.link.seq) != (head.writer, head.count):
        return Covered(head, 0, 0, f"what it signed is {at.place}, and not {head.line[:-65]}")
    covered = _beneath(at, record)
    since = [
        e
        for e in record.entries
        if e.link.writer == head.writer
        and e.hash not in covered
        and not (e.content and e.content.kind == SIGNED)
    ]
    fault = ""
    tip = record.tips[head.writer][0]
    if at.hash not in _beneath(tip, record):
        fault = f"the chain of {head.writer} no longer rests on it: it goes on to {tip.number}"
    elif not record.seen.saw(entry, at):
        fault = f"{entry.number} had not seen what it signs"
    of_day = sum(1 for e in since if e.content and e.content.on == day)
    return Covered(head, len(since), of_day, fault)


def _beneath(entry: Entry, record: Introduced) -> frozenset[str]:
    """Return the hashes of an entry and of all it rests on, in its branch of the chain."""
    found = set()
    at: Entry | None = entry
    while at is not None and at.hash not in found:
        found.add(at.hash)
        at = record.seen.here.get(at.link.prev or "")
    return frozenset(found)
