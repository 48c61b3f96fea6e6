"""Proofs in words, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.accounts.proofs import VOID, Proof, Undone
from record.fold.looks import found


def words(proofs: Sequence[Proof]) -> Iterator[str]:
    """Yield each proof: what it is of, what it proved, and what has undone it."""
    if not proofs:
        yield "No test that passed is recorded."
    for proof in proofs:
        yield f"{proof.about}: {proof.name}, passed {proof.test.moment} ({proof.test.entry.number})"
        yield f"  {proof.words}"
        yield from (f"  undone by {one.words}" for one in proof.undone)
        for test, undone in proof.earlier:
            yield f"  before: passed {test.moment}, {found(test)} ({test.entry.number})"
            yield from (f"    undone by {one.words}" for one in undone)
    if any(proof.state == VOID for proof in proofs):
        yield ""
        yield "A void test proves nothing until the same test is passed again."


@dataclass(frozen=True, slots=True)
class VoidRow:
    """One time a test stopped proving anything, for a table."""

    since: str
    of: str
    test: str
    why: str
    now: str


def void_rows(proofs: Sequence[Proof]) -> Iterator[VoidRow]:
    """Yield every time a test was undone, and whether it was passed again."""
    for proof in proofs:
        again = f"passed again {proof.test.moment} ({proof.test.entry.number})"
        undone = [one for _, earlier in proof.earlier for one in earlier]
        for now, each in ((again, undone), ("not passed since", proof.undone)):
            for doing in dict.fromkeys(each):
                yield VoidRow(doing.doing.moment, proof.about, proof.name, doing.words, now)


def form(proof: Proof) -> dict[str, object]:
    """Return the JSON form of one proof."""
    return {
        "about": proof.about,
        "test": proof.name,
        "passed": proof.test.moment,
        "found": found(proof.test),
        "entry": proof.test.entry.number,
        "state": proof.state,
        "void_since": proof.since,
        "undone_by": [_undone_form(one) for one in proof.undone],
        "earlier": [
            {
                "passed": test.moment,
                "found": found(test),
                "entry": test.entry.number,
                "undone_by": [_undone_form(one) for one in undone],
            }
            for test, undone in proof.earlier
        ],
        "doubt": proof.doubt or None,
    }


def _undone_form(one: Undone) -> dict[str, object]:
    happening = one.doing.happening
    return {
        "moment": one.doing.moment,
        "what": sorted(one.doing.what),
        "entry": happening.entry.number if happening else None,
        "source": one.source,
    }
