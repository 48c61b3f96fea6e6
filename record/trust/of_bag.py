"""Who signed a bag, by the keys that its record introduces, and what the signature is worth."""

from __future__ import annotations

import re
from base64 import b64decode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from record.entry import Entry, tips
from record.fold import mends, sight
from record.proof import TAG_MANIFEST, Proof
from record.trust.ed25519 import BEFORE_KEY, holds
from record.trust.judge import GIVEN_UP, INTRODUCED, Introduced, Standing


@dataclass(frozen=True, slots=True)
class OfKey:
    """Whose a key is, as the record says, and what a signature by it is worth."""

    signer: str
    standing: Standing
    why: str = ""

    @property
    def counts(self) -> bool:
        """Return whether it is over what it says, by a key that the record knows."""
        return self.standing not in (Standing.BAD, Standing.KEY_UNKNOWN)

    @property
    def worth(self) -> str:
        return f"{self.standing} ({self.why})" if self.why else str(self.standing)


def key_of_bag(entries: Sequence[Entry], public: str, counts: Mapping[str, int]) -> OfKey:
    """
    Return what a signature over a whole record is worth that says nothing of its day.

    ``counts``: writer → how many entries were signed. What is newer had not been seen.
    """
    seen = sight(entries)
    record = Introduced(entries, seen, mends(entries, seen), tips(entries))
    known = record.stand(INTRODUCED, public)
    owners = [str(e.content.body.get("writer")) for e in known if e.content]
    if not owners:
        return OfKey("", Standing.KEY_UNKNOWN, "nobody introduced this key")
    given_up = [*record.stand(GIVEN_UP, public)]
    before = [e for e in given_up if e.link.seq <= counts.get(e.link.writer, 0)]
    if before:
        why = f"given up before it was packed ({before[0].number})"
        return OfKey(owners[0], Standing.KEY_GIVEN_UP, why)
    if given_up:
        why = f"given up since ({given_up[0].number}): it may have been signed after"
        return OfKey(owners[0], Standing.IN_DOUBT, why)
    return OfKey(owners[0], Standing.GOOD)


def judged(proof: Proof, entries: Sequence[Entry], counts: Mapping[str, int]) -> OfKey:
    """
    Return who signed a bag and what that is worth, by the keys that ``entries`` introduce.

    ``counts``: writer → how many entries of theirs the bag held.
    """
    public = _public(proof.key)
    if not holds(public, proof.tag_manifest.encode(), hexed(proof.signature)):
        return OfKey("", Standing.BAD, f"the signature is not over {TAG_MANIFEST}")
    return key_of_bag(entries, public.hex(), counts)


def _public(pem: str) -> bytes:
    """Return the 32 bytes of an Ed25519 key in PEM; none where it is no such key."""
    body = re.sub(r"-----[A-Z ]+-----|\s", "", pem)
    try:
        der = b64decode(body, validate=True)
    except ValueError:
        return b""
    return der.removeprefix(BEFORE_KEY) if der.startswith(BEFORE_KEY) else b""


def hexed(text: str) -> bytes:
    try:
        return bytes.fromhex(text)
    except ValueError:
        return b""
