"""What `verify` and `merge` say of what a copy reserves, and of the signature over that."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log.folder import Files, Found
    from record.reserved import Reserved
    from record.trust import OfKey

UNSIGNED = (
    "  Nobody signed it (pack --as): whoever wrote it anew could have freed what was reserved."
)


@dataclass(frozen=True, slots=True)
class Told:
    words: tuple[str, ...] = ()
    form: dict[str, Any] | None = None
    faulty: bool = False


def reserved_of(files: Files, entries: Sequence[Entry]) -> Told:
    """Return what goes with a copy for what it lacks, whether it holds, and who signed it."""
    from record.entry import stubs
    from record.reserved import PLACE, holds, read_reserved

    lacks = stubs(entries)
    found = files.found(PLACE, lacks) if lacks else None
    if lacks is None or found is None:
        return Told()
    reserved = read_reserved(found.data, lacks)
    if reserved is None:
        return _changed(found, None, "it was changed, or is of another version")
    of_key, wrong = _signature(files, entries, lacks, found, reserved)
    if wrong:
        return _changed(found, reserved, wrong, of_key)
    holding = holds(reserved, entries)
    now = "holds" if holding else "something came in since that may move things: all is reserved"
    words = (
        f"What is reserved of what this copy lacks, as packed for {reserved.reader}: {now}.",
        f"  Its SHA-256, which the bag's README.txt tells too: {found.sha256}",
        f"  Signed with all of its bag by {of_key.signer}: {of_key.worth}" if of_key else UNSIGNED,
    )
    return Told(words, _form(found, reserved, of_key, holds=holding))


def _changed(
    found: Found, reserved: Reserved | None, wrong: str, of_key: OfKey | None = None
) -> Told:
    words = (f"{found.where}: {wrong}: everything is reserved",)
    return Told(words, _form(found, reserved, of_key, holds=False), faulty=True)


def _form(
    found: Found, reserved: Reserved | None, of_key: OfKey | None, *, holds: bool
) -> dict[str, Any]:
    return {
        "sha256": found.sha256,
        "reader": reserved.reader if reserved else None,
        "holds": holds,
        "signed_by": of_key.signer or None if of_key else None,
        "signature": of_key.worth if of_key else None,
    }


def _signature(
    files: Files, entries: Sequence[Entry], lacks: str, found: Found, reserved: Reserved
) -> tuple[OfKey | None, str]:
    """Return who signed the bag, None where nobody did, and what is wrong, "" where nothing is."""
    from record.reserved import proof_kept, signed_by

    proof = proof_kept(files, lacks)
    if proof is None:
        gone = "it was signed with its bag, and the signature is gone or unreadable"
        return None, gone if reserved.signer else ""
    return signed_by(proof, reserved, entries, found.sha256)
