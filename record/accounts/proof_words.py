"""Proofs in words, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

from record.accounts.proofs import NOT_TOLD, VOID, Proof, Undone, proofs
from record.fold.looks import found
from record.readers import View
from record.words import tell


def words(told: Sequence[Proof]) -> Iterator[str]:
    """Yield each proof: what it is of, what it proved, and what has undone it."""
    if not told:
        yield "No test that passed is recorded."
    for proof in told:
        yield from proof_lines(proof)
    if any(proof.state == VOID for proof in told):
        yield ""
        yield "A void test proves nothing until the same test is passed again."


def proof_lines(proof: Proof) -> Iterator[str]:
    """Yield one proof: what passed, whether it stands, what undid it, and the tests before it."""
    yield f"{proof.about}: {proof.name}, passed {proof.test.moment} ({proof.test.entry.number})"
    yield f"  {proof.words}"
    yield from (f"  undone by {one.words}" for one in proof.undone)
    for test, undone in proof.earlier:
        yield f"  before: passed {test.moment}, {found(test)} ({test.entry.number})"
        yield from (f"    undone by {one.words}" for one in undone)


def doubts(view: View, tags: Set[str] | None = None) -> Mapping[str, str]:
    """
    Return, by the hash of its entry, what to say beside the result of a test that is void: of
    tests that concern one of the tags, else of all.
    """
    return doubts_of(proofs(view, tags))


def doubts_of(told: Sequence[Proof], *, why: bool = True) -> Mapping[str, str]:
    """
    Return the same of these proofs.

    Unless ``why``, what undid a test is left to a list beside (:func:`void_rows`).
    """
    said: dict[str, str] = {}
    for proof in told:
        if proof.state in (VOID, NOT_TOLD):
            because = "".join(f"; {one.words}" for one in proof.undone if why)
            said[proof.test.entry.hash] = tell(
                "accounts.not_passed_since", words=proof.words, because=because
            )
        for test, undone in proof.earlier:
            if not undone and proof.state == VOID:
                said[test.entry.hash] = said[proof.test.entry.hash]
            elif undone:
                since = min(one.doing.moment for one in undone)
                again = tell(
                    "accounts.passed_again",
                    moment=proof.test.moment,
                    number=proof.test.entry.number,
                )
                said[test.entry.hash] = tell("accounts.void_until", since=since, again=again)
    return said


@dataclass(frozen=True, slots=True)
class VoidRow:
    """One time a test stopped proving anything, for a table."""

    since: str
    of: str
    test: str
    why: str
    now: str


def void_rows(told: Sequence[Proof]) -> Iterator[VoidRow]:
    """Yield every time a test was undone, and whether it was passed again."""
    for proof in told:
        again = tell(
            "accounts.passed_again", moment=proof.test.moment, number=proof.test.entry.number
        )
        undone = [one for _, earlier in proof.earlier for one in earlier]
        for now, each in ((again, undone), (tell("accounts.not_passed"), proof.undone)):
            for place, doing in enumerate(each):
                if doing in each[:place]:
                    continue  # one hole undid two tests before it: told once
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
        "what": sorted(one.doing.what) if happening else [],  # a reader is told no more
        "entry": happening.entry.number if happening else None,
        "source": one.source,
    }
