"""Everything the covering names is recorded."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Absent, in_words


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find tags of the covering that nothing is recorded of, and a covering that names none."""
    tag = hidden.covering.tag
    hides = hidden.covering.value("hides")
    if isinstance(hides, Absent):
        yield RULE.finding(
            tag,
            f"what it hides: {in_words(hides)}",
            clears=(f"## covering {tag}", "- hides: the tags of all it will hide, with commas"),
            entries=hidden.covering.entries(),
            sure="cannot be told",
        )
    for named in hidden.named:
        if named not in hidden.built.things:
            yield RULE.finding(
                named,
                f"nothing is recorded of it, and {tag} will hide it",
                clears=(
                    f"a block about {named} with what it is, where it lies and how it is made",
                ),
                entries=hidden.covering.entries(),
            )


RULE = Rule(
    word="all it hides is recorded",
    why=(
        "Once it is covered, what was not written down can only be found by digging, and whoever "
        "digs does not know it is there."
    ),
    find=find,
)
