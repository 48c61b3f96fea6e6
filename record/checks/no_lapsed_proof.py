"""No proof has lapsed that nobody renewed."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import when
from record.facts.looks import PROOFS
from record.fold import Happening
from record.fold.looks import title


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find tests that were voided by later work and not passed since."""
    for thing in hidden.everything():
        for lapsed in hidden.built.about(thing.tag, "proof lapsed"):
            after = hidden.after_cover(thing.tag, lapsed)
            if not after and not _renewed(hidden, thing.tag, lapsed):
                yield RULE.finding(
                    thing.tag,
                    f"{lapsed.words('test')}: void since {lapsed.moment} "
                    f"({lapsed.words('cause')}), and not passed since",
                    clears=(
                        f"## tested {thing.tag}",
                        f"- test: {lapsed.words('test')}",
                        "- result: passed",
                        "with its reading, limit and instrument",
                    ),
                    entries=lapsed.entries(),
                )


def _renewed(hidden: Hidden, tag: str, lapsed: Happening) -> bool:
    said = lapsed.text("test")
    return said is not None and any(
        test.text("result") == "passed"
        and title(test).casefold() == said.casefold()
        and when(lapsed).by(when(test))
        for test in hidden.built.about(tag, *PROOFS)
    )


RULE = Rule(
    word="no lapsed proof",
    why=(
        "Welding, drilling or opening again undoes what a test proved before. Covered without a "
        "new test, the old result reads as if it still held."
    ),
    find=find,
)
