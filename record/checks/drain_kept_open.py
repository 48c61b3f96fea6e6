"""What keeps a drain open is written: its screen, and what guards it from frost."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.pipes import DRAINAGE
from record.facts.values import Absent, Why, in_words

NAMES = ("screen", "freeze_protection")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find drains, and runs that carry water off, of which one of the two is not written."""
    drains = (*hidden.drains, *(run for run in hidden.runs if _drains(run.text("carries"))))
    for drain in drains:
        lacks = [name for name in NAMES if _not_said(drain.value(name))]
        if lacks:
            said = ", ".join(f"{n.replace('_', ' ')} {in_words(drain.value(n))}" for n in lacks)
            yield RULE.finding(
                drain.tag,
                said,
                clears=(
                    f"## {drain.kind.word} {drain.tag}",
                    *(f"- {name.replace('_', ' ')}: what it is, or none" for name in lacks),
                ),
                entries=drain.entries(),
                sure=CANNOT_BE_TOLD,
                stops=False,
            )


def _drains(carries: str | None) -> bool:
    return carries is None or carries in DRAINAGE


def _not_said(value: object) -> bool:
    return isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)


RULE = Rule(
    word="drain kept open",
    why=(
        "A drain without a screen lets animals in, and one in the frost zone freezes shut in the "
        "month it is needed. Whoever looks after it must know which of the two to expect."
    ),
    find=find,
)
