"""What is still open when the crew leaves is in somebody's hands."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.values import Absent, Why, in_words
from record.readers import View

SETTLED = ("done", "closed", "settled")


def find(view: View) -> Iterator[Finding]:
    """Find hand-over items that are not said to be done and that nobody has, or may have."""
    for item in view.built.of_kind("hand-over item"):
        whose = item.value("by_whom")
        if (item.text("state") or "").casefold() in SETTLED or not isinstance(whose, Absent):
            continue
        yield RULE.finding(
            item.tag,
            f"{item.words('what')}: by whom it is settled is {in_words(whose)}",
            clears=(f"## hand-over item {item.tag}", "- by whom: who settles it"),
            entries=item.entries(),
            sure=CERTAIN if whose.why is Why.NONE else CANNOT_BE_TOLD,
        )


RULE = HandoverRule(
    word="every open item has somebody's name",
    why=(
        "What is left to everybody is done by nobody. An open item with one name beside it can be "
        "asked after, and the owner knows whom to ring. (Common practice, no source.)"
    ),
    find=find,
)
