"""No proof has lapsed that nobody renewed."""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.proofs import NOT_TOLD, VOID, Proof, Undone, lapses_alone, proofs
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find tests that were undone by later work, or by nobody knows what, and not passed since."""
    tags = {thing.tag for thing in hidden.everything()}
    for proof in proofs(hidden.view):
        if proof.about.partition("/")[0] in tags and proof.state in (VOID, NOT_TOLD):
            yield from _found(hidden, proof)
    for alone in lapses_alone(hidden.view):
        yield from _alone(hidden, alone, tags)


def _alone(hidden: Hidden, alone: Undone, tags: set[str]) -> Iterator[Finding]:
    lapsed = alone.doing.happening
    if lapsed is None or lapsed.about not in tags or hidden.after_cover(lapsed.about, lapsed):
        return
    test = alone.doing.test or "not recorded"
    yield RULE.finding(
        lapsed.about,
        f"{test}: VOID since {lapsed.moment}, and no such test is recorded as passed "
        f"({alone.words})",
        clears=_again(lapsed.about, test),
        entries=lapsed.entries(),
    )


def _again(tag: str, test: str) -> tuple[str, ...]:
    return (
        f"## tested {tag}",
        f"- test: {test}",
        "- result: passed",
        "with its reading, limit and instrument",
    )


def _found(hidden: Hidden, proof: Proof) -> Iterator[Finding]:
    tag = proof.about
    before = [
        one
        for one in proof.undone
        if one.doing.happening is None or not hidden.after_cover(tag, one.doing.happening)
    ]
    if proof.state == VOID and not before:
        return  # undone after it went under: another covering's business
    causes = [one.doing.happening.entry for one in before if one.doing.happening is not None]
    said = "; ".join(one.words for one in before) or proof.doubt
    yield RULE.finding(
        tag,
        f"{proof.name}: {proof.words}, and not passed since ({said})",
        clears=_again(tag, proof.name),
        entries=(proof.test.entry, *causes),
        sure=CERTAIN if proof.state == VOID else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="no lapsed proof",
    why=(
        "Welding, drilling or opening again undoes what a test proved before. Covered without a "
        "new test, the old result reads as if it still held."
    ),
    find=find,
)
